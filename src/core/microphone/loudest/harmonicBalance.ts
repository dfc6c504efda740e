/**
 * A steady tone in a device whose plate stiffens and whose film is squeezed, in time and in frequency by turns (harmonic
 * balance): the linear device answers each multiple of the tone exactly, the forces off the straight line are taken in time.
 *
 *     x(t) = sum over k of Re (X_k p + R_k N_k) e^{i k omega t},   the slow pressure that would hold the plate where it is [Pa]
 *     N(t) = -(s_2 x^2 + s_3 x^3) - f_s(t) ((1 - c x)^-3 - 1) - f_a(t) ((1 - c x)^-1 - 1)
 *     f_s + f_a = sum over k of Re (F_k p + G_k N_k) e^{i k omega t},   f_s the share sigma_k of each
 *
 * N: the pressure off the straight line, even over the plate; f: the film's mean pressure as the linear device has it, in a part
 * of slow flow, which goes with the gap to the power -3, and one of the air's spring and mass, to the power -1. Solved by
 * Newton's method for N_0 .. N_K.
 * Derivation: docs/theory/loudest.md. Holds: the plate moves in its static shape as far as the forces are concerned.
 */

import type { Complex } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { backSubstitute, reduceToTriangle } from "../../numerics/triangle.ts";

/** What the linear device does at one multiple of the tone. */
export interface Multiple {
  /** X_k: x per pascal of sound [Pa/Pa]; zero but at the tone itself. R_k: x per pascal on the plate [Pa/Pa]. */
  readonly moved: { readonly sound: Complex; readonly plate: Complex };
  /** F_k, G_k: mean pressure of the film, against the plate [Pa/Pa]. */
  readonly film: { readonly sound: Complex; readonly plate: Complex };
  /** sigma_k: share of slow flow in the film's pressure [-]. */
  readonly slow: Complex;
}

export interface Balance {
  /** Multiples 0 to K of the tone. */
  readonly multiples: readonly Multiple[];
  /** s_2 [1/Pa], s_3 [1/Pa^2]: p = x + s_2 x^2 + s_3 x^3 holds the plate at rest. */
  readonly stiffening: { readonly square: number; readonly cube: number };
  /** c: share of the gap that x takes away [1/Pa]. */
  readonly closing: number;
}

export interface Balanced {
  /** N_0 .. N_K [Pa]. */
  readonly forces: readonly Complex[];
  /** x over one period at even times [Pa]: `samples` of them, half as many for up to four multiples. */
  readonly moved: Float64Array;
  /** Newton steps, and the largest difference left, over the pressure [-]. */
  readonly steps: number;
  readonly residual: number;
}

/** Times a period, a power of two: a cube of sixteen multiples does not come back into the first twelve. */
export const samples = 64;
const cosines = Float64Array.from({ length: samples }, (_, i) => cos((2 * Math.PI * i) / samples));
const sines = Float64Array.from({ length: samples }, (_, i) => sin((2 * Math.PI * i) / samples));

/** Steps of that table from one time to the next: half the times do for few multiples. */
const apartFor = (multiples: number): number => (multiples > 5 ? 1 : 2);

/** A film this thin, over its gap, is none: the plate lies on the wall. */
const thinnest = 0.02;
const within = 1e-9;
const most = 40;

/**
 * The steady state under a tone of an amplitude [Pa], from `start` (forces of a neighboring one) or from the linear one. Null:
 * the film closes, or no balance within 40 steps.
 */
export function balanceTone(balance: Balance, pressure: number, start: readonly Complex[] | null): Balanced | null {
  const count = balance.multiples.length;
  let forces = start ? packed(start) : new Float64Array(2 * count);
  let now = mismatch(balance, pressure, forces);
  if (now === null && start) {
    forces = new Float64Array(2 * count);
    now = mismatch(balance, pressure, forces);
  }
  for (let steps = 0; now !== null && steps <= most; steps++) {
    const size = largest(now);
    if (size <= within * pressure)
      return { forces: unpacked(forces), moved: movement(balance, pressure, forces), steps, residual: size / pressure };
    const step = newtonStep(balance, pressure, forces, now);
    if (step === null) return null;
    let next: { readonly forces: Float64Array; readonly left: Float64Array } | null = null;
    for (let share = 1; share > 1e-3 && next === null; share /= 2) {
      const tried = forces.map((value, i) => value - share * step[i]!);
      const left = mismatch(balance, pressure, tried);
      if (left !== null && largest(left) < size * (1 - share / 10)) next = { forces: tried, left };
    }
    if (next === null) return null;
    forces = next.forces;
    now = next.left;
  }
  return null;
}

const largest = (values: Float64Array): number => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** Amplitudes in a row: [Re N_0, 0, Re N_1, Im N_1, ...]. */
export const packed = (amplitudes: readonly Complex[]): Float64Array => {
  const row = new Float64Array(2 * amplitudes.length);
  amplitudes.forEach(({ re, im }, k) => {
    row[2 * k] = re;
    row[2 * k + 1] = k === 0 ? 0 : im;
  });
  return row;
};

const unpacked = (row: Float64Array): Complex[] =>
  Array.from({ length: row.length / 2 }, (_, k) => ({ re: row[2 * k]!, im: row[2 * k + 1]! }));

