/**
 * Points that fill a cube evenly: Sobol's sequence, scrambled by a seed. Point i is computed from i alone, so that a run can be
 * cut into pieces and put together equal to the bit.
 *
 * Source: [joe-kuo-2008] direction numbers (first rows from memory, to be confirmed: any odd number below 2^k gives points that
 * are even in each coordinate, which a test counts); [burley-2020] scrambling by hashing reversed bits.
 */
import { pow } from "./power.ts";

/** Degree, inner coefficients and first direction numbers of each coordinate after the first. */
const rows: readonly (readonly [degree: number, inner: number, first: readonly number[]])[] = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]],
  [5, 2, [1, 1, 5, 5, 17]],
  [5, 4, [1, 1, 5, 5, 5]],
  [5, 7, [1, 1, 7, 11, 19]],
  [5, 11, [1, 1, 5, 1, 1]],
  [5, 13, [1, 1, 1, 3, 11]],
  [5, 14, [1, 3, 5, 5, 31]],
  [6, 1, [1, 3, 3, 9, 7, 49]],
  [6, 13, [1, 1, 1, 15, 21, 21]],
  [6, 16, [1, 3, 1, 13, 27, 49]],
  [6, 19, [1, 1, 1, 15, 7, 5]],
  [6, 22, [1, 3, 1, 15, 13, 25]],
  [6, 25, [1, 1, 5, 5, 19, 61]],
  [7, 1, [1, 3, 7, 11, 23, 15, 103]],
  [7, 4, [1, 3, 7, 13, 13, 15, 69]],
];

export const mostDimensions = rows.length + 1;

const bits = 32;
const whole = pow(2, bits);

/** Direction numbers of one coordinate, the k-th as a fraction of 2^32. */
function directions(dimension: number): Uint32Array {
  const v = new Uint32Array(bits);
  const row = dimension === 0 ? null : rows[dimension - 1];
  if (row === undefined) throw new RangeError(`lowDiscrepancy: ${dimension + 1} dimensions; at most ${mostDimensions}`);
  if (row === null) {
    for (let k = 0; k < bits; k++) v[k] = pow(2, bits - 1 - k);
    return v;
  }
  const [degree, inner, first] = row;
  for (let k = 0; k < degree; k++) v[k] = (first[k] as number) * pow(2, bits - 1 - k);
  for (let k = degree; k < bits; k++) {
    const before = v[k - degree] as number;
    let next = before ^ (before >>> degree);
    for (let j = 1; j < degree; j++) if ((inner >>> (degree - 1 - j)) & 1) next ^= v[k - j] as number;
    v[k] = next;
  }
  return v;
}

function reversed(x: number): number {
  let y = x;
  y = ((y >>> 1) & 0x55555555) | ((y & 0x55555555) << 1);
  y = ((y >>> 2) & 0x33333333) | ((y & 0x33333333) << 2);
  y = ((y >>> 4) & 0x0f0f0f0f) | ((y & 0x0f0f0f0f) << 4);
  y = ((y >>> 8) & 0x00ff00ff) | ((y & 0x00ff00ff) << 8);
  return (y >>> 16) | (y << 16);
}

/** A bit of the result depends on the bits above it only: the points stay as even as they were. */
function scrambled(x: number, seed: number): number {
  let y = reversed(x);
  y = (y + seed) | 0;
  for (const factor of [0x6c50b47c, 0xb82f1e52, 0xc7afe638, 0x8d22f6e6]) y ^= Math.imul(y, factor);
  return reversed(y);
}

/** A 32-bit number from two, well mixed: the finalizer of MurmurHash3 (public domain). */
function mixed(seed: number, stream: number): number {
  let h = Math.imul(seed ^ Math.imul(stream + 1, 0x9e3779b9), 0x85ebca6b);
  h ^= h >>> 13;
  h = Math.imul(h, 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/**
 * The i-th point of a cube of so many dimensions: each coordinate above 0 and below 1. `i` from 0 to 2^32 - 1; the first 2^k
 * points are the most even sets. Throws for more than `mostDimensions`.
 */
export function lowDiscrepancy({
  dimensions,
  seed,
}: {
  readonly dimensions: number;
  readonly seed: number;
}): (index: number) => readonly number[] {
  const tables = Array.from({ length: dimensions }, (_, d) => directions(d));
  const seeds = tables.map((_, d) => mixed(seed, d));
  return (index) =>
    tables.map((v, d) => {
      let x = 0;
      for (let k = 0, rest = index; rest > 0; k++, rest = Math.floor(rest / 2)) if (rest % 2 === 1) x ^= v[k] as number;
      // Half a step in: never 0, never 1.
      return ((scrambled(x, seeds[d] as number) >>> 0) + 0.5) / whole;
    });
}
