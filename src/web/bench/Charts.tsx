/** The curves of the present answer, with kept designs laid over them. */
import { createMemo, type JSX, Show } from "solid-js";
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
import { Chart } from "./Chart.tsx";
import { ChartTable } from "./ChartTable.tsx";
import { Kept } from "./Kept.tsx";
import type { Answer, BenchState } from "./state.ts";
import { TimeCharts } from "./TimeCharts.tsx";

/** A kept design, laid over the present one. */
interface KeptCurves extends Named {
  readonly reach: number;
}

export interface ChartsProps {
  readonly bench: BenchState;
  /** The answer that axes are drawn for. */
  readonly rested: Answer;
  readonly kept: readonly KeptCurves[];
  /** The answer under a hand; null: the same. */
  readonly live: Answer | null;
}

export function Charts(props: { readonly bench: BenchState; readonly rested: Answer }): JSX.Element {
  const kept = createMemo<readonly KeptCurves[]>(() =>
    props.bench
      .kept()
      .flatMap(({ name, project, prediction }) =>
        project === null || prediction === null ? [] : [{ name, prediction, reach: guidePlaces(project).reach }],
      ),
  );
  const live = createMemo(() => {
    const newest = props.bench.answer();
    return newest === null || newest === props.rested ? null : newest;
  });
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
          live={live() && levelPoints((live() as Answer).prediction)}
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
          live={live() && phasePoints((live() as Answer).prediction)}
          say={sayPhase}
        />
        <Kept bench={props.bench} />
        <ChartTable caption={words.response} columns={responseTable(props.rested.prediction)} />
      </section>
      <Show when={inTime(props.rested.prediction)}>
        {(present) => (
          <TimeCharts
            present={present()}
            live={live() && inTime((live() as Answer).prediction)}
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
          live={live() && scanPoints((live() as Answer).prediction, guidePlaces((live() as Answer).project).reach)}
          say={sayScan}
        />
        <ChartTable caption={words.scan} columns={scanTable(props.rested.prediction)} />
      </section>
      <DampingChart {...all()} />
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
  return (
    <Show when={props.bench.damping()}>
      {(damping) => (
        <section class="panel damping" aria-labelledby="damping" data-done={damping().done === damping().of}>
          <h2 id="damping">
            {words.damping}{" "}
            <span class="aside">
              {damping().done < damping().of ? words.progress(damping().done, damping().of) : words.dampingHint}
            </span>
          </h2>
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
            say={sayDamping}
          />
          <ChartTable caption={words.damping} columns={dampingTable(damping().curve)} />
        </section>
      )}
    </Show>
  );
}

export const between = (least: number, wanted: number, most: number): number =>
  Math.round(Math.min(Math.max(wanted, least), most));

function guidePlaces(project: Project): GuidePlaces {
  const { across, guides } = shapeOf(project);
  const width = guides.map(({ path }) => {
    const found = findPath(`${path}.width`);
    const value = found.ok ? found.value.read(project) : found;
    return value.ok ? value.value : 0;
  });
  return { at: guides.map(({ at }) => at), reach: across / 2 - Math.max(...width, 0) / 2 };
}
