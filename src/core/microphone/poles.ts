/**
 * Poles of plate and film: the frequencies at which they ring by themselves and the rates at which they creep back.
 *
 * Oscillating poles: the answer to a point force off all lines of symmetry is sampled on the real axis; the poles of a
 * rational interpolant start a secant search on the whole system. They are counted by the argument principle on request.
 * Real poles: by the inertia of the (then real) system on the imaginary axis, up to the first singularity of the film itself.
 * Derivation: docs/theory/poles.md.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../numerics/complex.ts";
import { rationalInterpolant, rationalPoles } from "../numerics/rational.ts";
import { plateModes } from "../parts/diaphragm/modes.ts";
import { valuesAt } from "../parts/diaphragm/polynomials.ts";
import { filmCoefficients } from "../parts/film/coefficients.ts";
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

/**
 * Rays from the origin along which the answer is sampled [rad from the real axis]: poles of little damping show on the first,
 * strongly damped ones only near them. 41 samples each: twice what plate and film need to 1e-9 up to four resonances.
 */
const rays = [0, 0.55, 1.05] as const;
const samplesPerRay = 41;

interface Search {
  readonly system: CoupledSystem;
  /** Film terms that can have a mode of their own in the range. */
  readonly live: readonly number[];
}

/**
 * Every start is polished on the determinant, divided by the poles that are known already: so twins are told apart, and a
 * film mode that hardly moves the plate is found although no force shows it.
 */
function oscillatingPoles(system: CoupledSystem, upTo: number): readonly OscillatingPole[] {
  const force = probe(system.prepared);
  const top = 2 * Math.PI * upTo;
  const starts = [
    ...rays.flatMap((angle) => startsAlong(system, force, 1.2 * top, angle)),
    ...filmStarts(system, 1.1 * top),
  ].filter(({ re, im }) => {
    const size = Math.hypot(re, im);
    return size > 1e-3 * top && size < 1.1 * top && re > 0 && im > -0.05 * size;
  });
  const search = { system, live: liveTerms(system, 1.3 * top).map(({ index }) => index) };
  const known: Complex[] = [];
  const tryFrom = (start: Complex) => {
    const omega = polish(search, known, start);
    if (omega !== null) known.push(omega);
  };
  starts.forEach(tryFrom);
  // Twins: of a square's two modes of one kind the one that is weakly excited may have been missed.
  for (const pole of [...known]) tryFrom(multiply(pole, complex(0.997, 0.002)));
  return known
    .map(asOscillating)
    .filter((pole) => pole !== null && pole.frequency <= upTo)
    .map((pole) => pole as OscillatingPole)
    .sort((a, b) => a.frequency - b.frequency);
}

/** null for what is no oscillating pole: on the imaginary axis, or growing by more than round-off. */
function asOscillating(omega: Complex): OscillatingPole | null {
  const size = absolute(omega);
  if (omega.re < 1e-4 * size || omega.im < -1e-9 * size) return null;
  return { omega, frequency: size / (2 * Math.PI), dampingRatio: Math.max(0, omega.im / size) };
}

/** Poles of a rational interpolant through samples on the ray omega = t e^(i angle), 0 < t < top. */
function startsAlong(system: CoupledSystem, force: Float64Array, top: number, angle: number): readonly Complex[] {
  const turn = complex(Math.cos(angle), Math.sin(angle));
  // Chebyshev points, without the ends.
  const x = Float64Array.from({ length: samplesPerRay }, (_, i) => {
    return (top / 2) * (1 - Math.cos((Math.PI * (i + 0.5)) / samplesPerRay));
  });
  const values = Array.from(x, (t) => compliance(system, force, scale(turn, t)));
  const samples = { x, re: Float64Array.from(values, (v) => v.re), im: Float64Array.from(values, (v) => v.im) };
  return rationalPoles(rationalInterpolant(samples)).map((pole) => multiply(pole, turn));
}

/** Film terms (index, wavenumber) that can have a mode of their own with |omega| < top. */
function liveTerms({ prepared, microphone }: CoupledSystem, top: number) {
  const { film } = prepared;
  if (!film) return [];
  const { air, diaphragm } = microphone;
  const speed = Math.sqrt((air.heatRatio * air.pressure) / air.density);
  const live: { readonly index: number; readonly k: number; readonly start: Complex }[] = [];
  film.across.wavenumbers.forEach((kx, m) => {
    film.along.wavenumbers.forEach((ky, n) => {
      const k = (2 / diaphragm.across) * Math.hypot(kx, ky / prepared.shape.aspect);
      // A wave in a film is slower than sound in the open; half its speed covers what walls do to waves that still ring.
      if (k === 0 || 0.5 * speed * k > top) return;
      live.push({ index: m * film.along.count + n, k, start: { re: 0.8 * speed * k, im: 0.3 * speed * k } });
    });
  });
  return live;
}

