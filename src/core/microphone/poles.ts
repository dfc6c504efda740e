/**
 * Poles of plate and film: the frequencies at which they ring by themselves and the rates at which they creep back.
 *
 * Oscillating poles: the answer to a point force off all lines of symmetry is sampled on the real axis; the poles of a
 * rational interpolant start a secant search on the whole system. They are counted by the argument principle on request.
 * Real poles: by the inertia of the (then real) system on the imaginary axis, up to the first singularity of the film itself.
 * Derivation: docs/theory/poles.md.
 */
import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../numerics/complex.ts";
import { rationalInterpolant, rationalPoles } from "../numerics/rational.ts";
import { plateModes } from "../parts/diaphragm/modes.ts";
import { valuesAt } from "../parts/diaphragm/polynomials.ts";
import { effectiveViscosity } from "../parts/film/slip.ts";
import { type CoupledSystem, coupledSystem, setFrequency, solveLoad } from "./coupled.ts";
import type { Microphone } from "./microphone.ts";
import type { Prepared } from "./prepare.ts";

export interface OscillatingPole {
  /** omega_p = omega_0 (sqrt(1 - zeta^2) + i zeta) [rad/s]. */
  readonly omega: Complex;
  /** |omega_p| / 2 pi [Hz] */
  readonly frequency: number;
  /** zeta = Im omega_p / |omega_p| [-] */
  readonly dampingRatio: number;
}

export interface Poles {
  /** In order of frequency. */
  readonly oscillating: readonly OscillatingPole[];
  /** Real poles e^(-rate t), slowest first [1/s]. */
  readonly real: readonly { readonly rate: number }[];
  /** All oscillating poles up to this |omega| / 2 pi were searched [Hz]. */
  readonly upTo: number;
}

export interface PoleSearch {
  /** Search up to here [Hz]; default 4 times the first resonance in vacuum. */
  readonly upTo?: number;
  /** Go on upward until so many oscillating poles are found; default 1. */
  readonly atLeast?: number;
}

/** Poles of the even-even class, the one that sound excites. */
export function findPoles(prepared: Prepared, microphone: Microphone, search: PoleSearch = {}): Poles {
  const system = coupledSystem(prepared, microphone);
  const first = (plateModes(microphone.diaphragm, { functions: 4, upTo: 1 })[0]?.omega ?? 0) / (2 * Math.PI);
  const atLeast = search.atLeast ?? 1;
  let upTo = Math.max(search.upTo ?? 0, 4 * first);
  let oscillating = oscillatingPoles(system, upTo);
  // Each step adds two thirds of the range; plates have ever more modes, so that a few steps suffice.
  for (let step = 0; step < 6 && oscillating.length < atLeast; step++) {
    upTo *= 5 / 3;
    oscillating = oscillatingPoles(system, upTo);
  }
  return { oscillating, real: realPoles(system, 2 * Math.PI * upTo), upTo };
}

/** A point force off all lines of symmetry, so that no mode of the class escapes. */
function probe({ plate }: Prepared): Float64Array {
  const x = valuesAt(plate.across, 0.37).value;
  const y = valuesAt(plate.along, 0.23).value;
  const result = new Float64Array(plate.size);
  for (let i = 0; i < x.length; i++) for (let j = 0; j < y.length; j++) result[i * y.length + j] = x[i]! * y[j]!;
  return result;
}

/** Deflection under the point force per force: v^T A^-1 v. */
function compliance(system: CoupledSystem, force: Float64Array, omega: Complex): Complex {
  setFrequency(system, omega);
  const q = solveLoad(system, force);
  let re = 0;
  let im = 0;
  for (let i = 0; i < force.length; i++) {
    re += force[i]! * q.re[i]!;
    im += force[i]! * q.im[i]!;
  }
  return { re, im };
}

