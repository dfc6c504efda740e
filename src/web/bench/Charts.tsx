/** Response and guide position, drawn; what is to be said about the answer beside them. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { completed, findPath, type Prediction, type Project, pathText } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { levelFigure, phaseFigure } from "../../figure/responseFigures.ts";
import { scanFigure } from "../../figure/scanFigure.ts";
import { responseTable, scanTable } from "../../figure/tables.ts";
import { resolutionWords, benchWords as words } from "../../words/en/bench.ts";
import { Cards } from "./Cards.tsx";
import { Chart, ChartTable } from "./Chart.tsx";

export function Charts(props: { readonly prediction: Prediction; readonly project: Project }): JSX.Element {
  const guides = createMemo(() => guidePositions(props.project));
  return (
    <div class="charts">
      <section class="panel response" aria-labelledby="response">
        <h2 id="response">
          {words.response} <span class="aside">{words.responseHint}</span>
        </h2>
        <Chart
          draw={(room) =>
            levelFigure(props.prediction, { ...room, height: between(250, room.width / 3.4, 420), colors: pageColors })
          }
        />
        <Chart
          draw={(room) =>
            phaseFigure(props.prediction, { ...room, height: between(170, room.width / 6, 240), colors: pageColors })
          }
        />
        <ChartTable caption={words.response} columns={responseTable(props.prediction)} />
      </section>
      <section class="panel scan" aria-labelledby="scan">
        <h2 id="scan">
          {words.scan} <span class="aside">{words.scanHint}</span>
        </h2>
        <Chart
          draw={(room) =>
            scanFigure(props.prediction, guides(), {
              ...room,
              height: between(240, room.width / 3, 360),
              colors: pageColors,
            })
          }
        />
        <ChartTable caption={words.scan} columns={scanTable(props.prediction)} />
      </section>
      <div class="notes">
        <section class="panel remarks" aria-labelledby="remarks">
          <h2 id="remarks">{words.remarks}</h2>
          <Show when={props.prediction.remarks.length > 0} fallback={<p>{words.noRemarks}</p>}>
            <ul>
              <For each={props.prediction.remarks}>
                {({ path, message }) => (
                  <li>
                    <Show when={path.length > 0}>
                      <span class="aside">{labelOf(path)}: </span>
                    </Show>
                    {message}
                  </li>
                )}
              </For>
            </ul>
          </Show>
          <p class="aside">{resolutionWords(props.prediction.resolution)}</p>
        </section>
        <Cards prediction={props.prediction} />
      </div>
    </div>
  );
}

const between = (least: number, wanted: number, most: number): number =>
  Math.round(Math.min(Math.max(wanted, least), most));

function guidePositions(project: Project): readonly number[] {
  const guide = completed(project.file).microphone?.guide;
  const paths = Array.isArray(guide) ? guide.map((_, i) => `microphone.guide[${i}].at`) : ["microphone.guide.at"];
  return paths.flatMap((path) => {
    const found = findPath(path);
    const value = found.ok ? found.value.read(project) : found;
    return value.ok ? [value.value] : [];
  });
}

function labelOf(path: readonly (string | number)[]): string {
  const found = findPath(path);
  return found.ok ? found.value.label : pathText(path);
}