/** Modes of the film alone, Psi k^2 + chi = 0 term by term: where poles lie that hardly move the plate. */
function filmStarts(system: CoupledSystem, top: number): readonly Complex[] {
  const { film, air } = system.microphone;
  return liveTerms(system, top).flatMap(({ k, start }) => {
    const sum = (omega: Complex) => {
      const { psi, chi } = filmCoefficients({ gap: film!.gap, air, omega });
      return add(scale(psi, k * k), chi);
    };
    const omega = secant(sum, start);
    // A little aside: at its own mode the film's answer is infinite.
    return omega ? [multiply(omega, complex(1.004, 0.003))] : [];
  });
}

/** Zero of a function from a start; null where it runs off or does not settle. */
function secant(f: (omega: Complex) => Complex, start: Complex): Complex | null {
  let before = start;
  let valueBefore = f(before);
  let here = multiply(start, complex(1.001, 0.0005));
  for (let step = 0; step < 40; step++) {
    const value = f(here);
    const change = divide(multiply(value, subtract(here, before)), subtract(value, valueBefore));
    if (!Number.isFinite(change.re) || !Number.isFinite(change.im)) return null;
    before = here;
    valueBefore = value;
    here = subtract(here, change);
    if (absolute(change) < 1e-9 * absolute(here)) return here;
  }
  return null;
}

/**
 * Determinant of plate and film over the factors of known poles, as a number and a logarithm: det A times those d_mn that have
 * a zero nearby (the rest only turn slowly, but hundreds of them would slow the search). Near a known pole it is not zero.
 */
function deflatedDeterminant(search: Search, known: readonly Complex[], omega: Complex) {
  const { system, live } = search;
  setFrequency(system, omega);
  let logarithm = 0;
  let [re, im] = [1, 0];
  const divideBy = (dRe: number, dIm: number) => {
    const squared = dRe * dRe + dIm * dIm;
    const next = (re * dRe + im * dIm) / squared;
    im = (im * dRe - re * dIm) / squared;
    re = next;
    const size = Math.abs(re) + Math.abs(im);
    if (size > 1e100 || size < 1e-100) {
      logarithm += Math.log(size);
      re /= size;
      im /= size;
    }
  };
  const { pivotRe, pivotIm } = system.work;
  for (let i = 0; i < pivotRe.length; i++) divideBy(pivotRe[i]!, pivotIm[i]!);
  for (const index of live) divideBy(system.filmRe[index]!, system.filmIm[index]!);
  const size = absolute(omega);
  for (const pole of known) divideBy((omega.re - pole.re) / size, (omega.im - pole.im) / size);
  return { re, im, logarithm };
}

/** Secant on the deflated determinant; null where it runs off, meets a known pole again or does not settle. */
function polish(search: Search, known: readonly Complex[], start: Complex): Complex | null {
  let before = start;
  let here = multiply(start, complex(1.0001, 0.00005));
  let valueBefore = deflatedDeterminant(search, known, before);
  for (let step = 0; step < 30; step++) {
    const value = deflatedDeterminant(search, known, here);
    // ratio = f(before) / f(here)
    const ratio = scale(divide(valueBefore, value), Math.exp(valueBefore.logarithm - value.logarithm));
    const change = divide(subtract(here, before), { re: 1 - ratio.re, im: -ratio.im });
    if (!Number.isFinite(change.re) || !Number.isFinite(change.im)) return null;
    before = here;
    valueBefore = value;
    here = subtract(here, change);
    const size = absolute(here);
    if (absolute(subtract(here, start)) > 0.3 * absolute(start)) return null;
    if (absolute(change) < 1e-11 * size) {
      return known.some((pole) => absolute(subtract(pole, here)) < 1e-9 * size) ? null : here;
    }
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
  const inner = 1e-2 * outer;
  // Under the real axis, so that poles without damping lie inside and turn the determinant slowly.
  const low = -0.03;
  const high = Math.asin(sector.below);
  const at = (radius: number, angle: number) => complex(radius * Math.cos(angle), radius * Math.sin(angle));
  const sides: readonly ((t: number) => Complex)[] = [
    (t) => at(inner + t * (outer - inner), low),
    (t) => at(outer, low + t * (high - low)),
    (t) => at(outer + t * (inner - outer), high),
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
  // So fine that two poles hardly hide in one step; what turns fast is halved further.
  const steps = 60;
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
