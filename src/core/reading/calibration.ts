/**
 * Volts to radians, and the pressure that a source makes. Sound cannot span a fringe (94 dB makes about 1 mrad), so the bias is
 * swept by analyzer, compensator, temperature or wavelength. An electrostatic actuator is impossible without a conductor.
 */
import { fitLinear } from "../numerics/linearFit.ts";
import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type Budget, type BudgetInput, combineUncertainty } from "./budget.ts";
import { coverageOfIntervals, type ReadValue, type Residuals, readValue, type SecondOpinion } from "./reading.ts";
import { whitenessOf } from "./whiteness.ts";

export interface BiasSweep {
  readonly kind: "bias-sweep";
  readonly values: {
    /** Half the span of the curve [V]: volts per radian at quadrature. */
    readonly half: ReadValue;
    readonly middle: ReadValue;
    /** Bias at which the output passes its middle upward [rad]. */
    readonly zero: ReadValue;
    /** Volts per radian at the bias of the measurement [V/rad]. */
    readonly slope: ReadValue;
  };
  readonly residuals: Residuals;
  readonly coverage: number;
  readonly degreesOfFreedom: number;
  readonly stopped: string;
  readonly steps: number;
  /** A straight line through the points within 0.35 rad of the bias. */
  readonly secondOpinion: SecondOpinion;
  readonly model: Float64Array;
}

/**
 * v = middle + half sin(bias - zero), fitted to a sweep of the bias [rad].
 *
 * Problems: `sweep-too-short` (less than half a turn), those of `fitNonlinear`. Remarks: those of `fitNonlinear`, `off-quadrature`.
 */
export function fitBiasSweep({
  bias,
  output,
  at,
}: {
  readonly bias: ArrayLike<number>;
  readonly output: ArrayLike<number>;
  readonly at: number;
}): Outcome<BiasSweep> {
  const list = Array.from(bias);
  const span = Math.max(...list) - Math.min(...list);
  if (!(span >= Math.PI / 2) || list.length < 6)
    return refuse({
      code: "sweep-too-short",
      path: ["bias"],
      message: `The sweep has ${list.length} points over ${span.toPrecision(3)} rad; needed: six or more over a quarter of a turn, better half a turn, so that both ends of the curve are seen.`,
    });
  const linear = fitLinear({ columns: [list.map(() => 1), list.map(Math.sin), list.map(Math.cos)], y: output });
  if (!linear.ok) return linear;
  const [middle, a, b] = linear.value.values;
  const model = ([m, h, z]: readonly number[], x: number) => m! + h! * Math.sin(x - z!);
  const fit = fitNonlinear({ model, start: [middle!, Math.hypot(a!, b!), Math.atan2(-b!, a!)], x: list, y: output });
  if (!fit.ok) return fit;
  const { values, covariance, standardUncertainties, degreesOfFreedom, residuals, stopped, steps } = fit.value;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const [, half, zero] = values;
  const standard = (i: number) => standardUncertainties?.[i] ?? null;
  const c = Math.cos(at - zero!);
  const [byHalf, byZero] = [c, half! * Math.sin(at - zero!)];
  const slopeVariance =
    covariance === null
      ? null
      : byHalf ** 2 * covariance[4]! + 2 * byHalf * byZero * covariance[5]! + byZero ** 2 * covariance[8]!;
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
        half: readValue(half!, standard(1), factor),
        middle: readValue(values[0]!, standard(0), factor),
        zero: readValue(zero!, standard(2), factor),
        slope: readValue(half! * c, slopeVariance === null ? null : Math.sqrt(Math.max(0, slopeVariance)), factor),
      },
      residuals: { rms: Math.sqrt(fit.value.sumOfSquares / list.length), whiteness: whitenessOf(residuals) },
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped,
      steps,
      secondOpinion: straight(list, output, at),
      model: Float64Array.from(list, (x) => model(values, x)),
    },
    remarks,
  );
}

