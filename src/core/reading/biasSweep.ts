/**
 * Volts to radians: the bias is swept by analyzer, compensator, temperature or wavelength, and the sine of the readout is fitted.
 * Sound cannot span a fringe (94 dB makes about 1 mrad).
 */

import { fitLinear } from "../numerics/linearFit.ts";
import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { cos, sin } from "../numerics/sine.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import type { ColumnMeaning } from "../record/recipe.ts";
import { coverageOfIntervals, type FitEvidence, type ReadValue, readValue, type SecondOpinion } from "./reading.ts";
import { guessTurn } from "./turnOfSweep.ts";
import { residualsOf } from "./whiteness.ts";

export interface BiasSweep extends FitEvidence {
  readonly kind: "bias-sweep";
  /** What was turned, as its column says; "bias" where absent. */
  readonly of?: ColumnMeaning;
  readonly values: {
    /** Volts per radian at the bias of the measurement [V/rad]. */
    readonly slope: ReadValue;
    /** Half the span of the curve [V]: volts per radian at quadrature. Absent for a straight line, as the others. */
    readonly half?: ReadValue;
    readonly middle?: ReadValue;
    /** Where the output passes its middle upward, in the unit of the sweep. */
    readonly zero?: ReadValue;
    /** Radians per unit of the sweep; only where it was fitted. */
    readonly turn?: ReadValue;
  };
  /** A straight line through the points within 0.35 rad of the bias. */
  readonly secondOpinion: SecondOpinion;
  readonly model: Float64Array;
}

export interface SweepQuestion {
  /** What was turned: the bias itself [rad], an analyzer's angle [rad], a compensator, a temperature, a wavelength. */
  readonly bias: ArrayLike<number>;
  readonly output: ArrayLike<number>;
  /** Where the slope is wanted, in the unit of the sweep; the rising middle nearest to the sweep's middle where absent. */
  readonly at?: number;
  /** Radians of bias per unit of the sweep: 1 for the bias itself; null: fitted. 1 where absent. */
  readonly turn?: number | null;
}

/**
 * v = middle + half sin(turn (bias - zero)), fitted to a sweep of the bias. Less than a quarter of a turn of known radians gives
 * the slope alone, by a straight line.
 *
 * Problems: `columns-unequal`, `sweep-too-short`, `not-finite`, those of `fitNonlinear`.
 * Remarks: those of `fitNonlinear`, `off-quadrature`, `straight-only`.
 */
export function fitBiasSweep(question: SweepQuestion): Outcome<BiasSweep> {
  const { bias, output, turn: told = 1 } = question;
  if (bias.length !== output.length)
    return refuse({
      code: "columns-unequal",
      path: ["output"],
      message: `The sweep has ${bias.length} settings and ${output.length} outputs; needed: one for each.`,
    });
  const list = Array.from(bias);
  if (![...list, ...Array.from(output)].every(Number.isFinite))
    return refuse({
      code: "not-finite",
      path: ["bias"],
      message: "A setting or an output of the sweep is no number; needed: numbers in all.",
    });
  const span = list.length === 0 ? 0 : list.reduce((a, b) => Math.max(a, b)) - list.reduce((a, b) => Math.min(a, b));
  const turn = told ?? guessTurn(list, output);
  if (turn === null || list.length < 6 || !(span * Math.abs(turn) >= Math.PI / 2)) {
    if (told !== null && list.length >= 3 && span > 0) return straightOnly(question, told);
    return refuse(tooShort(list.length, span, told === null));
  }
  return wholeCurve(question, list, turn, told === null);
}

const tooShort = (count: number, span: number, free: boolean): Problem => ({
  code: "sweep-too-short",
  path: ["bias"],
  message: `The sweep has ${count} points over ${span.toPrecision(3)}; needed: six or more over a quarter of a turn, better half a turn, so that both ends of the curve are seen${free ? "; where the radians per unit are fitted too, over most of a whole turn" : ""}.`,
});

