/** The guide as it is made: values, index profile, both modes as pictures, the window of one mode, the time in the bath. */
import { createSignal, For, type JSX, Show } from "solid-js";
import { changeValue, type GuideView, projectText, removeValue } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { modeContours, profileColumns, profileFigure, sayProfile } from "../../figure/lightFigures.ts";
import { modeRows, lightWords as words } from "../../words/en/light.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Field } from "../shell/Field.tsx";
import type { FieldSpec } from "../shell/fieldSpec.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { Rows } from "./Rows.tsx";
import { WindowPanel } from "./WindowPanel.tsx";

const process = "microphone.guide.process";
const bathFields: readonly FieldSpec[] = [
  { path: `${process}.salt`, label: "Molten salt", choices: ["potassium", "silver"] },
  { path: `${process}.temperature` },
  { path: `${process}.time` },
  { path: `${process}.window`, label: "Window in the mask" },
];
const profileFields: readonly FieldSpec[] = [
  { path: "microphone.guide.profile.indexChange" },
  { path: "microphone.guide.profile.depth" },
  { path: "microphone.guide.profile.width" },
  { path: "microphone.guide.profile.edge" },
];
/** A bath to begin with. */
const bath =
  '{ "kind": "ion-exchange", "salt": "potassium", "temperature": "385 degC", "time": "3 h", "window": "4 um" }';

export function GuidePanel(): JSX.Element {
  const work = useWork();
  const guide = () => {
    const said = work.project().file.microphone?.guide;
    return Array.isArray(said) ? said[0] : said;
  };
  const isMade = () => guide()?.depth === undefined && (guide()?.process ?? guide()?.profile ?? null) !== null;
  const view = taskAnswer("guideView", () => (isMade() ? { text: projectText(work.project()) } : null));
  const [shown, setShown] = createSignal(false);

  function makeBath(): void {
    let project = work.project();
    for (const key of ["depth", "width", "birefringence"]) {
      const without = removeValue(project, `microphone.guide.${key}`);
      if (without.ok) project = without.value;
    }
    const changed = changeValue(project, process, bath);
    if (changed.ok) work.replace(changed.value, words.makeBath);
  }

  return (
    <Panel title={words.guide} aside={words.guideAside} wide>
      <Show
        when={isMade()}
        fallback={
          <>
            <p>{words.byHand}</p>
            <Show when={!Array.isArray(work.project().file.microphone?.guide)}>
              <button type="button" onClick={makeBath}>
                {words.makeBath}
              </button>
            </Show>
          </>
        }
      >
        <div class="light-fields">
          <For each={guide()?.profile ? profileFields : bathFields}>{(spec) => <Field spec={spec} bench={work} />}</For>
        </div>
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
                <Picture picture={found().te} title={words.te} />
                <Picture picture={found().tm} title={words.tm} />
              </div>
            </>
          )}
        </Show>
        <details onToggle={(event) => setShown(event.currentTarget.open)}>
          <summary>{words.window}</summary>
          <Show when={shown()}>
            <WindowPanel />
          </Show>
        </details>
      </Show>
      <p class="aside">{words.caution}</p>
    </Panel>
  );
}

/** Contours of the intensity at 5, 13.5, 30, 50, 70, 90 % of the brightest spot; lengths to scale. */
function Picture(props: { readonly picture: GuideView["te"]; readonly title: string }): JSX.Element {
  const size = () => {
    const { x, z } = props.picture;
    const [left, right] = [(x[0] ?? 0) * 1e6, (x.at(-1) ?? 0) * 1e6];
    const [top, bottom] = [(z[0] ?? 0) * 1e6, (z.at(-1) ?? 0) * 1e6];
    return { left, top, width: right - left, height: bottom - top };
  };
  const box = () => `${size().left} ${size().top} ${size().width} ${size().height}`;
  const bar = () => 10 ** Math.floor(Math.log10(size().width / 3));
  return (
    <figure class="mode-picture">
      <svg viewBox={box()} role="img" aria-label={props.title}>
        <rect x={size().left} y={0} width={size().width} height={size().height} class="mode-glass" />
        <For each={modeContours(props.picture)}>
          {({ share, path }) => (
            <path d={path} class="mode-light" style={{ "fill-opacity": String(0.12 + 0.1 * share) }} />
          )}
        </For>
        <line x1={size().left} x2={size().left + size().width} y1={0} y2={0} class="mode-face" />
        <line
          x1={size().left + 0.04 * size().width}
          x2={size().left + 0.04 * size().width + bar()}
          y1={size().top + 0.95 * size().height}
          y2={size().top + 0.95 * size().height}
          class="mode-bar"
        />
      </svg>
      <figcaption>
        {props.title}; {words.face} at the line, bar {bar()} µm
      </figcaption>
    </figure>
  );
}
