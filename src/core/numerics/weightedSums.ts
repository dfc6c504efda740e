/**
 * Sums of real numbers with weights that change while the numbers stay: sum_j a_ej w_j for many e, the weights complex or real.
 *
 * Four sums side by side, so that each weight is read once for four.
 */
import { type ComplexVector, complexVector } from "./complexSymmetric.ts";
import { type Room, separately } from "./room.ts";

export interface SumTable {
  /** Sums, and numbers of each. */
  readonly count: number;
  readonly width: number;
  /** The sums in fours, of each four the first numbers, then the second ones; what fills up the last four is 0. */
  readonly fours: Float64Array;
}

const filledUp = (count: number): number => 4 * Math.ceil(count / 4);

export const sumTable = (count: number, width: number, room: Room = separately): SumTable => ({
  count,
  width,
  fours: room(filledUp(count) * width),
});

/** Room for so many sums, which a whole number of fours fills. */
export const roomForSums = (count: number, room: Room = separately): ComplexVector =>
  complexVector(filledUp(count), room);

/** a_ij b_kj, summed over j with weights: every row of one list with every row of the other, i before k. */
export function fillProducts(table: SumTable, a: Float64Array, b: Float64Array): void {
  const { width } = table;
  let sum = 0;
  for (let i = 0; i < a.length; i += width) for (let k = 0; k < b.length; k += width) place(table, sum++, a, i, b, k);
}

/** The same of a list with itself, k <= i: what a symmetric matrix has below its diagonal, row by row. */
export function fillOwnProducts(table: SumTable, a: Float64Array): void {
  const { width } = table;
  let sum = 0;
  for (let i = 0; i < a.length; i += width) for (let k = 0; k <= i; k += width) place(table, sum++, a, i, a, k);
}

/** Products of the rows of a and b that begin at i and k. */
function place({ width, fours }: SumTable, sum: number, a: Float64Array, i: number, b: Float64Array, k: number): void {
  let to = (sum >> 2) * 4 * width + (sum & 3);
  for (let j = 0; j < width; j++, to += 4) fours[to] = a[i + j]! * b[k + j]!;
}

/** All sums of a table with complex weights. */
export function weightedSums({ width, fours }: SumTable, weights: ComplexVector, out: ComplexVector): void {
  const { re, im } = weights;
  const { re: outRe, im: outIm } = out;
  for (let at = 0, to = 0; at < fours.length; to += 4) {
    let aRe = 0;
    let aIm = 0;
    let bRe = 0;
    let bIm = 0;
    let cRe = 0;
    let cIm = 0;
    let dRe = 0;
    let dIm = 0;
    for (let j = 0; j < width; j++, at += 4) {
      const byRe = re[j]!;
      const byIm = im[j]!;
      const a = fours[at]!;
      const b = fours[at + 1]!;
      const c = fours[at + 2]!;
      const d = fours[at + 3]!;
      aRe += a * byRe;
      aIm += a * byIm;
      bRe += b * byRe;
      bIm += b * byIm;
      cRe += c * byRe;
      cIm += c * byIm;
      dRe += d * byRe;
      dIm += d * byIm;
    }
    outRe[to] = aRe;
    outIm[to] = aIm;
    outRe[to + 1] = bRe;
    outIm[to + 1] = bIm;
    outRe[to + 2] = cRe;
    outIm[to + 2] = cIm;
    outRe[to + 3] = dRe;
    outIm[to + 3] = dIm;
  }
}

/** The same with real weights. */
export function realWeightedSums({ width, fours }: SumTable, weights: Float64Array, out: Float64Array): void {
  for (let at = 0, to = 0; at < fours.length; to += 4) {
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    for (let j = 0; j < width; j++, at += 4) {
      const by = weights[j]!;
      a += fours[at]! * by;
      b += fours[at + 1]! * by;
      c += fours[at + 2]! * by;
      d += fours[at + 3]! * by;
    }
    out[to] = a;
    out[to + 1] = b;
    out[to + 2] = c;
    out[to + 3] = d;
  }
}
