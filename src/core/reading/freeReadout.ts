/**
 * Ring-downs through the sine curve of the readout, its middle, span and bias unknown: where the phase is large enough to bend
 * the record, they are fitted with the decay. Derivation: docs/theory/ringDown.md.
 */

import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { cube } from "../numerics/power.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { cos, sin } from "../numerics/sine.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { correlationOf, coverageOfIntervals, type ReadValue, readValue } from "./reading.ts";
import type { RingDown } from "./ringDown.ts";
import { residualsOf } from "./whiteness.ts";

export interface FreeReadout {
  readonly values: {
    /** Half the span of the curve, in the unit of the output: output per radian at quadrature. */
    readonly half: ReadValue;
    readonly middle: ReadValue;
    /** From quadrature [rad]. */
    readonly bias: ReadValue;
  };
}

/** Samples that are fitted: those at the start hold the curve. */
const most = 4_000;
/** Phase amplitudes [rad] and biases [rad] to begin with. */
const amplitudes = [0.6, 1.2, 2.2, 3.5];
const biases = [-1.2, -0.6, 0, 0.6, 1.2];

/**
 * The same record again as middle + half sin(bias + phase), phase = e^(-rate t) (a cos + b sin), begun at `before`, the fit in
 * volts. `y`: the part that was used. The amplitude is then the phase's [rad].
 *
 * Problems: `curve-not-seen` (the record does not bend enough to tell the curve), those of `fitNonlinear`.
 */
export function fitFreeReadout(
  y: Float64Array,
  step: number,
  before: RingDown,
): Outcome<RingDown & { readonly readout: FreeReadout }> {
  // What the fit in volts explains down to noise has no bend left.
  const { whiteness } = before.residuals;
  if (before.modes.length === 1 && (whiteness === null || whiteness.probability > 1e-3)) return refuse(notSeen(null));
  const places = Array.from(y.keys()).filter((i) => i < most && !Number.isNaN(y[i]!));
  const seen = places.map((i) => y[i]!);
  const { rate, frequency, dampingRatio } = before.values;
  // All about one: time in units of the tone.
  const unit = 2 * Math.PI * frequency.value * step;
  const [s0, w0] = [dampingRatio.value, Math.sqrt(Math.max(0, 1 - dampingRatio.value ** 2))];
  const phaseAt = ([s, w, a, b]: readonly number[], i: number) =>
    Math.exp(-s! * unit * i) * (a! * cos(w! * unit * i) + b! * sin(w! * unit * i));
  const model = (p: readonly number[], i: number) => p[4]! + p[5]! * sin(p[6]! + phaseAt(p, i));
  const derivatives = (p: readonly number[], i: number) => {
    const [s, w, a, b, , h, bias] = p as [number, number, number, number, number, number, number];
    const t = unit * i;
    const [fall, c, d] = [Math.exp(-s * t), cos(w * t), sin(w * t)];
    const phase = fall * (a * c + b * d);
    const slope = h * cos(bias + phase);
    return [
      -t * phase * slope,
      fall * t * (b * c - a * d) * slope,
      fall * c * slope,
      fall * d * slope,
      1,
      sin(bias + phase),
      slope,
    ];
  };
  const [low, high] = seen.reduce(([a, b], value) => [Math.min(a, value), Math.max(b, value)], [seen[0]!, seen[0]!]);
  const starts = amplitudes.flatMap((m) =>
    biases.flatMap((bias) =>
      [0, Math.PI / 2, Math.PI, -Math.PI / 2].map((turn) => {
        const reach = m > Math.PI / 2 ? 2 : sin(Math.min(Math.PI / 2, m + Math.abs(bias))) + sin(m);
        return [s0, w0, m * cos(turn), m * sin(turn), (low + high) / 2, (high - low) / Math.max(0.5, reach), bias];
      }),
    ),
  );
  const short = places.filter((_, k) => k < 600);
  const sum = (p: readonly number[]) => short.reduce((all, i, k) => all + (seen[k]! - model(p, i)) ** 2, 0);
  const best = starts.sort((p, q) => sum(p) - sum(q)).slice(0, 3);
  const fits = best.flatMap((start) => {
    const fit = fitNonlinear({ model, derivatives, start, x: places, y: seen, maxSteps: 100 });
    return fit.ok ? [fit] : [];
  });
  const lowest = fits.reduce<(typeof fits)[number] | null>(
    (a, b) => (a === null || b.value.sumOfSquares < a.value.sumOfSquares ? b : a),
    null,
  );
  if (lowest === null || lowest.value.covariance === null || lowest.value.standardUncertainties === null)
    return refuse(notSeen(null));
  const { values: p, standardUncertainties: u, covariance, residuals, degreesOfFreedom, stopped, steps } = lowest.value;
  const half = Math.abs(p[5]!);
  const phase = Math.hypot(p[2]!, p[3]!);
  if (!(u[5]! < 0.3 * half)) return refuse(notSeen(phase));
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const size = Math.hypot(p[0]!, p[1]!);
  const perSecond = unit / step;
  const at = (i: number, k: number) => covariance[7 * i + k]!;
  const spread = (g0: number, g1: number, from: number) =>
    Math.sqrt(
      Math.max(0, g0 * g0 * at(from, from) + 2 * g0 * g1 * at(from, from + 1) + g1 * g1 * at(from + 1, from + 1)),
    );
  const values = {
    dampingRatio: readValue(p[0]! / size, spread(p[1]! ** 2 / cube(size), (-p[0]! * p[1]!) / cube(size), 0), factor),
    frequency: readValue(
      (size * perSecond) / (2 * Math.PI),
      (spread(p[0]! / size, p[1]! / size, 0) * perSecond) / (2 * Math.PI),
      factor,
    ),
    rate: readValue(p[0]! * perSecond, u[0]! * perSecond, factor),
    amplitude: readValue(phase, spread(p[2]! / phase, p[3]! / phase, 2), factor),
  };
  const { frequency: f, dampingRatio: z, rate: r, amplitude: a } = values;
  return answer(
    {
      ...before,
      values,
      modes: [{ frequency: f, dampingRatio: z, rate: r, amplitude: a }],
      correlation: correlationOf(["rate", "speed", "cosine", "sine", "middle", "half", "bias"], covariance),
      residuals: residualsOf(residuals),
      degreesOfFreedom,
      stopped,
      steps,
      secondOpinion: {
        by: "fit in volts",
        value: dampingRatio.value,
        standardUncertainty: dampingRatio.standardUncertainty,
        says: `the curve not counted; ${rate.value.toPrecision(4)} 1/s`,
      },
      included: ["readout's curve"],
      used: { ...before.used, count: places.length, to: before.used.from + (places.at(-1) ?? 0) * step },
      model: Float64Array.from({ length: Math.min(most, y.length) }, (_, i) => model(p, i)),
      readout: {
        values: {
          half: readValue(half, u[5]!, factor),
          middle: readValue(p[4]!, u[4]!, factor),
          bias: readValue(Math.atan(Math.tan(p[6]!)), u[6]!, factor),
        },
      },
    },
    lowest.remarks,
  );
}

const notSeen = (phase: number | null): Problem => ({
  code: "curve-not-seen",
  path: ["readout"],
  message: `The record does not bend enough to tell the readout's curve${phase === null ? "" : ` (phase amplitude about ${phase.toPrecision(2)} rad)`}; needed: about one radian or more at the start. Sweep the bias and give the ends of the curve, or fit in volts.`,
});
