/** The phase in time: dying away after a tone stops, and following a step of pressure. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Prediction } from "../core/tasks/predict/prediction.ts";
import { type Axis, linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import { extent, type FigureRoom, type Points } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

/** A prediction that has a resonance, and so an answer over time. */
export interface InTime {
  readonly time: NonNullable<Prediction["time"]>;
}

/** A kept design's answer over time. */
export interface NamedInTime {
  readonly name: string;
  readonly prediction: InTime;
}

/** Phase after a tone at the resonance stops, 1 at the stop [-, s]. */
export const ringDownPoints = ({ time }: InTime): Points => ({ x: time.ringDown.time, y: time.ringDown.value });

/** Phase after a step of 1 Pa [rad, s]. */
export const stepPoints = ({ time }: InTime): Points => ({ x: time.step.time, y: time.step.value });

export function ringDownFigure(prediction: InTime, room: FigureRoom, kept: readonly NamedInTime[] = []): Figure {
  const present = ringDownPoints(prediction);
  const others = kept.map((one) => ({ name: one.name, ...ringDownPoints(one.prediction) }));
  return curveFigure({
    ...room,
    description: "Phase after a tone at the resonance has stopped, relative to the phase at the stop.",
    x: timeAxis(present.x, room.width),
    y: linearAxis("Ring-down, 1 when the tone stops", span([present, ...others], [-0.5, 1]), { count: 4 }),
    curves: [{ name: kept.length > 0 ? "now" : "", ...present }, ...others],
  });
}

export function stepFigure(prediction: InTime, room: FigureRoom, kept: readonly NamedInTime[] = []): Figure {
  const present = stepPoints(prediction);
  const others = kept.map((one) => ({ name: one.name, ...stepPoints(one.prediction) }));
  const range = span([present, ...others], [0, 0]);
  const { per, unit } = phaseUnit(Math.max(-range[0], range[1]));
  return curveFigure({
    ...room,
    description: "Phase after a step of pressure of one pascal.",
    x: timeAxis(present.x, room.width),
    y: linearAxis(`Step of 1 Pa (${unit})`, range, { count: 4, per }),
    curves: [{ name: kept.length > 0 ? "now" : "", ...present }, ...others],
  });
}

export const sayRingDown = (time: number, value: number | null): string =>
  `${formatQuantity(time, "time", { digits: 4 })}: ${formatNumber(value, { digits: 4 })}`;

export function sayStep(time: number, value: number | null): string {
  const { per, unit } = phaseUnit(Math.abs(value ?? 0));
  const size = value === null ? null : value / per;
  return `${formatQuantity(time, "time", { digits: 4 })}: ${formatNumber(size, { digits: 4 })} ${unit}`;
}

export function timeTable({ time: { ringDown, step } }: InTime): readonly Column[] {
  const text = (value: number | null) => formatNumber(value, { digits: 5 });
  const scaled = (per: number) => (value: number | null) => text(value === null ? null : value / per);
  return [
    { title: "Time after the tone (ms)", values: ringDown.time, text: scaled(1e-3) },
    { title: "Ring-down", values: ringDown.value, text },
    { title: "Time after the step (ms)", values: step.time, text: scaled(1e-3) },
    { title: "Step of 1 Pa (mrad)", values: step.value, text: scaled(1e-3) },
  ];
}

function phaseUnit(largest: number): { per: number; unit: string } {
  if (largest >= 1e-3) return { per: 1e-3, unit: "mrad" };
  return largest >= 1e-6 ? { per: 1e-6, unit: "µrad" } : { per: 1e-9, unit: "nrad" };
}

function timeAxis(time: readonly number[], width: number): Axis {
  const [, end] = extent([0, ...time]);
  const [per, unit] = end >= 2 ? [1, "s"] : end >= 2e-3 ? [1e-3, "ms"] : [1e-6, "µs"];
  return linearAxis(`Time (${unit})`, [0, end], { count: width > 420 ? 6 : 3, per, tight: true });
}

/** Of all curves, and at least what is given; never of no height. */
function span(curves: readonly Points[], least: readonly [number, number]): [number, number] {
  const heights = curves.flatMap(({ y }) => y.filter((value) => value !== null));
  const [low, high] = extent([...least, ...heights]);
  return high > low ? [low, high] : [low, low + 1e-12];
}
