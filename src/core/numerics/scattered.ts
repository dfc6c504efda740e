/**
 * Smooth functions between scattered points, with an error that each point left out in turn tells.
 *
 *     f(x) = sum w_i |x - x_i|^3 + P(x),   sum w_i p(x_i) = 0 for every term p of P
 *
 * P: polynomial of as many degrees, four at most, as half the points determine. Meets every point; P exactly. The error at a point left out is w_i / (A^-1)_ii: no second solution is needed.
 * Source: radial basis functions with a polynomial tail, Duchon 1977; leaving out, Rippa 1999 (both from memory, to be confirmed).
 */

import { inverse, Matrix, SVD } from "ml-matrix";
import { cube, pow } from "./power.ts";
import { symmetricEigen } from "./symmetricEigen.ts";

/** Plain data, so that it travels to workers. */
export interface Scattered {
  /** From a place to its coordinates, 0 in the middle: (place - middle) . direction; every direction's range is -1 to 1. */
  readonly middle: readonly number[];
  readonly directions: readonly (readonly number[])[];
  readonly points: readonly Float64Array[];
  /** Powers of the coordinates in each term of P. */
  readonly terms: readonly (readonly number[])[];
  /** One list of weights a function: of the points, then of the terms. */
  readonly weights: readonly Float64Array[];
  /** Root mean square of the error at points left out, a function each. */
  readonly errors: readonly number[];
}

/**
 * Interpolates functions given at points: `values[k]` is function k at every point. Directions in which the places do not differ
 * are left out, and of places that coincide all but the first. null: too few are left to tell an error.
 */
export function scattered(
  places: readonly (readonly number[])[],
  values: readonly (readonly number[])[],
): Scattered | null {
  const { middle, directions } = directionsOf(places);
  const all = places.map((place) => coordinates({ middle, directions }, place));
  const kept = all.flatMap((point, i) => (all.slice(0, i).some((other) => distance(point, other) < 1e-5) ? [] : [i]));
  const points = kept.map((i) => all[i]!);
  const lists = values.map((list) => kept.map((i) => list[i]!));
  const n = points.length;
  // Nothing varies: every function is a constant.
  if (directions.length === 0) {
    const weights = lists.map(([first = 0]) => Float64Array.of(0, first));
    return { middle, directions, points, terms: [[]], weights, errors: lists.map(() => 0) };
  }
  const found = solverFor(points, directions.length);
  if (found === null) return null;
  const { solver, terms } = found;
  const size = n + terms.length;
  const weights = lists.map((list) =>
    Float64Array.from({ length: size }, (_, i) => list.reduce((sum, value, k) => sum + solver.get(i, k) * value, 0)),
  );
  const errors = weights.map((of) => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += (of[i]! / solver.get(i, i)) ** 2;
    return Math.sqrt(sum / n);
  });
  return { middle, directions, points, terms, weights, errors };
}

/** The inverse for as high a degree as the points determine: a value that is one of three carries no cube. */
function solverFor(points: readonly Float64Array[], axes: number) {
  const n = points.length;
  for (let degree = highestDegree; degree >= 1; degree--) {
    const terms = termsFor(axes, degree);
    if (terms.length > n / 2) continue;
    const size = n + terms.length;
    const matrix = Matrix.zeros(size, size);
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < i; k++) {
        const cubed = cube(distance(points[i]!, points[k]!));
        matrix.set(i, k, cubed);
        matrix.set(k, i, cubed);
      }
      valuesOf(terms, points[i]!).forEach((value, k) => {
        matrix.set(i, n + k, value);
        matrix.set(n + k, i, value);
      });
    }
    const solver = inverseOf(matrix);
    if (solver !== null) return { solver, terms };
  }
  return null;
}

/** Value of each function at a place. */
export function between(map: Scattered, place: readonly number[]): number[] {
  const { points, terms, weights } = map;
  const at = coordinates(map, place);
  const n = points.length;
  const cubes = points.map((point) => cube(distance(point, at)));
  const polynomial = valuesOf(terms, at);
  return weights.map((of) => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += of[i]! * cubes[i]!;
    for (let k = 0; k < polynomial.length; k++) sum += of[n + k]! * polynomial[k]!;
    return sum;
  });
}

const highestDegree = 4;

/** Powers of all terms up to a degree. */
function termsFor(axes: number, degree: number): readonly (readonly number[])[] {
  let terms: readonly (readonly number[])[] = [new Array<number>(axes).fill(0)];
  let newest = terms;
  for (let step = 1; step <= degree; step++) {
    // One more power, of the last coordinate that has one or of a later one: each term once.
    newest = newest.flatMap((powers) => {
      const from = Math.max(
        0,
        powers.findLastIndex((power) => power > 0),
      );
      return powers.flatMap((_, k) => (k < from ? [] : [powers.map((power, m) => power + (m === k ? 1 : 0))]));
    });
    terms = [...terms, ...newest];
  }
  return terms;
}

const valuesOf = (terms: Scattered["terms"], at: Float64Array): number[] =>
  terms.map((powers) => powers.reduce((product, power, k) => product * pow(at[k]!, power), 1));

/** The smallest extent of the places along a direction that counts, of the largest. */
const flat = 1e-6;

/** Principal directions of the places, each coordinate over its own range first. */
function directionsOf(places: readonly (readonly number[])[]): Pick<Scattered, "middle" | "directions"> {
  const [first = []] = places;
  const ranges = first.map((_, k) => {
    const list = places.map((place) => place[k]!);
    const [low, high] = [Math.min(...list), Math.max(...list)];
    const half = (high - low) / 2;
    return { middle: (low + high) / 2, half: half > 1e-9 * Math.max(Math.abs(low), Math.abs(high)) ? half : 0 };
  });
  const middle = ranges.map((range) => range.middle);
  const size = ranges.length;
  const over = places.map((place) =>
    ranges.map((range, k) => (range.half > 0 ? (place[k]! - range.middle) / range.half : 0)),
  );
  const moments = new Float64Array(size * size);
  for (const one of over) {
    for (let i = 0; i < size; i++) for (let k = 0; k < size; k++) moments[i * size + k]! += one[i]! * one[k]!;
  }
  const { vectors } = symmetricEigen(moments, size);
  const found = Array.from({ length: size }, (_, i) => {
    const row = vectors.subarray(i * size, (i + 1) * size);
    const extent = Math.max(...over.map((one) => Math.abs(one.reduce((sum, value, k) => sum + value * row[k]!, 0))));
    return { row, extent };
  });
  const longest = Math.max(...found.map(({ extent }) => extent));
  const directions = found
    .filter(({ extent }) => extent > flat * longest)
    .map(({ row, extent }) => ranges.map(({ half }, k) => (half > 0 ? row[k]! / half / extent : 0)));
  return { middle, directions };
}

const coordinates = ({ middle, directions }: Pick<Scattered, "middle" | "directions">, place: readonly number[]) =>
  Float64Array.from(directions, (direction) =>
    direction.reduce((sum, by, k) => (by === 0 ? sum : sum + by * (place[k]! - middle[k]!)), 0),
  );

function distance(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k]! - b[k]!) ** 2;
  return Math.sqrt(sum);
}

/** null where the points don't tell all terms apart. */
function inverseOf(matrix: Matrix): Matrix | null {
  if (!(new SVD(matrix, { computeLeftSingularVectors: false, computeRightSingularVectors: false }).condition < 1e13))
    return null;
  return inverse(matrix);
}
