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

import { type Complex, multiply, subtract } from "../../numerics/complex.ts";
import { cube } from "../../numerics/power.ts";
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

/** Times a period: a cube of sixteen multiples does not come back into the first twelve. */
export const samples = 64;
const cosines = Float64Array.from({ length: samples }, (_, i) => cos((2 * Math.PI * i) / samples));
const sines = Float64Array.from({ length: samples }, (_, i) => sin((2 * Math.PI * i) / samples));

/** Half as many do for few multiples. */
const timesFor = (multiples: number): number => (multiples > 5 ? samples : samples / 2);

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
  let forces = start ? pack(start) : new Float64Array(2 * count - 1);
  let now = mismatch(balance, pressure, forces);
  if (now === null && start) {
    forces = new Float64Array(2 * count - 1);
    now = mismatch(balance, pressure, forces);
  }
  for (let steps = 0; now !== null && steps <= most; steps++) {
    const size = largest(now);
    if (size <= within * pressure)
      return { forces: unpack(forces), moved: movement(balance, pressure, forces), steps, residual: size / pressure };
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

/** Forces once more from the motion that they lead to: Picard's step. Null: the film closes. */
export function forcesAgain(balance: Balance, pressure: number, forces: readonly Complex[]): Complex[] | null {
  const packed = pack(forces);
  const left = mismatch(balance, pressure, packed);
  return left && unpack(packed.map((value, i) => value - left[i]!));
}

/** x over one period under given forces [Pa]. */
export const movementUnder = (balance: Balance, pressure: number, forces: readonly Complex[]): Float64Array =>
  movement(balance, pressure, pack(forces));

const largest = (values: Float64Array): number => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** [N_0, Re N_1, Im N_1, ...] */
const pack = (forces: readonly Complex[]): Float64Array =>
  Float64Array.from(forces.flatMap(({ re, im }, k) => (k === 0 ? [re] : [re, im])));

function unpack(packed: Float64Array): Complex[] {
  const count = (packed.length + 1) / 2;
  return Array.from({ length: count }, (_, k) =>
    k === 0 ? { re: packed[0]!, im: 0 } : { re: packed[2 * k - 1]!, im: packed[2 * k]! },
  );
}

/** a + b c, the parts. */
function plusTimes(a: Complex, pressure: number, b: Complex, re: number, im: number): Complex {
  return { re: a.re * pressure + b.re * re - b.im * im, im: a.im * pressure + b.re * im + b.im * re };
}

const forceAt = (packed: Float64Array, k: number): readonly [number, number] =>
  k === 0 ? [packed[0]!, 0] : [packed[2 * k - 1]!, packed[2 * k]!];

function movement({ multiples }: Balance, pressure: number, forces: Float64Array): Float64Array {
  const x = new Float64Array(timesFor(multiples.length));
  multiples.forEach(({ moved }, k) => {
    addTurning(x, k, plusTimes(moved.sound, pressure, moved.plate, ...forceAt(forces, k)));
  });
  return x;
}

/** Amplitude at k times the tone of values over a period; at 0 their mean. */
export function harmonic(values: Float64Array, k: number): Complex {
  const apart = (k * samples) / values.length;
  let [re, im] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    const turn = (apart * i) % samples;
    re += values[i]! * cosines[turn]!;
    im -= values[i]! * sines[turn]!;
  }
  const share = (k === 0 ? 1 : 2) / values.length;
  return { re: re * share, im: im * share };
}

/** target += Re amplitude e^{i k omega t} */
function addTurning(target: Float64Array, k: number, { re, im }: Complex): void {
  const apart = (k * samples) / target.length;
  for (let i = 0; i < target.length; i++) {
    const turn = (apart * i) % samples;
    target[i]! += re * cosines[turn]! - im * sines[turn]!;
  }
}

/** N less the forces that N leads to; null where the film closes. */
function mismatch(balance: Balance, pressure: number, forces: Float64Array): Float64Array | null {
  const { multiples, stiffening, closing } = balance;
  const x = movement(balance, pressure, forces);
  const times = x.length;
  const slowly = new Float64Array(times);
  const springing = new Float64Array(times);
  if (closing !== 0) {
    multiples.forEach(({ film, slow }, k) => {
      const pressed = plusTimes(film.sound, pressure, film.plate, ...forceAt(forces, k));
      const flowing = multiply(slow, pressed);
      addTurning(slowly, k, flowing);
      addTurning(springing, k, subtract(pressed, flowing));
    });
  }
  const force = new Float64Array(times);
  for (let i = 0; i < times; i++) {
    const here = x[i]!;
    const left = 1 - closing * here;
    if (!(left > thinnest)) return null;
    const sum =
      -(stiffening.square + stiffening.cube * here) * here * here -
      slowly[i]! * (1 / cube(left) - 1) -
      springing[i]! * (1 / left - 1);
    force[i] = sum;
  }
  const left = Float64Array.from(forces);
  for (let k = 0; k < multiples.length; k++) {
    const { re, im } = harmonic(force, k);
    if (k === 0) left[0]! -= re;
    else {
      left[2 * k - 1]! -= re;
      left[2 * k]! -= im;
    }
  }
  return left;
}

/** By differences of a millionth of the pressure; null where the slopes are singular. */
function newtonStep(balance: Balance, pressure: number, forces: Float64Array, now: Float64Array): Float64Array | null {
  const step = 1e-6 * pressure;
  const columns: Float64Array[] = [];
  for (let j = 0; j < forces.length; j++) {
    const moved = Float64Array.from(forces);
    moved[j]! += step;
    const there = mismatch(balance, pressure, moved);
    if (there === null) return null;
    columns.push(there.map((value, i) => (value - now[i]!) / step));
  }
  const { triangle, projected } = reduceToTriangle(columns, Float64Array.from(now), forces.length);
  return backSubstitute(triangle, projected);
}