function wholeCurve(
  { output, at }: SweepQuestion,
  list: readonly number[],
  turn: number,
  free: boolean,
): Outcome<BiasSweep> {
  // About the sweep's middle, so that turn and zero do not pull on each other.
  const origin = free ? (list.reduce((a, b) => Math.max(a, b)) + list.reduce((a, b) => Math.min(a, b))) / 2 : 0;
  const linear = fitLinear({
    columns: [list.map(() => 1), list.map((x) => sin(turn * (x - origin))), list.map((x) => cos(turn * (x - origin)))],
    y: output,
  });
  if (!linear.ok) return linear;
  const [middle0, a, b] = linear.value.values;
  const model = ([m, h, z, k]: readonly number[], x: number) => m! + h! * sin((free ? k! : turn) * (x - origin) - z!);
  const fit = fitNonlinear({
    model,
    start: [middle0!, Math.hypot(a!, b!), Math.atan2(-b!, a!), ...(free ? [turn] : [])],
    x: list,
    y: output,
    maxSteps: 200,
  });
  if (!fit.ok) return fit;
  const { values, covariance, standardUncertainties, degreesOfFreedom, residuals, stopped, steps } = fit.value;
  const size = values.length;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const [middle, half, angle] = values as [number, number, number];
  const k = free ? values[3]! : turn;
  const span = list.reduce((p, q) => Math.max(p, q)) - list.reduce((p, q) => Math.min(p, q));
  // A bow that is less than most of half a turn is a parabola: any span of the curve fits it.
  if (free && (!(Math.abs(k) * span > 2.5) || !((standardUncertainties?.[1] ?? 0) < 0.2 * Math.abs(half))))
    return refuse(tooShort(list.length, span, free));
  const u = (i: number, j: number) => covariance![i * size + j]!;
  const standard = (i: number) => standardUncertainties?.[i] ?? null;
  const zero = origin + angle / k;
  // The rising middle: one of many, the one nearest to the middle of the sweep.
  const shown = free ? zero - (2 * Math.PI * Math.round(((zero - origin) * k) / (2 * Math.PI))) / k : zero;
  const wanted = at ?? (free ? shown : 0);
  const inner = k * (wanted - origin) - angle;
  const [c, s] = [cos(inner), sin(inner)];
  const gradient = [0, c, half * s, ...(free ? [-half * s * (wanted - origin)] : [])];
  const spread = (g: readonly number[]) => {
    if (covariance === null) return null;
    let sum = 0;
    for (const [i, x] of g.entries()) for (const [j, y] of g.entries()) sum += x * y * u(i, j);
    return Math.sqrt(Math.max(0, sum));
  };
  const ofZero = free
    ? spread([0, 0, 1 / k, -(shown - origin) / k])
    : standard(2) === null
      ? null
      : standard(2)! / turn;
  const remarks: Problem[] = [...fit.remarks];
  if (Math.abs(c) < 0.94)
    remarks.push({
      code: "off-quadrature",
      path: ["at"],
      message: `At the bias of the measurement the slope is ${(100 * Math.abs(c)).toFixed(0)} % of its largest: 20 degrees or more off quadrature. The slope drifts with the bias; set it again, or measure it before and after.`,
    });
  return answer(
    {
      kind: "bias-sweep",
      values: {
        half: readValue(half, standard(1), factor),
        middle: readValue(middle, standard(0), factor),
        zero: readValue(shown, ofZero, factor),
        slope: readValue(half * c, spread(gradient), factor),
        ...(free && { turn: readValue(k, standard(3), factor) }),
      },
      residuals: residualsOf(residuals),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped,
      steps,
      secondOpinion: straight(list, output, wanted, k),
      model: Float64Array.from(list, (x) => model(values, x)),
    },
    remarks,
  );
}

/** Radians of bias are known, but the curve is not seen: the slope where the sweep lies. */
function straightOnly({ bias, output, at }: SweepQuestion, turn: number): Outcome<BiasSweep> {
  const list = Array.from(bias);
  const fit = fitLinear({ columns: [list.map(() => 1), list.map((x) => turn * x)], y: output });
  if (!fit.ok) return fit;
  const { values, standardUncertainties, degreesOfFreedom, residuals } = fit.value;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const ends = [list.reduce((a, b) => Math.min(a, b)), list.reduce((a, b) => Math.max(a, b))] as const;
  const outside = at !== undefined && (at < ends[0] || at > ends[1]);
  return answer(
    {
      kind: "bias-sweep",
      values: { slope: readValue(values[1]!, standardUncertainties?.[1] ?? null, factor) },
      residuals: residualsOf(residuals),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped: "converged",
      steps: 1,
      secondOpinion: {
        by: "whole curve",
        value: null,
        standardUncertainty: null,
        says: "the sweep does not bend enough to show it",
      },
      model: Float64Array.from(list, (x) => values[0]! + values[1]! * turn * x),
    },
    [
      {
        code: "straight-only",
        path: ["bias"],
        message: `The sweep spans ${((ends[1] - ends[0]) * Math.abs(turn)).toPrecision(2)} rad, less than a quarter of a turn: the slope is that of a straight line there${outside ? ", and the bias that was asked for lies outside it" : ""}; how far off quadrature it is can't be told.`,
      },
    ],
  );
}

function straight(bias: readonly number[], output: ArrayLike<number>, at: number, turn: number): SecondOpinion {
  const near = bias.flatMap((x, i) => (Math.abs(turn * (x - at)) <= 0.35 ? [i] : []));
  const by = "straight line within 0.35 rad";
  if (near.length < 3)
    return {
      by,
      value: null,
      standardUncertainty: null,
      says: `Points within 0.35 rad of the bias: ${near.length}; needed: three or more.`,
    };
  const fit = fitLinear({
    columns: [near.map(() => 1), near.map((i) => turn * (bias[i]! - at))],
    y: near.map((i) => output[i]!),
  });
  if (!fit.ok) return { by, value: null, standardUncertainty: null, says: fit.problems[0]!.message };
  return {
    by,
    value: fit.value.values[1]!,
    standardUncertainty: fit.value.standardUncertainties?.[1] ?? null,
    says: `${near.length} points; reads up to 2 % low, as a sine bends`,
  };
}