/** Amplitudes of x under given forces, in a row. */
function motion({ multiples }: Balance, pressure: number, forces: Float64Array): Float64Array {
  const row = new Float64Array(forces.length);
  for (let k = 0; k < multiples.length; k++) {
    const { sound, plate } = multiples[k]!.moved;
    const [re, im] = [forces[2 * k]!, forces[2 * k + 1]!];
    row[2 * k] = sound.re * pressure + plate.re * re - plate.im * im;
    row[2 * k + 1] = sound.im * pressure + plate.re * im + plate.im * re;
  }
  return row;
}

/** x over one period under given forces [Pa]. */
export function movement(balance: Balance, pressure: number, forces: Float64Array): Float64Array {
  const row = motion(balance, pressure, forces);
  const apart = apartFor(balance.multiples.length);
  const x = new Float64Array(samples / apart);
  for (let i = 0; i < x.length; i++) x[i] = at(row, i * apart);
  return x;
}

/** Sum of Re amplitude e^{i k omega t} at a time of the table. */
function at(row: Float64Array, time: number): number {
  let value = row[0]!;
  for (let k = 1; 2 * k < row.length; k++) {
    const turn = (k * time) & (samples - 1);
    value += row[2 * k]! * cosines[turn]! - row[2 * k + 1]! * sines[turn]!;
  }
  return value;
}

/** Adds a value's part at one of `times` a period to amplitudes of the multiples, in a row. */
function spread(value: number, row: Float64Array, time: number, times: number): void {
  row[0]! += value / times;
  const share = (2 * value) / times;
  for (let k = 1; 2 * k < row.length; k++) {
    const turn = (k * time) & (samples - 1);
    row[2 * k]! += share * cosines[turn]!;
    row[2 * k + 1]! -= share * sines[turn]!;
  }
}

/** Amplitudes of 0 to `highest` times the tone of (square + cube x) x^2 over a period, in a row. */
export function bentAmplitudes(
  moved: Float64Array,
  { square, cube }: { readonly square: number; readonly cube: number },
  highest: number,
): Float64Array {
  const row = new Float64Array(2 * (highest + 1));
  const times = moved.length;
  const apart = samples / times;
  for (let i = 0; i < times; i++) {
    const x = moved[i]!;
    spread((square + cube * x) * x * x, row, i * apart, times);
  }
  return row;
}

/** Forces once more from the motion that they lead to, both in a row: Picard's step. Null: the film closes. */
export function forcesAgain(balance: Balance, pressure: number, forces: Float64Array): Float64Array | null {
  const { multiples, stiffening, closing } = balance;
  const moved = motion(balance, pressure, forces);
  const [slowly, springing] = closing === 0 ? [null, null] : filmParts(balance, pressure, forces);
  const again = new Float64Array(forces.length);
  const apart = apartFor(multiples.length);
  for (let time = 0; time < samples; time += apart) {
    const here = at(moved, time);
    const left = 1 - closing * here;
    if (!(left > thinnest)) return null;
    let force = -(stiffening.square + stiffening.cube * here) * here * here;
    if (slowly) force -= at(slowly, time) * (1 / (left * left * left) - 1) + at(springing, time) * (1 / left - 1);
    spread(force, again, time, samples / apart);
  }
  return again;
}

/** Amplitudes of the film's pressure under given forces, of slow flow and of the air's spring and mass, each in a row. */
function filmParts({ multiples }: Balance, pressure: number, forces: Float64Array) {
  const slowly = new Float64Array(forces.length);
  const springing = new Float64Array(forces.length);
  for (let k = 0; k < multiples.length; k++) {
    const { film, slow } = multiples[k]!;
    const [re, im] = [forces[2 * k]!, forces[2 * k + 1]!];
    const pressedRe = film.sound.re * pressure + film.plate.re * re - film.plate.im * im;
    const pressedIm = film.sound.im * pressure + film.plate.re * im + film.plate.im * re;
    slowly[2 * k] = slow.re * pressedRe - slow.im * pressedIm;
    slowly[2 * k + 1] = slow.re * pressedIm + slow.im * pressedRe;
    springing[2 * k] = pressedRe - slowly[2 * k]!;
    springing[2 * k + 1] = pressedIm - slowly[2 * k + 1]!;
  }
  return [slowly, springing] as const;
}

/** N less the forces that N leads to; null where the film closes. */
function mismatch(balance: Balance, pressure: number, forces: Float64Array): Float64Array | null {
  const again = forcesAgain(balance, pressure, forces);
  return again && forces.map((value, i) => value - again[i]!);
}

/** By differences of a millionth of the pressure; null where the slopes are singular. */
function newtonStep(balance: Balance, pressure: number, forces: Float64Array, now: Float64Array): Float64Array | null {
  const step = 1e-6 * pressure;
  const columns: Float64Array[] = [];
  for (let j = 0; j < forces.length; j++) {
    // The mean has no imaginary part; its place stays zero.
    if (j === 1) continue;
    const moved = Float64Array.from(forces);
    moved[j]! += step;
    const there = mismatch(balance, pressure, moved);
    if (there === null) return null;
    columns.push(there.map((value, i) => (value - now[i]!) / step));
  }
  const { triangle, projected } = reduceToTriangle(columns, Float64Array.from(now), forces.length);
  const found = backSubstitute(triangle, projected);
  return found && Float64Array.of(found[0]!, 0, ...found.subarray(1));
}
