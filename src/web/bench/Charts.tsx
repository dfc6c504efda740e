/** The curves of the present answer, with kept designs laid over them. */
import { createMemo, type JSX, onCleanup, onMount, Show } from "solid-js";
import { findPath, type Prediction, type Project } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { dampingFigure, dampingTable, sayDamping } from "../../figure/dampingFigure.ts";
import {
  levelFigure,
  levelPoints,
  type Named,
  phaseFigure,
  phasePoints,
  sayLevel,
  sayPhase,
} from "../../figure/responseFigures.ts";
import { type GuidePlaces, sayScan, scanFigure, scanPoints } from "../../figure/scanFigure.ts";
import { responseTable, scanTable } from "../../figure/tables.ts";
import type { InTime } from "../../figure/timeFigures.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { shapeOf } from "../drawing/shapeOf.ts";
import { Kept } from "../kept/Kept.tsx";
import { laidDesigns } from "../kept/laid.ts";
import type { Answer, Work } from "../shell/work.ts";
import { between } from "./between.ts";
import { Chart } from "./Chart.tsx";
import { ChartTable } from "./ChartTable.tsx";
import { StraightChart } from "./StraightChart.tsx";
import { TimeCharts } from "./TimeCharts.tsx";

/** A kept design, laid over the present one. */
interface KeptCurves extends Named {
  readonly reach: number;
}

export interface ChartsProps {
  readonly bench: Work;
  /** The answer that axes are drawn for. */
  readonly rested: Answer;
  readonly kept: readonly KeptCurves[];
  /** The answer under a hand; null: the same. */
  readonly live: Answer | null;
}

export function Charts(props: { readonly bench: Work; readonly rested: Answer }): JSX.Element {
  // Nothing is drawn anew under a hand, whatever arrives meanwhile.
  const kept = createMemo<readonly KeptCurves[]>(
    (before) =>
      props.bench.held()
        ? before
        : laidDesigns(props.bench).map(({ name, project, prediction }) => ({
            name,
            prediction,
            reach: guidePlaces(project).reach,
          })),
    [],
  );
  const live = createMemo(() => {
    const newest = props.bench.answer();
    return newest === null || newest === props.rested ? null : newest;
  });
  /** What of the answer under a hand is drawn; null at rest. */
  const moved = <Value,>(of: (prediction: Prediction, project: Project) => Value): Value | null => {
    const newest = live();
    return newest === null ? null : of(newest.prediction, newest.project);
  };
  const guides = createMemo(() => guidePlaces(props.rested.project));
  const all = () => ({ bench: props.bench, rested: props.rested, kept: kept(), live: live() });
  return (
    <div class="charts">
      <section class="panel response" aria-labelledby="response">
        <h2 id="response">
          {words.response} <span class="aside">{words.responseHint}</span>
        </h2>
        <Chart
          name={words.responseLevel}
          draw={(room) =>
            levelFigure(
              props.rested.prediction,
              { ...room, height: between(240, room.width / 3.2, 420), colors: pageColors },
              kept(),
            )
          }
          live={moved(levelPoints)}
          say={sayLevel}
        />
        <Chart
          name={words.responsePhase}
          draw={(room) =>
            phaseFigure(
              props.rested.prediction,
              { ...room, height: between(165, room.width / 5.5, 240), colors: pageColors },
              kept(),
            )
          }
          live={moved(phasePoints)}
          say={sayPhase}
        />
        <Kept />
        <ChartTable caption={words.response} columns={responseTable(props.rested.prediction)} />
      </section>
      <Show when={inTime(props.rested.prediction)}>
        {(present) => (
          <TimeCharts
            present={present()}
            live={moved(inTime)}
            kept={kept().flatMap(({ name, prediction }) => {
              const known = inTime(prediction);
              return known === null ? [] : [{ name, prediction: known }];
            })}
          />
        )}
      </Show>
      <section class="panel scan" aria-labelledby="scan">
        <h2 id="scan">
          {words.scan} <span class="aside">{words.scanHint}</span>
        </h2>
        <Chart
          name={words.scan}
          draw={(room) =>
            scanFigure(
              props.rested.prediction,
              guides(),
              { ...room, height: between(230, room.width / 2, 320), colors: pageColors },
              kept(),
            )
          }
          live={moved((prediction, project) => scanPoints(prediction, guidePlaces(project).reach))}
          say={sayScan}
        />
        <ChartTable caption={words.scan} columns={scanTable(props.rested.prediction)} />
      </section>
      <Show when={shapeOf(props.rested.project).film}>
        <DampingChart {...all()} />
      </Show>
      <StraightChart prediction={props.rested.prediction} />
    </div>
  );
}

/** The answer over time, where it has one. */
const inTime = ({ time }: Prediction): InTime | null => (time === null ? null : { time });

function DampingChart(props: ChartsProps): JSX.Element {
  const here = () => {
    const { film } = shapeOf(props.rested.project);
    return film === null ? null : { gap: film.gap, dampingRatio: props.rested.prediction.resonance.dampingRatio };
  };
  const known = createMemo<ReturnType<Work["damping"]>>(
    (before) => (props.bench.held() ? before : props.bench.damping()),
    null,
  );
  /** Where a hand has it now. */
  const moved = () => {
    const gap = props.live === null ? null : shapeOf(props.live.project).film?.gap;
    const dampingRatio = props.live?.prediction.resonance.dampingRatio;
    return gap && dampingRatio ? { x: gap, y: dampingRatio } : null;
  };
  let panel!: HTMLElement;
  onMount(() => {
    const observer = new IntersectionObserver(([entry]) => props.bench.lookAtDamping(entry?.isIntersecting === true), {
      rootMargin: "150px",
    });
    observer.observe(panel);
    onCleanup(() => {
      observer.disconnect();
      props.bench.lookAtDamping(false);
    });
  });
  const done = () => known() !== null && known()?.done === known()?.of;
  const hint = () => {
    const present = known();
    if (present === null || done()) return words.dampingHint;
    return words.progress(present.done, present.of);
  };
  return (
    <section ref={panel} class="panel damping" aria-labelledby="damping" data-done={done()}>
      <h2 id="damping">
        {words.damping} <span class="aside">{hint()}</span>
      </h2>
      <Show when={known()} fallback={<p class="waiting aside">{words.computing}</p>}>
        {(damping) => (
          <>
            <Chart
              name={words.damping}
              draw={(room) =>
                dampingFigure(
                  damping().curve,
                  { from: damping().from, to: damping().to, here: here() },
                  props.rested.prediction.verdict,
                  { ...room, height: between(230, room.width / 2, 320), colors: pageColors },
                )
              }
              live={null}
              point={moved()}
              say={sayDamping}
            />
            <ChartTable caption={words.damping} columns={dampingTable(damping().curve)} />
          </>
        )}
      </Show>
    </section>
  );
}

function guidePlaces(project: Project): GuidePlaces {
  const { across, guides } = shapeOf(project);
  const width = guides.map(({ path }) => {
    const found = findPath(`${path}.width`);
    const value = found.ok ? found.value.read(project) : found;
    return value.ok ? value.value : 0;
  });
  return { at: guides.map(({ at }) => at), reach: across / 2 - Math.max(...width, 0) / 2 };
}
