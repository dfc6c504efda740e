/** Ring-down and step beside each other. */
import type { JSX } from "solid-js";
import { pageColors } from "../../figure/colors.ts";
import {
  type InTime,
  type NamedInTime,
  ringDownFigure,
  ringDownPoints,
  sayRingDown,
  sayStep,
  stepFigure,
  stepPoints,
  timeTable,
} from "../../figure/timeFigures.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { between } from "./between.ts";
import { Chart } from "./Chart.tsx";
import { ChartTable } from "./ChartTable.tsx";

export function TimeCharts(props: {
  readonly present: InTime;
  readonly kept: readonly NamedInTime[];
  readonly live: InTime | null;
}): JSX.Element {
  const size = (width: number) => ({ height: between(200, width / 2.2, 280), colors: pageColors });
  return (
    <section class="panel time" aria-labelledby="time">
      <h2 id="time">
        {words.time} <span class="aside">{words.timeHint}</span>
      </h2>
      <div class="pair">
        <Chart
          name={words.ringDown}
          draw={(room) => ringDownFigure(props.present, { ...room, ...size(room.width) }, props.kept)}
          live={props.live === null ? null : ringDownPoints(props.live)}
          say={sayRingDown}
        />
        <Chart
          name={words.step}
          draw={(room) => stepFigure(props.present, { ...room, ...size(room.width) }, props.kept)}
          live={props.live === null ? null : stepPoints(props.live)}
          say={sayStep}
        />
      </div>
      <ChartTable caption={words.time} columns={timeTable(props.present)} />
    </section>
  );
}
