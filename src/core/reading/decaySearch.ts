/**
 * Which terms a decaying record demands beside one mode and an offset: a drift, hum, a tone that stays, a second mode.
 * Derivation: docs/theory/ringDown.md.
 */
import { type Minimum, minimizeSquares } from "../numerics/minimizeSquares.ts";
import { cos, sin } from "../numerics/sine.ts";
import { backSubstitute } from "../numerics/triangle.ts";
import { type DecayData, type DecayShape, decaySquares, decayValues, parameterCount } from "./decayModel.ts";
import { guessDecay, strongestTone } from "./decayStart.ts";
import { demanded, promising } from "./nestedFits.ts";
import type { RingDownQuestion } from "./ringDownPart.ts";

export interface Chosen {
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
export function onAll(chosen: Chosen | null, data: DecayData): Chosen | null {
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
export function chooseShape(
  question: RingDownQuestion,
  all: DecayData,
  begin: Float64Array,
  rest: number,
): Chosen | null {
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

/** Samples of a piece of the record that is looked at for tones. */
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