function oscillatingPoles(system: CoupledSystem, upTo: number): readonly OscillatingPole[] {
  const force = probe(system.prepared);
  const top = 2 * Math.PI * upTo * 1.15;
  const count = 65;
  // Chebyshev points of the second kind over 0 .. top, without the ends.
  const x = Float64Array.from({ length: count }, (_, i) => (top / 2) * (1 - Math.cos((Math.PI * (i + 0.5)) / count)));
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const value = compliance(system, force, complex(x[i]!));
    re[i] = value.re;
    im[i] = value.im;
  }
  const found: OscillatingPole[] = [];
  for (const start of rationalPoles(rationalInterpolant({ x, re, im }))) {
    if (!(start.re > 0.002 * top && start.re < 1.1 * top && start.im > -0.02 * top && start.im < 1.2 * top)) continue;
    const omega = polish(system, force, start);
    if (omega === null) continue;
    const size = absolute(omega);
    const known = found.some((pole) => absolute(subtract(pole.omega, omega)) < 1e-6 * size);
    if (known || size > 2 * Math.PI * upTo || omega.re < 1e-4 * size || omega.im < -1e-9 * size) continue;
    found.push({ omega, frequency: size / (2 * Math.PI), dampingRatio: Math.max(0, omega.im / size) });
  }
  return found.sort((a, b) => a.frequency - b.frequency);
}

/** Secant on 1 / compliance, which is zero at a pole; null where it runs off or does not settle. */
function polish(system: CoupledSystem, force: Float64Array, start: Complex): Complex | null {
  const inverse = (omega: Complex) => divide(complex(1), compliance(system, force, omega));
  let before = start;
  let here = multiply(start, complex(1.0001, 0.00005));
  let valueBefore = inverse(before);
  for (let step = 0; step < 30; step++) {
    const value = inverse(here);
    const slope = divide(subtract(value, valueBefore), subtract(here, before));
    const change = divide(value, slope);
    if (!Number.isFinite(change.re) || !Number.isFinite(change.im)) return absolute(value) === 0 ? here : null;
    before = here;
    valueBefore = value;
    here = subtract(here, change);
    if (absolute(subtract(here, start)) > 0.3 * absolute(start)) return null;
    if (absolute(change) < 1e-12 * absolute(here)) return here;
  }
  return null;
}

/**
 * Inertia of plate and film on the imaginary axis omega = i sigma, where both are real: negative pivots of the plate with the
 * film eliminated, plus film terms of positive compliance. It changes by one where a real pole is passed, and only there.
 */
function inertia(system: CoupledSystem, sigma: number): number {
  setFrequency(system, complex(0, sigma));
  let negative = 0;
  for (const pivot of system.work.pivotRe) if (pivot < 0) negative++;
  for (const term of system.filmRe) if (term > 0) negative++;
  return negative;
}

function realPoles(lossy: CoupledSystem, upTo: number): readonly { readonly rate: number }[] {
  const { microphone, prepared } = lossy;
  if (!microphone.film) return [];
  // A constant loss factor is not causal; the creep of the film is found without it.
  const system = coupledSystem(prepared, { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } });
  const end = Math.min(upTo, 0.999 * firstFilmSingularity(microphone));
  const count = 60;
  const rates: number[] = [];
  let from = end * 1e-6;
  let before = inertia(system, from);
  for (let i = 1; i <= count; i++) {
    const to = end * 10 ** (6 * (i / count - 1));
    const after = inertia(system, to);
    if (after !== before) rates.push(...split(system, from, before, to, after));
    from = to;
    before = after;
  }
  return rates.sort((a, b) => a - b).map((rate) => ({ rate }));
}

/** Bisects an interval down to each single change of the inertia. */
function split(system: CoupledSystem, from: number, atFrom: number, to: number, atTo: number): number[] {
  if (atFrom === atTo) return [];
  if (to - from < 1e-10 * to) return Array.from({ length: Math.abs(atTo - atFrom) }, () => (from + to) / 2);
  const middle = (from + to) / 2;
  const atMiddle = inertia(system, middle);
  return [...split(system, from, atFrom, middle, atMiddle), ...split(system, middle, atMiddle, to, atTo)];
}

/** Rate at which tan k / k of the film's flow or heat first becomes infinite: k = pi / 2 [1/s]. */
function firstFilmSingularity({ film, air }: Microphone): number {
  const gap = film!.gap;
  const viscosity = effectiveViscosity({ viscosity: air.viscosity, meanFreePath: air.meanFreePath, gap });
  const viscous = viscosity / air.density;
  const thermal = air.viscosity / (air.density * air.prandtl);
  return (Math.min(viscous, thermal) * Math.PI ** 2) / gap ** 2;
}

