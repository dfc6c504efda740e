/** Variance-based indices: which share of a result's variance comes from which number, alone and with all its interplay. */
import { lowDiscrepancy } from "./sobolSequence.ts";

export interface Share {
  readonly value: number;
  /** Standard error, from independently scrambled parts of the sample. */
  readonly standard: number;
}

export interface VarianceIndex {
  /** Share of the variance that goes when this number alone is known [-]. */
  readonly first: Share;
  /** Share of the variance that stays when all others are known [-]. */
  readonly total: Share;
}

/** What two sets of points and their mixtures gave: `a`, `b` [count]; `mixed[i]`: the points of a with number i of b. */
export interface MixedValues {
  readonly a: ArrayLike<number>;
  readonly b: ArrayLike<number>;
  readonly mixed: readonly ArrayLike<number>[];
}

/**
 * The two numbers of one index from values at mixed points.
 *
 *     first = mean(b (mixed - a)) / V     total = mean((a - mixed)^2) / (2 V)     V the variance of a and b together
 *
 * Source: [saltelli-2010] table 2 (b), (f); [jansen-1999]. Values are taken about their mean, which lessens the scatter.
 */
export function indexOf({ a, b, mixed }: MixedValues, i: number): { first: number; total: number } {
  const of = mixed[i] as ArrayLike<number>;
  const count = a.length;
  let sum = 0;
  for (let k = 0; k < count; k++) sum += (a[k] as number) + (b[k] as number);
  const mean = sum / (2 * count);
  let [variance, first, total] = [0, 0, 0];
  for (let k = 0; k < count; k++) {
    const [x, y, z] = [(a[k] as number) - mean, (b[k] as number) - mean, (of[k] as number) - mean];
    variance += x * x + y * y;
    first += y * (z - x);
    total += (x - z) ** 2;
  }
  variance /= 2 * count;
  if (!(variance > 0)) return { first: 0, total: 0 };
  return { first: first / count / variance, total: total / count / (2 * variance) };
}

/** Independent parts that the standard error comes from. */
export const replicates = 8;

/** Points of part `r`: those of a, of b, and of a with number i of b. Each on the unit cube. */
export function mixedPoints({
  dimensions,
  seed,
  replicate,
}: {
  readonly dimensions: number;
  readonly seed: number;
  readonly replicate: number;
}): (index: number) => {
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly mixed: readonly (readonly number[])[];
} {
  const points = lowDiscrepancy({ dimensions: 2 * dimensions, seed: seed + 7919 * (replicate + 1) });
  return (index) => {
    const both = points(index);
    const [a, b] = [both.slice(0, dimensions), both.slice(dimensions)];
    return { a, b, mixed: a.map((_, i) => a.map((value, j) => (j === i ? (b[j] as number) : value))) };
  };
}

/** Mean and standard error over the parts. */
export function overParts(values: readonly number[]): Share {
  const value = values.reduce((sum, one) => sum + one, 0) / values.length;
  const scatter = values.reduce((sum, one) => sum + (one - value) ** 2, 0) / Math.max(1, values.length - 1);
  return { value, standard: Math.sqrt(scatter / values.length) };
}

/** Indices of a function on the unit cube, `count` points a set in all; it is called count (dimensions + 2) times. */
export function varianceIndices(
  f: (u: readonly number[]) => number,
  { dimensions, count, seed }: { readonly dimensions: number; readonly count: number; readonly seed: number },
): readonly VarianceIndex[] {
  const each = Math.ceil(count / replicates);
  const parts = Array.from({ length: replicates }, (_, replicate) => {
    const points = mixedPoints({ dimensions, seed, replicate });
    const values = {
      a: new Float64Array(each),
      b: new Float64Array(each),
      mixed: Array.from({ length: dimensions }, () => new Float64Array(each)),
    };
    for (let k = 0; k < each; k++) {
      const { a, b, mixed } = points(k);
      values.a[k] = f(a);
      values.b[k] = f(b);
      mixed.forEach((point, i) => {
        (values.mixed[i] as Float64Array)[k] = f(point);
      });
    }
    return Array.from({ length: dimensions }, (_, i) => indexOf(values, i));
  });
  return Array.from({ length: dimensions }, (_, i) => ({
    first: overParts(parts.map((part) => part[i]?.first ?? 0)),
    total: overParts(parts.map((part) => part[i]?.total ?? 0)),
  }));
}
