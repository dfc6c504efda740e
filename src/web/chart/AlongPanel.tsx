/** One number along one value of the design, with kept designs beside it. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { type Cut, type CutRange, findPath, measures } from "../../core/index.ts";
import { alongFigure, alongTable, sayAlong } from "../../figure/alongFigure.ts";
import { pageColors } from "../../figure/colors.ts";
import { chartWords as words } from "../../words/en/chartPage.ts";
import { measureWords } from "../../words/en/measures.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { laidDesigns } from "../kept/laid.ts";
import { measureOf } from "../shell/measureOf.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { designParts, partText } from "../shell/partText.ts";
import { TaskState } from "../shell/TaskState.tsx";
import { type TaskAnswer, taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { AxisFields } from "./AxisFields.tsx";
import type { AlongChoice } from "./alongChoice.ts";

const points = 49;
/** Kept designs that lie over it. */
const slots = [0, 1, 2] as const;

export function AlongPanel(props: {
  readonly choice: AlongChoice;
  /** The plane's first picture goes before. */
  readonly ready: boolean;
}): JSX.Element {
  const work = useWork();
  const ask = (text: string, range: CutRange | null) =>
    range === null || !props.ready ? null : { text, ...range, count: points };
  const own = taskAnswer(
    "cut",
    () => ask(partText(work.project(), designParts), props.choice.range()),
    "cut",
    "refine",
  );
  const laid = createMemo(() => laidDesigns(work));
  const others = slots.map((slot) =>
    taskAnswer(
      "cut",
      () => {
        const one = laid()[slot];
        return one === undefined ? null : ask(partText(one.project, designParts), props.choice.range());
      },
      `cut-${slot}`,
    ),
  );
  const cut = createMemo<Cut | null>(
    (before) => soFarOf(own, props.choice.path()) ?? (before?.path === props.choice.path() ? before : null),
    null,
  );
  const kept = createMemo(() =>
    laid().flatMap(({ name }, i) => {
      const answer = others[i];
      const found = answer === undefined ? null : soFarOf(answer, props.choice.path());
      return found === null ? [] : [{ name, cut: found }];
    }),
  );
  const here = () => {
    const rested = work.rested();
    const place = findPath(props.choice.path());
    if (rested === null || !place.ok) return null;
    const x = place.value.read(rested.project);
    const y = measureOf(rested.prediction, props.choice.measure());
    return x.ok && y !== null ? { x: x.value, y } : null;
  };
  return (
    <Panel title={words.along1} aside={words.along1Aside} class="chart-along">
      <p class="chart-presets">
        <For each={words.presets}>
          {({ says, path, measure }) => (
            <button
              type="button"
              class="word"
              aria-pressed={props.choice.path() === path && props.choice.measure() === measure}
              onClick={() => props.choice.choose(path, measure)}
            >
              {says}
            </button>
          )}
        </For>
      </p>
      <div class="chart-along-ask">
        <label class="axis-fields">
          <span class="axis-name">{words.number}</span>
          <select onChange={(event) => props.choice.setMeasure(event.currentTarget.value as (typeof measures)[number])}>
            <For each={measures}>
              {(measure) => (
                <option value={measure} selected={measure === props.choice.measure()}>
                  {measureWords[measure].label}
                </option>
              )}
            </For>
          </select>
        </label>
        <AxisFields
          name={words.against}
          path={props.choice.path()}
          ends={props.choice.range()}
          positive={false}
          choose={(path) => props.choice.choose(path)}
          setEnds={props.choice.setEnds}
        />
      </div>
      <Show when={cut()}>
        {(found) => (
          <>
            <Chart
              name={`${measureWords[props.choice.measure()].label}, ${found().label}`}
              draw={(room) =>
                alongFigure(
                  {
                    cut: found(),
                    measure: props.choice.measure(),
                    here: here(),
                    verdict: work.rested()?.prediction.verdict ?? [],
                    now: words.now,
                    kept: kept(),
                  },
                  { ...room, height: Math.round(Math.min(360, Math.max(240, 0.36 * room.width))), colors: pageColors },
                )
              }
              live={null}
              say={sayAlong(found(), props.choice.measure())}
            />
            <Show when={found().measures[props.choice.measure()].every((value) => value === null)}>
              <p class="aside">{words.noNumbers}</p>
            </Show>
            <ChartTable caption={words.alongTable} columns={alongTable(found())} />
          </>
        )}
      </Show>
      <TaskState answer={own} what={words.curve} />
    </Panel>
  );
}

/** The newest curve along that value, whole or coarse. */
function soFarOf(answer: TaskAnswer<Cut>, path: string): Cut | null {
  const found = answer.state() === "current" ? answer.value() : (answer.step()?.soFar ?? answer.value());
  return found?.path === path ? found : null;
}
