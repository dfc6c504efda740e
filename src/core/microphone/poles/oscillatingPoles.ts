/**
 * Oscillating poles: the answer to a point force is sampled along rays of the omega plane; the poles of a rational interpolant,
 * and the modes of the film alone, start a secant search on the determinant.
 */

import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { rationalInterpolant, rationalPoles } from "../../numerics/rational.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { polesInside } from "./countPoles.ts";
import {
  asideModes,
  deflatedDeterminant,
  filmModes,
  liveAside,
  liveFactors,
  type PoleModel,
  probeCompliance,
} from "./poleModel.ts";

/**
 * Rays from the origin along which the answer is sampled [rad from the real axis]: poles of little damping show on the first,
 * strongly damped ones only near the others.
 */
export const rays = [0, 0.55, 1.05] as const;

/** A ray so near the imaginary axis that poles on it and beside it show alike: of holes and cavities that all but overdamp each other. */
const besideAxis = 1.42;

/** Starts along that ray; those on the other side of the axis are mirror images. */
export const startsBesideAxis = (model: PoleModel, top: number, density: number): readonly Complex[] =>
  startsAlong(model, 1.2 * top, besideAxis, density)
    .filter(({ re, im }) => im > 0 && im < 1.2 * top && Math.abs(re) < 0.5 * im)
    .map(({ re, im }) => complex(Math.abs(re), im));

/** Points on a ray, 0 < t < top: Chebyshev's, so that both ends are well seen. */
export function rayPoints(top: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => (top / 2) * (1 - cos((Math.PI * (i + 0.5)) / count)));
}

/** Twice what plate and film need to 1e-9 up to four resonances; times `density` for a wider range. */
const samplesPerRay = 24;

/**
 * Poles with |omega| < top and Re omega > 0 [rad/s]. Every start is polished on the determinant, divided by the poles that are
 * known already: so twins are told apart, and a film mode that hardly moves the plate is found although no force shows it.
 * With `counted` the search goes on until the argument principle agrees; `near` are poles of a device that differs little.
 */
export function oscillatingPoles(
  model: PoleModel,
  top: number,
  { density = 1, counted = false, near = [] }: { density?: number; counted?: boolean; near?: readonly Complex[] } = {},
): readonly Complex[] {
  const starts = [
    ...near,
    ...rays.flatMap((angle) => startsAlong(model, 1.2 * top, angle, density)),
    // A little aside: at its own mode the film's answer is infinite.
    ...filmModes(model, 1.1 * top).map(({ omega }) => multiply(omega, complex(1.004, 0.003))),
    ...asideModes(model, 1.1 * top).map((omega) => multiply(omega, complex(1.004, 0.003))),
  ].filter(({ re, im }) => {
    const size = Math.hypot(re, im);
    return size > 1e-3 * top && size < 1.1 * top && re > 0 && im > -0.05 * size;
  });
  const live = liveFactors(model, 1.3 * top).map(({ index }) => index);
  const known: Complex[] = [];
  // From each start again and again until it leads to nothing new inside: what one pole hid, its deflation shows.
  const tryFrom = (start: Complex) => {
    for (;;) {
      const omega = polish(model, live, known, start);
      if (omega === null) return;
      known.push(omega);
      if (absolute(omega) > 1.1 * top || omega.re <= 0) return;
    }
  };
  starts.forEach(tryFrom);
  if (counted) searchUntilCounted(model, top, known, tryFrom);
  return known.filter(({ re, im }) => {
    const size = Math.hypot(re, im);
    // Structural loss turns real poles off their axis by as much.
    return size <= top && re > (1e-4 + 1.5 * model.microphone.diaphragm.lossFactor) * size && im > -1e-9 * size;
  });
}

/** Rings counted at most, some 500 frequencies each: a film of a micron has a crowd of strongly damped modes. */
const mostRings = 30;
/** And in a large basis, where each frequency costs ten times as much. */
const fewRings = 2;

/** Poles with more damping than this lie next to the film's own singularities; they are searched, but not counted. */
export const countedBelow = 0.95;

/**
 * Where the contour counts more poles than are known, halves the range until one ring misses just one; the sum of the poles in
 * that ring then says where it is.
 */
function searchUntilCounted(model: PoleModel, top: number, known: Complex[], tryFrom: (start: Complex) => void): void {
  const knownIn = (from: number, to: number) =>
    known.filter(({ re, im }) => {
      const size = Math.hypot(re, im);
      return size > from && size <= to && re > 0 && im > -1e-9 * size && im < countedBelow * size;
    });
  let rings = 0;
  const search = (from: number, to: number, depth: number): void => {
    if (rings++ >= (model.work.size <= 48 ? mostRings : fewRings)) return;
    const inside = polesInside(model, { from: from / (2 * Math.PI), upTo: to / (2 * Math.PI), below: countedBelow });
    const already = knownIn(from, to);
    const missing = inside.count - already.length;
    if (missing <= 0) return;
    // One that is missing is the rest of the sum; a few may be twins, near their mean.
    if (missing <= 3) {
      const rest = already.reduce((sum, pole) => subtract(sum, pole), inside.sum);
      tryFrom(scale(rest, 1 / missing));
      if (knownIn(from, to).length >= inside.count) return;
    }
    if (depth === 0) return;
    // Off the middle, so that a border hardly meets a pole twice.
    const middle = from + 0.47 * (to - from);
    search(from, middle, depth - 1);
    search(middle, to, depth - 1);
  };
  search(top / 100, top, 9);
}

/**
 * Poles of a rational interpolant through samples on the ray omega = t e^(i angle), 0 < t < top; only those that stay within a
 * few per cent when every third sample is left out, because the rest are doublets of pole and zero made by round-off.
 */
function startsAlong(model: PoleModel, top: number, angle: number, density: number): readonly Complex[] {
  const turn = complex(cos(angle), sin(angle));
  const x = rayPoints(top, 6 * Math.round((density * samplesPerRay) / 6) + 3);
  const values = Array.from(x, (t) => probeCompliance(model, scale(turn, t)));
  const polesOf = (indices: readonly number[]) =>
    rationalPoles(
      rationalInterpolant({
        x: Float64Array.from(indices, (i) => x[i]!),
        re: Float64Array.from(indices, (i) => values[i]!.re),
        im: Float64Array.from(indices, (i) => values[i]!.im),
      }),
    );
  const all = Array.from(x, (_, i) => i);
  const fewer = polesOf(all.filter((i) => i % 3 !== 1 || i === x.length - 2));
  return polesOf(all)
    .filter((pole) => fewer.some((other) => absolute(subtract(other, pole)) < 0.05 * absolute(pole)))
    .map((pole) => multiply(pole, turn));
}

/** Secant on the deflated determinant from two points that far `apart` (relative); null where it runs off, meets a known pole again or does not settle. */
export function polish(
  model: PoleModel,
  live: readonly number[],
  known: readonly Complex[],
  start: Complex,
  apart = 1e-4,
): Complex | null {
  let before = start;
  let here = multiply(start, complex(1 + apart, apart / 2));
  const aside = liveAside(model, 2 * absolute(start));
  let valueBefore = deflatedDeterminant(model, live, known, before, aside);
  for (let step = 0; step < 30; step++) {
    const value = deflatedDeterminant(model, live, known, here, aside);
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
