/** Counting poles by the argument principle. */
import { absolute, type Complex, complex, multiply, scale } from "../numerics/complex.ts";
import type { PoleModel } from "./poleModel.ts";

/**
 * Number of oscillating poles with |omega| / 2 pi <= upTo and damping ratio below `below`: the turns of the determinant of
 * plate and film together along the border of that sector of the omega plane. `below` < 1 keeps the film's own singularities,
 * which lie on the imaginary axis, outside.
 */
export function countPoles(model: PoleModel, sector: { readonly upTo: number; readonly below: number }): number {
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
  const turns = sides.reduce((sum, side) => sum + turned(model, side), 0);
  return Math.round(turns / (2 * Math.PI));
}

/** Directions at one frequency: of the plate's determinant with the film eliminated, and of each film factor. */
interface Directions {
  readonly plate: Complex;
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
}

function directions(model: PoleModel, omega: Complex): Directions {
  model.set(omega);
  let plate = complex(1);
  for (let i = 0; i < model.work.size; i++) {
    const pivot = { re: model.work.pivotRe[i]!, im: -model.work.pivotIm[i]! };
    plate = multiply(plate, scale(pivot, 1 / absolute(pivot)));
  }
  return { plate, filmRe: Float64Array.from(model.filmRe), filmIm: Float64Array.from(model.filmIm) };
}

/** Largest turn of one factor in one step that is believed [rad]. */
const surely = 0.6;

/**
 * Angle by which the determinant turns along a side, t = 0 .. 1. The film's factors are followed one by one, because hundreds
 * of small turns of one product could hide whole ones; steps are halved until every factor turns little.
 */
function turned(model: PoleModel, side: (t: number) => Complex): number {
  const between = (from: number, to: number, start: Directions, end: Directions): number => {
    const middle = (from + to) / 2;
    const half = directions(model, side(middle));
    const first = turn(start, half);
    const second = turn(half, end);
    if (first !== null && second !== null) return first + second;
    if (to - from < 1e-12) throw new Error("The border of the contour runs through a pole.");
    return between(from, middle, start, half) + between(middle, to, half, end);
  };
  // So fine that two poles hardly hide in one step; what turns fast is halved further.
  const steps = 60;
  let total = 0;
  let start = directions(model, side(0));
  for (let i = 1; i <= steps; i++) {
    const end = directions(model, side(i / steps));
    total += between((i - 1) / steps, i / steps, start, end);
    start = end;
  }
  return total;
}

/** Turn of plate and film from one point to a near one; null where some factor turns too far to be sure. */
function turn(a: Directions, b: Directions): number | null {
  const plate = Math.atan2(
    a.plate.re * b.plate.im - a.plate.im * b.plate.re,
    a.plate.re * b.plate.re + a.plate.im * b.plate.im,
  );
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