function straight(bias: readonly number[], output: ArrayLike<number>, at: number): SecondOpinion {
  const near = bias.flatMap((x, i) => (Math.abs(x - at) <= 0.35 ? [i] : []));
  const by = "straight line within 0.35 rad";
  if (near.length < 3)
    return {
      by,
      value: null,
      standardUncertainty: null,
      says: `Points within 0.35 rad of the bias: ${near.length}; needed: three or more.`,
    };
  const fit = fitLinear({
    columns: [near.map(() => 1), near.map((i) => bias[i]! - at)],
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

/** Phase of an output by the sine curve between `low` and `high` [V], zero at its middle. Outside the curve there is none: NaN. */
export function phaseOfOutput(
  output: Float64Array,
  { low, high }: { readonly low: number; readonly high: number },
): { readonly phase: Float64Array; readonly outside: number } {
  const [middle, half] = [(low + high) / 2, (high - low) / 2];
  let outside = 0;
  const phase = output.map((value) => {
    const share = (value - middle) / half;
    if (Math.abs(share) > 1) outside += 1;
    return Math.abs(share) > 1 ? Number.NaN : Math.asin(share);
  });
  return { phase, outside };
}

/** What stands behind a sound pressure; each a share of it (0.01 is 1 %), as a standard uncertainty. */
export interface PressureLines {
  readonly reference: number;
  readonly level: number;
  readonly volume: number;
  readonly ambient: number;
  readonly position: number;
  readonly repeat: number;
  readonly drift: number;
  readonly biasSlope: number;
}

/** Names of the lines in the order of a budget. Source: common practice, after IEC 60942, IEC 61094-5 and -8 (from memory). */
export const pressureLineNames: readonly (keyof PressureLines)[] = [
  "reference",
  "level",
  "volume",
  "ambient",
  "position",
  "repeat",
  "drift",
  "biasSlope",
];

export interface SensitivityComparison {
  /** Output of the microphone [rad or V] and of the reference [V], at one frequency. */
  readonly output: number;
  readonly referenceOutput: number;
  /** Sensitivity of the reference [V/Pa]. */
  readonly referenceSensitivity: number;
  /**
   * "substitution": one after the other in the same field; "simultaneous": side by side; "calibrator": a known pressure in place
   * of the reference, with the volume that the microphone adds to its coupler.
   */
  readonly how: "substitution" | "simultaneous" | "calibrator";
  /** Coupler's volume and what the microphone adds [m^3]; the pressure falls by V / (V + added). Only for a calibrator. */
  readonly coupler?: { readonly volume: number; readonly added: number };
  /** Lines as shares; those absent are zero and say so in the budget. */
  readonly lines: Partial<PressureLines>;
  /** Readings of the repeat line. */
  readonly repeats?: number;
}

/**
 * Sensitivity by comparison, S = output / pressure, with its budget. Problems: `no-reference`, those of `combineUncertainty`.
 * Remark: `line-missing` for each line that is not given.
 */
export function compareSensitivity(question: SensitivityComparison): Outcome<Budget> {
  const { output, referenceOutput, referenceSensitivity, how, coupler, lines, repeats } = question;
  if (!(referenceSensitivity > 0) || !(referenceOutput !== 0))
    return refuse({
      code: "no-reference",
      path: ["referenceSensitivity"],
      message: `Reference: ${referenceOutput} at ${referenceSensitivity} per pascal; needed: an output other than zero and a sensitivity above zero.`,
    });
  const load = how === "calibrator" && coupler !== undefined ? coupler.volume / (coupler.volume + coupler.added) : 1;
  const pressure = (referenceOutput / referenceSensitivity) * load;
  const inputs = pressureLineNames.map(
    (name): BudgetInput => ({
      name,
      value: 1,
      standard: lines[name] ?? 0,
      ...(name === "repeat" && repeats !== undefined && repeats > 1 && { degreesOfFreedom: repeats - 1 }),
    }),
  );
  const combined = combineUncertainty({
    model: (factors) => (output / pressure) * factors.reduce((product, factor) => product * factor, 1),
    inputs,
  });
  if (!combined.ok) return combined;
  const missing = pressureLineNames.filter((name) => lines[name] === undefined);
  return answer(combined.value, [
    ...combined.remarks,
    ...missing.map(
      (name): Problem => ({
        code: "line-missing",
        path: ["lines", name],
        message: `The line "${name}" was not given and counts as zero; give it, or say why it is nothing.`,
      }),
    ),
  ]);
}
