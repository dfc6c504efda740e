/**
 * Ring-downs: decay and tone of one or several modes, with what may lie over them. Every sample counts; the start is found,
 * terms are taken in where the record demands them, and what the record shows of wrong readings is named.
 * Derivation: docs/theory/ringDown.md.
 */

import { studentQuantile } from "../numerics/quantiles.ts";
import { inverseOfNormal } from "../numerics/triangle.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { type DecayData, type DecayShape, decayValues } from "./decayModel.ts";
import { type Chosen, chooseShape, onAll } from "./decaySearch.ts";
import { decrementOf } from "./decrement.ts";
import {
  type Correlation,
  correlationOf,
  coverageOfIntervals,
  type FitEvidence,
  type ReadValue,
  type SecondOpinion,
} from "./reading.ts";
import { modeOf, type RingDownMode } from "./ringDownMode.ts";
import { type Piece, pieceOf, type RingDownQuestion } from "./ringDownPart.ts";
import { harmonicOrder, type RingDownSigns, signsOf } from "./ringDownSigns.ts";
import { powerNear, whitenessOf } from "./whiteness.ts";

export interface RingDown extends FitEvidence {
  readonly kind: "ring-down";
  /** The mode with the largest amplitude. */
  readonly values: {
    readonly dampingRatio: ReadValue;
    readonly frequency: ReadValue;
    readonly rate: ReadValue;
    readonly amplitude: ReadValue;
  };
  readonly modes: readonly RingDownMode[];
  readonly correlation: Correlation | null;
  readonly secondOpinion: SecondOpinion;
  /** Terms beside offset and modes: "drift", "hum 50 Hz", "tone 18.6 kHz". */
  readonly included: readonly string[];
  /** Part that was fitted [s] and in samples. */
  readonly used: { readonly from: number; readonly to: number; readonly count: number; readonly first: number };
  /** What the record shows of effects that push the reading. */
  readonly signs: RingDownSigns;
  /** Model over the part used. */
  readonly model: Float64Array;
}

/**
 * Reads a ring-down.
 *
 * Problems: `too-few-samples`, `silent`, `no-decay`, `wrong-step`, `part-outside`.
 * Remarks: `too-short`, `not-converged`, `residuals-not-white`, and those of `signsOf`.
 */
export function fitRingDown(question: RingDownQuestion): Outcome<RingDown> {
  const piece = pieceOf(question);
  if (!piece.ok) return piece;
  const { y, first, rest, guess, tone } = piece.value;
  const scale = 2 * Math.PI * tone;
  const data: DecayData = { step: scale, y };
  const begin = Float64Array.of(guess.rate / scale, guess.speed / scale);
  const chosen = onAll(chooseShape(question, data, begin, rest), data);
  if (chosen === null || !(chosen.fit.parameters[0]! > 0))
    return refuse({
      code: "no-decay",
      path: ["y"],
      message: `The tone at ${(tone / question.step).toPrecision(3)} Hz does not decay from sample ${first + 1} on; needed: a record that goes on after the tone has stopped. Mark the part that decays.`,
    });
  return report(question, { ...piece.value, data, scale }, chosen);
}

