/** The guide as it is made: values, index profile, both modes as pictures. */
import { For, type JSX, Show } from "solid-js";
import { changeValue, type GuideView } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { modeContours, profileColumns, profileFigure, sayProfile } from "../../figure/lightFigures.ts";
import { modeRows, pictureText, lightWords as words } from "../../words/en/light.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Field } from "../shell/Field.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import {
  fieldsOf,
  guideText,
  layerFields,
  layersOf,
  layersPath,
  madeSo,
  type Way,
  wayOf,
  ways,
} from "./guideFields.ts";
import { Rows } from "./Rows.tsx";

export function GuidePanel(): JSX.Element {
  const work = useWork();
  const way = () => wayOf(work.project());
  const view = taskAnswer("guideView", () => (way() === "hand" ? null : { text: guideText(work.project()) }));
  function make(next: Way): void {
    const changed = madeSo(work.project(), next);
    if (changed.ok) work.replace(changed.value, `${words.howMade}: ${words.ways[next]}`);
  }
  return (
    <Panel title={words.guide} aside={words.guideAside} wide>
      <fieldset class="guide-ways">
        <legend>{words.howMade}</legend>
        <For each={ways}>
          {(one) => (
            <label>
              <input type="radio" name="guide-way" checked={way() === one} onChange={() => make(one)} />
              {words.ways[one]}
            </label>
          )}
        </For>
      </fieldset>
      <Show when={way() === "hand"}>
        <p class="aside">{words.byHand}</p>
      </Show>
      <div class="light-fields">
        <For each={fieldsOf(work.project(), way())}>{(spec) => <Field spec={spec} bench={work} />}</For>
      </div>
      <Show when={layersPath(work.project())}>{(path) => <Layers path={path()} />}</Show>
      <Show when={way() !== "hand"}>
        <TaskState answer={view} what={words.what} />
        <Show when={view.value()}>
          {(found) => (
            <>
              <div class="pair">
                <div>
                  <h4>{words.profile}</h4>
                  <Chart
                    name={words.profile}
                    draw={(room) => profileFigure(found(), { ...room, height: 260, colors: pageColors })}
                    live={null}
                    say={sayProfile}
                  />
                  <ChartTable caption={words.profile} columns={profileColumns(found())} />
                </div>
                <Rows rows={modeRows(found())} />
              </div>
              <h4>{words.pictures}</h4>
              <div class="pair">
                <Picture picture={found().te} mode={found().modes.te} title={words.te} />
                <Picture picture={found().tm} mode={found().modes.tm} title={words.tm} />
              </div>
            </>
          )}
        </Show>
      </Show>
    </Panel>
  );
}

/** Each layer's values, from the face inward. */
function Layers(props: { readonly path: string }): JSX.Element {
  const work = useWork();
  const count = () => layersOf(work.project()).length;
  function write(layers: readonly unknown[], says: string): void {
    const changed = changeValue(work.project(), props.path, JSON.stringify(layers));
    if (changed.ok) work.replace(changed.value, says);
  }
  return (
    <>
      <For each={Array.from({ length: count() }, (_, i) => i)}>
        {(i) => (
          <section class="guide-layer">
            <h4>{words.layer(i)}</h4>
            <div class="light-fields">
              <For each={layerFields(props.path, i)}>{(spec) => <Field spec={spec} bench={work} />}</For>
            </div>
          </section>
        )}
      </For>
      <p class="light-buttons">
        <button
          type="button"
          onClick={() => write([...layersOf(work.project()), { thickness: "1 um", index: 1.53 }], words.addLayer)}
        >
          {words.addLayer}
        </button>
        <Show when={count() > 1}>
          <button type="button" onClick={() => write(layersOf(work.project()).slice(0, -1), words.removeLayer)}>
            {words.removeLayer}
          </button>
        </Show>
      </p>
    </>
  );
}

/** Contours of the intensity at 5, 13.5, 30, 50, 70, 90 % of the brightest spot; lengths to scale. */
function Picture(props: {
  readonly picture: GuideView["te"];
  readonly mode: GuideView["modes"]["te"];
  readonly title: string;
}): JSX.Element {
  const size = () => {
    const { x, z } = props.picture;
    const [left, right] = [(x[0] ?? 0) * 1e6, (x.at(-1) ?? 0) * 1e6];
    const [top, bottom] = [(z[0] ?? 0) * 1e6, (z.at(-1) ?? 0) * 1e6];
    return { left, top, width: right - left, height: bottom - top };
  };
  const box = () => `${size().left} ${size().top} ${size().width} ${size().height}`;
  const bar = () => 10 ** Math.floor(Math.log10(size().width / 3));
  const says = () => pictureText(props.title, props.mode, bar() * 1e-6);
  return (
    <figure class="mode-picture">
      <svg viewBox={box()} role="img" aria-label={says()}>
        {/* Wider than the picture: it fills whatever room the page gives. */}
        <rect x={6 * size().left} y={0} width={6 * size().width} height={6 * size().height} class="mode-glass" />
        <For each={modeContours(props.picture)}>
          {({ share, path }) => (
            <path d={path} class="mode-light" style={{ "fill-opacity": String(0.12 + 0.1 * share) }} />
          )}
        </For>
        <line x1={6 * size().left} x2={-6 * size().left} y1={0} y2={0} class="mode-face" />
        <line
          x1={size().left + 0.04 * size().width}
          x2={size().left + 0.04 * size().width + bar()}
          y1={size().top + 0.95 * size().height}
          y2={size().top + 0.95 * size().height}
          class="mode-bar"
        />
      </svg>
      <figcaption>{says()}</figcaption>
    </figure>
  );
}
