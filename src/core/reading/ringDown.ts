/**
 * Ring-downs: decay and tone of one or several modes, with what may lie over them. Every sample counts; the start is found,
 * terms are taken in where the record demands them, and what the record shows of wrong readings is named.
 * Derivation: docs/theory/ringDown.md.
 */

import { type Minimum, minimizeSquares } from "../numerics/minimizeSquares.ts";
import { cube } from "../numerics/power.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { cos, sin } from "../numerics/sine.ts";
import { backSubstitute, inverseOfNormal } from "../numerics/triangle.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { type DecayData, type DecayShape, decaySquares, decayValues, parameterCount } from "./decayModel.ts";
import { envelopeOf, guessDecay, restOf, startOfDecay, strongestTone } from "./decayStart.ts";
import { decrementOf } from "./decrement.ts";
import { demanded, promising } from "./nestedFits.ts";
import {
  type Correlation,
  coverageOfIntervals,
  type ReadValue,
  type Residuals,
  readValue,
  type SecondOpinion,
} from "./reading.ts";
import { harmonicOrder, type RingDownSigns, signsOf } from "./ringDownSigns.ts";
import { powerNear, whitenessOf } from "./whiteness.ts";

export interface RingDownQuestion {
  /** The output, evenly sampled, in volts or radians; a missing sample is NaN. */
  readonly y: Float64Array;
  /** Between samples [s]. */
  readonly step: number;
  /** Time of the first sample [s]; 0 where absent. */
  readonly start?: number;
  /** Part to fit [s]; found and to the end where absent. */
  readonly from?: number;
  readonly to?: number;
  /** Where the tone lies, about [Hz]; the strongest one where absent. */
  readonly near?: number;
  /** Number of modes; found (one or two) where absent. */
  readonly modes?: number;
  /** Offset always; drift, hum of 50 or 60 Hz, a tone that is still there: found where absent, or as told. */
  readonly drift?: boolean;
  /** Mains frequency [Hz]; null for none. */
  readonly hum?: number | null;
  /** Frequency of a tone that does not die [Hz]; null for none. */
  readonly tone?: number | null;
  /** First sample that is clipped, from 0, and the last; a fit starts after it. */
  readonly clippedUntil?: number | null;
}

export interface RingDownMode {
  /** Of the pole: |omega_p| / 2 pi [Hz]. */
  readonly frequency: ReadValue;
  readonly dampingRatio: ReadValue;
  /** Decay rate [1/s]. */
  readonly rate: ReadValue;
  /** At the start of the fit, in the unit of the output. */
  readonly amplitude: ReadValue;
}