function report(
  question: RingDownQuestion,
  { first, data, scale, rest, foundStart }: Piece & { readonly data: DecayData; readonly scale: number },
  { shape, fit, included }: Chosen,
): Outcome<RingDown> {
  const { step, start = 0 } = question;
  const p = fit.parameters;
  const count = data.y.reduce((sum, value) => sum + (Number.isNaN(value) ? 0 : 1), 0);
  const degreesOfFreedom = count - p.length;
  const model = decayValues(shape, data, p);
  const residuals = model.map((one, i) => (Number.isNaN(data.y[i]!) ? 0 : data.y[i]! - one));
  const variance = degreesOfFreedom > 0 ? fit.sumOfSquares / degreesOfFreedom : 0;
  const whiteness = whitenessOf(residuals);
  // Noise that is strong just where the tone lies makes its values less sure than white noise of the same power.
  const cycles = (p[1]! * data.step) / (2 * Math.PI);
  const colored =
    whiteness !== null && whiteness.probability < 1e-3
      ? Math.max(1, powerNear(residuals, cycles, (p[0]! * data.step) / Math.PI))
      : 1;
  const inverse = inverseOfNormal(fit.linearization!.triangle, p.length);
  const covariance =
    inverse === null || degreesOfFreedom <= 0 ? null : inverse.map((value) => value * variance * colored);
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const perSecond = scale / step;
  const modes = Array.from({ length: shape.modes }, (_, k) => modeOf(p, covariance, k, perSecond, factor)).sort(
    (a, b) => b.amplitude.value - a.amplitude.value,
  );
  const [main] = modes;
  const halfPeriod = Math.PI / (p[1]! * data.step);
  const noise = Math.sqrt(variance);
  const offset = p[4 * shape.modes] ?? rest;
  const whole = data.y.map((one, i) => (Number.isNaN(one) ? model[i]! : one));
  const decrement = decrementOf(whole, offset, halfPeriod, 4 * noise);
  const used = { from: start + first * step, to: start + (first + data.y.length - 1) * step, count, first };
  const signs = signsOf({
    y: whole,
    residuals,
    step,
    modes,
    noise,
    included,
  });
  const value: RingDown = {
    kind: "ring-down",
    values: {
      dampingRatio: main!.dampingRatio,
      frequency: main!.frequency,
      rate: main!.rate,
      amplitude: main!.amplitude,
    },
    modes,
    correlation: correlationOf(namesOf(shape), covariance),
    residuals: { rms: Math.sqrt(fit.sumOfSquares / Math.max(1, count)), whiteness },
    coverage: coverageOfIntervals,
    degreesOfFreedom,
    stopped: fit.stopped,
    steps: fit.steps,
    secondOpinion: decrement,
    included,
    used,
    signs,
    model,
  };
  return answer(value, remarksOf(value, foundStart));
}

/** Names of the parameters of the modes and of the offset, in their order. */
function namesOf({ modes }: DecayShape): readonly string[] {
  const names = ["rate", "speed", "cosine", "sine"];
  return Array.from({ length: 4 * modes + 1 }, (_, i) =>
    i === 4 * modes ? "offset" : modes === 1 ? names[i % 4]! : `${names[i % 4]} ${1 + (i >> 2)}`,
  );
}

function remarksOf(
  { values, used, residuals, stopped, steps, signs, modes }: RingDown,
  foundStart: boolean,
): Problem[] {
  const remarks: Problem[] = [...signs.remarks];
  const { value, standardUncertainty } = values.dampingRatio;
  const decays = (used.to - used.from) * values.rate.value;
  if (decays < 1 || (standardUncertainty !== null && standardUncertainty > 0.2 * value))
    remarks.push({
      code: "too-short",
      path: ["use"],
      message: `The part used lasts ${decays.toPrecision(2)} decay times${foundStart ? " from the start that was found" : ""}; needed: one or more for a damping ratio that is worth its digits. Record longer, or lower the noise.`,
    });
  if (stopped !== "converged")
    remarks.push({
      code: "not-converged",
      path: [],
      message: `The fit stopped after ${steps} steps (${stopped}); the values are the best found.`,
    });
  if (residuals.whiteness !== null && residuals.whiteness.probability < 1e-3)
    remarks.push({
      code: "residuals-not-white",
      path: [],
      message: `The residuals are not white (neighbors correlate by ${residuals.whiteness.lagOne.toFixed(2)}): something of the record is not in the model. The uncertainty counts the noise near the tone.`,
    });
  const [one, two] = modes;
  if (one !== undefined && two !== undefined && harmonicOrder(one, two) === null)
    remarks.push(
      Math.abs(two.frequency.value / one.frequency.value - 1) < 0.02
        ? {
            code: "second-decay",
            path: [],
            message: `A second decay of ${Number(two.rate.value.toPrecision(3))} 1/s lies at the same tone (${(two.amplitude.value / one.amplitude.value).toPrecision(2)} of the first): the loudspeaker's or the room's own, or a mode that is split. One decay alone would read wrong.`,
          }
        : {
            code: "second-mode",
            path: [],
            message: `A second mode at ${formatQuantity(two.frequency.value, "frequency", { digits: 4 })} was taken in (${(two.amplitude.value / one.amplitude.value).toPrecision(2)} of the first).`,
          },
    );
  return remarks;
}