/**
 * Number of oscillating poles with |omega| / 2 pi <= upTo and damping ratio below `below` by the argument principle: the turns
 * of the determinant of plate and film together along the border of that sector of the omega plane. `below` < 1 keeps the
 * film's own singularities, which lie on the imaginary axis, outside.
 */
export function countPoles(
  prepared: Prepared,
  microphone: Microphone,
  sector: { readonly upTo: number; readonly below: number },
): number {
  const system = coupledSystem(prepared, microphone);
  const outer = 2 * Math.PI * sector.upTo;
  const inner = 1e-3 * outer;
  // A hair under the real axis, so that poles without damping lie inside.
  const low = -2e-3;
  const high = Math.asin(sector.below);
  const at = (radius: number, angle: number) => complex(radius * Math.cos(angle), radius * Math.sin(angle));
  const spiral = (t: number) => inner * (outer / inner) ** t;
  const sides: readonly ((t: number) => Complex)[] = [
    (t) => at(spiral(t), low),
    (t) => at(outer, low + t * (high - low)),
    (t) => at(spiral(1 - t), high),
    (t) => at(inner, high + t * (low - high)),
  ];
  const turns = sides.reduce((sum, side) => sum + turned(system, side), 0);
  return Math.round(turns / (2 * Math.PI));
}

/** Directions at one frequency: of the plate's determinant with the film eliminated, and of each film term. */
interface Directions {
  readonly plate: Complex;
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
}

function directions(system: CoupledSystem, omega: Complex): Directions {
  setFrequency(system, omega);
  let plate = complex(1);
  for (let i = 0; i < system.work.size; i++) {
    const pivot = { re: system.work.pivotRe[i]!, im: -system.work.pivotIm[i]! };
    plate = multiply(plate, scale(pivot, 1 / absolute(pivot)));
  }
  return { plate, filmRe: Float64Array.from(system.filmRe), filmIm: Float64Array.from(system.filmIm) };
}

/** Largest turn of one factor in one step that is believed [rad]. */
const surely = 0.6;

/**
 * Angle by which the determinant of plate and film turns along a side, t = 0 .. 1. The film's terms are followed one by one,
 * because hundreds of small turns of one product could hide whole ones; steps are halved until every factor turns little.
 */
function turned(system: CoupledSystem, side: (t: number) => Complex): number {
  const between = (from: number, to: number, start: Directions, end: Directions): number => {
    const middle = (from + to) / 2;
    const half = directions(system, side(middle));
    const first = turn(start, half);
    const second = turn(half, end);
    if (first !== null && second !== null) return first + second;
    if (to - from < 1e-12) throw new Error("The border of the contour runs through a pole.");
    return between(from, middle, start, half) + between(middle, to, half, end);
  };
  const steps = 12;
  let total = 0;
  let start = directions(system, side(0));
  for (let i = 1; i <= steps; i++) {
    const end = directions(system, side(i / steps));
    total += between((i - 1) / steps, i / steps, start, end);
    start = end;
  }
  return total;
}

/** Turn of plate and film from one point to a near one; null where some factor turns too far to be sure. */
function turn(a: Directions, b: Directions): number | null {
  const plate = angleBetween(a.plate, b.plate);
  if (Math.abs(plate) > surely) return null;
  let film = 0;
  for (let m = 0; m < a.filmRe.length; m++) {
    const [re, im, toRe, toIm] = [a.filmRe[m]!, a.filmIm[m]!, b.filmRe[m]!, b.filmIm[m]!];
    const angle = Math.atan2(re * toIm - im * toRe, re * toRe + im * toIm);
    if (Math.abs(angle) > surely) return null;
    film += angle;
  }
  // The film's terms are inverse factors of the whole determinant.
  return plate - film;
}

const angleBetween = (a: Complex, b: Complex): number =>
  Math.atan2(a.re * b.im - a.im * b.re, a.re * b.re + a.im * b.im);