export interface RingDown {
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
  readonly residuals: Residuals;
  readonly coverage: number;
  readonly degreesOfFreedom: number;
  readonly stopped: string;
  readonly steps: number;
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

interface Piece {
  readonly y: Float64Array;
  /** First sample used, in the record. */
  readonly first: number;
  readonly rest: number;
  /** Cycles per sample. */
  readonly tone: number;
  readonly guess: { readonly rate: number; readonly speed: number };
  readonly foundStart: boolean;
}

function pieceOf({ y, step, start = 0, from, to, near, clippedUntil }: RingDownQuestion): Outcome<Piece> {
  if (!(step > 0) || !Number.isFinite(step))
    return refuse({
      code: "wrong-step",
      path: ["step"],
      message: `Found a step of ${step} s between samples; needed: more than zero.`,
    });
  const low = from === undefined ? 0 : Math.max(0, Math.ceil((from - start) / step - 1e-9));
  const high = to === undefined ? y.length : Math.min(y.length, Math.floor((to - start) / step + 1e-9) + 1);
  if (high - low < 12)
    return refuse({
      code: from === undefined && to === undefined ? "too-few-samples" : "part-outside",
      path: ["use"],
      message: `Samples in the part to fit: ${Math.max(0, high - low)} of ${y.length}; needed: 12 or more.`,
    });
  const filled = withoutHoles(y.subarray(low, high));
  const rest = restOf(filled);
  if (filled.every((value) => value === filled[0]))
    return refuse({
      code: "silent",
      path: ["y"],
      message: `All ${filled.length} samples are ${filled[0]}; needed: a record with a tone in it. Is it the right channel?`,
    });
  // The strongest tone of the whole, then of what follows the start: a drive may have another frequency than the decay.
  const outer = near === undefined ? strongestTone(filled) : near * step;
  const half = Math.max(1, Math.round(0.5 / Math.max(outer, 1 / filled.length)));
  const envelope = envelopeOf(filled, rest, half);
  let offset = from === undefined ? startOfDecay(envelope) : 0;
  if (clippedUntil !== null && clippedUntil !== undefined) offset = Math.max(offset, clippedUntil + 1 - low);
  if (filled.length - offset < 12)
    return refuse({
      code: "no-decay",
      path: ["y"],
      message: `The record ends ${filled.length - offset} samples after its loudest part; needed: the decay that follows. Record longer.`,
    });
  const used = filled.subarray(offset);
  const tone = near === undefined ? toneOfDecay(used, outer) : outer;
  const guess = guessDecay(used, rest, tone, near === undefined ? 0.7 : 0.1);
  return answer({
    y: y.subarray(low + offset, high),
    first: low + offset,
    rest,
    tone: guess.speed / (2 * Math.PI),
    guess,
    foundStart: from === undefined,
  });
}

/** Tone of the loud beginning: long silence behind it only adds noise. */
function toneOfDecay(used: Float64Array, outer: number): number {
  const periods = Math.max(64, Math.ceil(60 / Math.max(outer, 1e-6)));
  const found = strongestTone(used.subarray(0, Math.min(used.length, periods)));
  return found > 0 ? found : outer;
}

function withoutHoles(y: Float64Array): Float64Array {
  if (!y.some(Number.isNaN)) return y;
  let last = y.find((value) => !Number.isNaN(value)) ?? 0;
  return y.map((value) => {
    if (!Number.isNaN(value)) last = value;
    return last;
  });
}

interface Chosen {
  readonly shape: DecayShape;
  readonly fit: Minimum;
  readonly included: readonly string[];
}

/** Samples on which terms are chosen; the last steps take all of them. */
const coarseCount = 16384;

function coarse({ step, y }: DecayData): DecayData {
  const stride = Math.ceil(y.length / coarseCount);
  if (stride === 1) return { step, y };
  return {
    step: step * stride,
    y: Float64Array.from({ length: Math.floor((y.length - 1) / stride) + 1 }, (_, i) => y[i * stride]!),
  };
}

/** Full steps on every sample from what the coarse record gave. */
function onAll(chosen: Chosen | null, data: DecayData): Chosen | null {
  if (chosen === null || data.y.length <= coarseCount) return chosen;
  const problem = decaySquares(chosen.shape, data);
  let parameters = chosen.fit.parameters;
  for (let steps = 1; steps <= 8; steps++) {
    const linearization = problem.linearize(parameters, true);
    if (linearization === null) return chosen;
    const { sumOfSquares, projected, triangle } = linearization;
    const left = projected.reduce((sum, value) => sum + value * value, 0);
    const done = left <= 1e-11 * sumOfSquares;
    if (done || steps === 8)
      return {
        ...chosen,
        fit: {
          ...chosen.fit,
          parameters,
          linearization,
          sumOfSquares,
          steps: chosen.fit.steps + steps,
          stopped: done ? "converged" : "too-many-steps",
        },
      };
    const step = backSubstitute(triangle, projected);
    if (step === null) return chosen;
    parameters = parameters.map((value, i) => value - step[i]!);
  }
  return chosen;
}

/** Takes terms in, one after another, where they take away what noise alone would not. */
function chooseShape(question: RingDownQuestion, all: DecayData, begin: Float64Array, rest: number): Chosen | null {
  const data = coarse(all);
  const { modes, drift, hum, tone, step } = question;
  const perHertz = (2 * Math.PI * step) / all.step;
  const steadyTold = [hum, tone].flatMap((frequency) => (typeof frequency === "number" ? [frequency * perHertz] : []));
  const names = [
    ...(typeof hum === "number" ? [`hum ${hum} Hz`] : []),
    ...(typeof tone === "number" ? [`tone ${Math.round(tone)} Hz`] : []),
  ];
  let shape: DecayShape = { modes: 1, drift: drift === true, steady: steadyTold };
  let fit = fitted(shape, data, startParameters(shape, begin, rest, data));
  if (fit === null) return null;
  const included = [...(drift === true ? ["drift"] : []), ...names];
  const tryShape = (next: DecayShape, start: Float64Array, name: string | null): boolean => {
    if (!promising(fit!, decaySquares(next, data), start, data.y.length)) return false;
    const better = fitted(next, data, start);
    if (better === null || !(better.parameters[0]! > 0) || !demanded(fit!, better, data.y.length)) return false;
    [shape, fit] = [next, better];
    if (name !== null) included.push(name);
    return true;
  };
  const length = all.y.length;
  if (drift === undefined) {
    const next = { ...shape, drift: true };
    tryShape(next, widened(shape, fit.parameters, next), "drift");
  }
  if (hum === undefined)
    for (const mains of [50, 60]) {
      if (length * step * mains < 0.3) continue;
      const next = { ...shape, steady: [...shape.steady, mains * perHertz] };
      if (tryShape(next, widened(shape, fit.parameters, next), `hum ${mains} Hz`)) break;
    }
  if (tone === undefined) {
    const speed = lastingTone(shape, fit, all);
    if (speed !== null) {
      const next = { ...shape, steady: [...shape.steady, speed] };
      tryShape(next, widened(shape, fit.parameters, next), `tone ${Math.round(speed / perHertz)} Hz`);
    }
  }
  for (let count = 2; count <= (modes ?? 2); count++) {
    const next = { ...shape, modes: count };
    const start = withMode(shape, fit, all, data);
    if (modes === undefined) tryShape(next, start, null);
    else {
      const forced = fitted(next, data, start);
      if (forced !== null) [shape, fit] = [next, forced];
    }
  }
  return { shape, fit, included };
}

function fitted(shape: DecayShape, data: DecayData, start: Float64Array): Minimum | null {
  const problem = decaySquares(shape, data);
  const lower = new Float64Array(start.length).fill(Number.NEGATIVE_INFINITY);
  for (let k = 0; k < shape.modes; k++) {
    lower[4 * k] = 0;
    lower[4 * k + 1] = 1e-6;
  }
  const found = minimizeSquares(problem, { start, lower, scaling: "current", maxSteps: 40 });
  return found.linearization === null ? null : found;
}

/** Amplitudes follow from one linear step: they start at zero. */
function startParameters(shape: DecayShape, begin: Float64Array, rest: number, data: DecayData): Float64Array {
  const start = new Float64Array(parameterCount(shape));
  start.set(begin, 0);
  start[4] = rest;
  start[2] = (data.y[0] ?? 0) - rest || 1e-9;
  return linearStart(shape, start, data);
}

/** Best amplitudes, offset and steady tones for given rates and speeds: the model is linear in them. */
function linearStart(shape: DecayShape, start: Float64Array, data: DecayData): Float64Array {
  const lower = Float64Array.from(start);
  const upper = Float64Array.from(start);
  for (let i = 0; i < start.length; i++)
    if (i >= 4 * shape.modes || i % 4 > 1) {
      lower[i] = Number.NEGATIVE_INFINITY;
      upper[i] = Number.POSITIVE_INFINITY;
    }
  return minimizeSquares(decaySquares(shape, data), {
    start,
    lower,
    upper,
    maxSteps: 4,
    damping: 1e-12,
    scaling: "current",
  }).parameters;
}

/** The same parameters in a shape with more terms, which start at zero. */
function widened(from: DecayShape, p: Float64Array, to: DecayShape): Float64Array {
  const out = new Float64Array(parameterCount(to));
  out.set(p.subarray(0, 4 * from.modes + 1), 0);
  const [tailFrom, tailTo] = [4 * from.modes + (from.drift ? 2 : 1), 4 * to.modes + (to.drift ? 2 : 1)];
  if (from.drift && to.drift) out[4 * to.modes + 1] = p[4 * from.modes + 1]!;
  out.set(p.subarray(tailFrom), tailTo);
  return out;
}

function residualsOf(shape: DecayShape, fit: Minimum, data: DecayData): Float64Array {
  const model = decayValues(shape, data, fit.parameters);
  return model.map((value, i) => (Number.isNaN(data.y[i]!) ? 0 : data.y[i]! - value));
}

/** Residuals of a piece of the record that is looked at for tones. */
function residualsFrom(shape: DecayShape, fit: Minimum, data: DecayData, from: number): Float64Array {
  const y = data.y.subarray(from, Math.min(data.y.length, from + pieceCount));
  const model = decayValues(shape, { step: data.step, y }, turned(shape, fit.parameters, from * data.step, data, from));
  return model.map((value, i) => (Number.isNaN(y[i]!) ? 0 : y[i]! - value));
}

const pieceCount = 65536;

/** The same model seen from a later zero of x. The drift becomes part of the offset: a piece is short against the record. */
function turned(
  { modes, drift, steady }: DecayShape,
  p: Float64Array,
  x: number,
  { y }: DecayData,
  from: number,
): Float64Array {
  const out = Float64Array.from(p);
  const turn = (at: number, rate: number, speed: number) => {
    const [a, b, size] = [p[at]!, p[at + 1]!, Math.exp(-rate * x)];
    const [c, s] = [cos(speed * x), sin(speed * x)];
    out[at] = size * (a * c + b * s);
    out[at + 1] = size * (b * c - a * s);
  };
  for (let k = 0; k < modes; k++) turn(4 * k + 2, p[4 * k]!, p[4 * k + 1]!);
  const tail = 4 * modes + (drift ? 2 : 1);
  for (const [j, speed] of steady.entries()) turn(tail + 2 * j, 0, speed);
  if (drift && y.length > pieceCount) {
    out[4 * modes]! += p[4 * modes + 1]! * ((2 * from) / (y.length - 1) - 1);
    out[4 * modes + 1] = 0;
  }
  return out;
}

/** Frequency of what still sounds late in the record, near the mode; radians per x. null: nothing. */
function lastingTone(shape: DecayShape, fit: Minimum, data: DecayData): number | null {
  const count = data.y.length;
  const late =
    count > 2 * pieceCount
      ? residualsFrom(shape, fit, data, count - pieceCount)
      : residualsOf(shape, fit, data).subarray(Math.floor(count / 3));
  if (late.length < 32) return null;
  const cycles = strongestTone(late, 0.2 * ((fit.parameters[1]! * data.step) / (2 * Math.PI)));
  const speed = (2 * Math.PI * cycles) / data.step;
  return speed > 0.3 && speed < 3 ? speed : null;
}

/** A second mode at the strongest tone of the residuals at the start, with the decay that they show. */
function withMode(shape: DecayShape, fit: Minimum, all: DecayData, data: DecayData): Float64Array {
  const residuals = residualsFrom(shape, fit, all, 0);
  const cycles = strongestTone(residuals, 0.1 * ((fit.parameters[1]! * all.step) / (2 * Math.PI)));
  const { rate, speed } = guessDecay(residuals, 0, Math.max(cycles, 1e-6));
  const start = new Float64Array(fit.parameters.length + 4);
  start.set(fit.parameters.subarray(0, 4 * shape.modes), 0);
  start.set([rate / all.step, speed / all.step, 0, 0], 4 * shape.modes);
  start.set(fit.parameters.subarray(4 * shape.modes), 4 * shape.modes + 4);
  return linearStart({ ...shape, modes: shape.modes + 1 }, start, data);
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
    correlation: covariance === null ? null : correlationOf(covariance, p.length, shape),
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

/** Values of one mode: zeta = s / sqrt(s^2 + w^2), |omega_p| = sqrt(s^2 + w^2), and their uncertainty by the gradient. */
function modeOf(
  p: Float64Array,
  covariance: Float64Array | null,
  k: number,
  perSecond: number,
  factor: number,
): RingDownMode {
  const at = 4 * k;
  const [s, w, a, b] = [p[at]!, p[at + 1]!, p[at + 2]!, p[at + 3]!];
  const size = Math.hypot(s, w);
  const u = (i: number, j: number) => covariance![(at + i) * p.length + at + j]!;
  const spread = (gradient: readonly number[], from: number): number | null => {
    if (covariance === null) return null;
    let sum = 0;
    for (const [i, x] of gradient.entries())
      for (const [j, y] of gradient.entries()) sum += x * y * u(from + i, from + j);
    return Math.sqrt(Math.max(0, sum));
  };
  const hertz = perSecond / (2 * Math.PI);
  const amplitude = Math.hypot(a, b);
  return {
    frequency: readValue(size * hertz, spread([(s / size) * hertz, (w / size) * hertz], 0), factor),
    dampingRatio: readValue(s / size, spread([(w * w) / cube(size), (-s * w) / cube(size)], 0), factor),
    rate: readValue(s * perSecond, spread([perSecond], 0), factor),
    amplitude: readValue(amplitude, amplitude > 0 ? spread([a / amplitude, b / amplitude], 2) : null, factor),
  };
}

function correlationOf(covariance: Float64Array, size: number, { modes }: DecayShape): Correlation {
  const names = ["rate", "speed", "cosine", "sine"]
    .flatMap((name, _, all) => (all.length === 4 ? [name] : []))
    .slice(0, 4);
  const kept = 4 * modes + 1;
  const labels = Array.from({ length: kept }, (_, i) =>
    i === 4 * modes ? "offset" : modes === 1 ? names[i % 4]! : `${names[i % 4]} ${1 + (i >> 2)}`,
  );
  const matrix = labels.flatMap((_, i) =>
    labels.map((__, j) => covariance[i * size + j]! / Math.sqrt(covariance[i * size + i]! * covariance[j * size + j]!)),
  );
  return { names: labels, matrix };
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
