/** Counting poles, and finding where the counted ones lie, by the argument principle. */

import { type Complex, complex, divide } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { filmFactor, liveAside, type PoleModel, pivotsOf } from "./poleModel.ts";

/** A sector of the omega plane: from <= |omega| / 2 pi <= upTo [Hz], damping ratio below `below`. */
export interface Sector {
  /** Default: a hundredth of `upTo`. */
  readonly from?: number;
  readonly upTo: number;
  /** Less than 1: the film's own singularities, which lie on the imaginary axis, stay outside. */
  readonly below: number;
}

export interface Inside {
  readonly count: number;
  /** Sum of the poles inside [rad/s], to about a per cent of the sector's size. */
  readonly sum: Complex;
}

/** Number of oscillating poles in a sector. */
export const countPoles = (model: PoleModel, sector: Sector): number => polesInside(model, sector).count;

/**
 * Number and sum of the zeros of the determinant of plate and film together:
 *
 *     count = (1 / 2 pi i) integral d(log det),   sum = (1 / 2 pi i) integral omega d(log det)
 *
 * along the border of the sector. Source: argument principle.
 */
export function polesInside(model: PoleModel, sector: Sector): Inside {
  const total: Total = { turn: 0, re: 0, im: 0 };
  // Twice the reach: at the border a factor without a zero inside still turns, and back.
  const aside = liveAside(model, 2 * 2 * Math.PI * sector.upTo);
  for (const side of border(sector)) follow(model, aside, side, total);
  return {
    count: Math.round(total.turn / (2 * Math.PI)),
    sum: { re: total.re / (2 * Math.PI), im: total.im / (2 * Math.PI) },
  };
}

/** The four sides of a sector, t = 0 .. 1, counterclockwise. */
function border(sector: Sector): readonly ((t: number) => Complex)[] {
  const outer = 2 * Math.PI * sector.upTo;
  const inner = 2 * Math.PI * (sector.from ?? sector.upTo / 100);
  // Under the real axis, so that poles without damping lie inside and turn the determinant slowly.
  const low = -0.03;
  const high = Math.asin(sector.below);
  const at = (radius: number, angle: number) => complex(radius * cos(angle), radius * sin(angle));
  const radius = (t: number) => inner + t * (outer - inner);
  return [
    (t) => at(radius(t), low),
    (t) => at(outer, low + t * (high - low)),
    (t) => at(radius(1 - t), high),
    (t) => at(inner, high + t * (low - high)),
  ];
}

/** Running integrals along the border: of d(arg), and of omega (d arg - i d log|det|). */
interface Total {
  turn: number;
  re: number;
  im: number;
}

/** The determinant's factors at one frequency: directions and sizes. */
interface Factors {
  readonly omega: Complex;
  readonly plate: Complex;
  /** Logarithm of the whole determinant's size. */
  readonly logarithm: number;
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
}

/**
 * `aside`: wavenumbers of the film functions that only the hole in the wall drives; its impedance has their factors as poles, so
 * they stand beside the film's own and take those off again.
 */
function factors(model: PoleModel, aside: Float64Array, omega: Complex): Factors {
  const ports = model.set(omega);
  let [re, im, logarithm] = [1, 0, 0];
  const turnBy = (pRe: number, pIm: number) => {
    const length = Math.hypot(pRe, pIm);
    const next = (re * pRe - im * pIm) / length;
    im = (re * pIm + im * pRe) / length;
    re = next;
    logarithm += Math.log(length);
  };
  const { pivotRe, pivotIm, size } = model.work;
  for (let i = 0; i < size; i++) {
    const squared = pivotRe[i]! ** 2 + pivotIm[i]! ** 2;
    turnBy(pivotRe[i]! / squared, -pivotIm[i]! / squared);
  }
  for (const pivot of pivotsOf(model, ports)) turnBy(pivot.re, pivot.im);
  const own = model.filmRe.length;
  const filmRe = new Float64Array(own + aside.length);
  const filmIm = new Float64Array(own + aside.length);
  filmRe.set(model.filmRe);
  filmIm.set(model.filmIm);
  aside.forEach((k, i) => {
    const inverse = divide(complex(1), filmFactor(model, k, omega));
    filmRe[own + i] = inverse.re;
    filmIm[own + i] = inverse.im;
  });
  for (let m = 0; m < filmRe.length; m++) logarithm -= 0.5 * Math.log(filmRe[m]! ** 2 + filmIm[m]! ** 2);
  return { omega, plate: { re, im }, logarithm, filmRe, filmIm };
}

/** Largest turn in one step that is believed [rad]: of one film factor, and of the plate's whole determinant. */
const surely = { film: 0.6, plate: 0.4 };

/**
 * Adds one side of the border, t = 0 .. 1. The film's factors are followed one by one, because hundreds of small turns of one
 * product could hide whole ones; steps are halved until every factor turns little.
 */
function follow(model: PoleModel, aside: Float64Array, side: (t: number) => Complex, total: Total): void {
  const add = (a: Factors, b: Factors, angle: number) => {
    const re = (a.omega.re + b.omega.re) / 2;
    const im = (a.omega.im + b.omega.im) / 2;
    const growth = b.logarithm - a.logarithm;
    total.turn += angle;
    total.re += re * angle + im * growth;
    total.im += im * angle - re * growth;
  };
  const between = (from: number, to: number, start: Factors, end: Factors): void => {
    const whole = turn(start, end);
    if (whole !== null) {
      add(start, end, whole);
      return;
    }
    if (to - from < 1e-12) throw new Error("The border of the contour runs through a pole.");
    const middle = (from + to) / 2;
    const half = factors(model, aside, side(middle));
    between(from, middle, start, half);
    between(middle, to, half, end);
  };
  // So fine that two poles hardly hide in one step; what turns fast is halved further.
  const steps = 48;
  let start = factors(model, aside, side(0));
  for (let i = 1; i <= steps; i++) {
    const end = factors(model, aside, side(i / steps));
    between((i - 1) / steps, i / steps, start, end);
    start = end;
  }
}

/** Turn of plate and film from one point to a near one; null where some factor turns too far to be sure. */
function turn(a: Factors, b: Factors): number | null {
  const plate = Math.atan2(
    a.plate.re * b.plate.im - a.plate.im * b.plate.re,
    a.plate.re * b.plate.re + a.plate.im * b.plate.im,
  );
  if (Math.abs(plate) > surely.plate) return null;
  let film = 0;
  for (let m = 0; m < a.filmRe.length; m++) {
    const [re, im, toRe, toIm] = [a.filmRe[m]!, a.filmIm[m]!, b.filmRe[m]!, b.filmIm[m]!];
    const angle = Math.atan2(re * toIm - im * toRe, re * toRe + im * toIm);
    if (Math.abs(angle) > surely.film) return null;
    film += angle;
  }
  // The film's terms are inverse factors of the whole determinant.
  return plate - film;
}
