/**
 * A symmetric matrix to tridiagonal form by reflections, and its eigenvalues by the QL iteration with implicit shifts.
 *
 * Source: Wilkinson and Reinsch, Handbook for Automatic Computation, Linear Algebra, II/2 and II/4, by way of EISPACK's tred2 and
 * tql2 (from memory, to be confirmed). Checked against another implementation in symmetricEigen.test.ts.
 */

import { type Room, separately } from "./room.ts";

/** Diagonal, and off it: `below[i]` stands left of `diagonal[i]`. */
export interface Tridiagonal {
  readonly diagonal: Float64Array;
  readonly below: Float64Array;
}

/**
 * Brings a symmetric matrix (row-major, overwritten; row j right of its diagonal is read) to tridiagonal form.
 * With `turned` the matrix ends as the reflections' product, one column of it a row.
 */
export function tridiagonal(matrix: Float64Array, n: number, turned: boolean, room: Room = separately): Tridiagonal {
  const d = room(n);
  const e = room(n);
  for (let j = 0; j < n; j++) d[j] = matrix[j * n + n - 1]!;
  for (let i = n - 1; i > 0; i--) reflect(matrix, n, i, d, e);
  if (turned) multiplyReflections(matrix, n, d);
  else for (let i = 0; i < n; i++) d[i] = matrix[i * n + i]!;
  e[0] = 0;
  return { diagonal: d, below: e };
}

/** One reflection: column i loses all but its neighbor. `d` holds that column and gets the next one. */
function reflect(matrix: Float64Array, n: number, i: number, d: Float64Array, e: Float64Array): void {
  let scale = 0;
  for (let k = 0; k < i; k++) scale += Math.abs(d[k]!);
  if (scale === 0) {
    e[i] = d[i - 1]!;
    for (let j = 0; j < i; j++) {
      d[j] = matrix[j * n + i - 1]!;
      matrix[j * n + i] = 0;
      matrix[i * n + j] = 0;
    }
    d[i] = 0;
    return;
  }
  let h = 0;
  for (let k = 0; k < i; k++) {
    d[k]! /= scale;
    h += d[k]! * d[k]!;
  }
  const f = d[i - 1]!;
  const g = f > 0 ? -Math.sqrt(h) : Math.sqrt(h);
  e[i] = scale * g;
  h -= f * g;
  d[i - 1] = f - g;
  for (let j = 0; j < i; j++) e[j] = 0;
  for (let j = 0; j < i; j++) {
    matrix[i * n + j] = d[j]!;
    e[j] = timesColumn(matrix, j * n, { from: j, to: i }, d, e);
  }
  let sum = 0;
  for (let j = 0; j < i; j++) {
    e[j]! /= h;
    sum += e[j]! * d[j]!;
  }
  const half = sum / (h + h);
  for (let j = 0; j < i; j++) e[j]! -= half * d[j]!;
  for (let j = 0; j < i; j++) {
    subtractPair(matrix, j * n, { from: j, to: i }, d, e);
    d[j] = matrix[j * n + i - 1]!;
    matrix[j * n + i] = 0;
  }
  d[i] = h;
}

interface Range {
  readonly from: number;
  readonly to: number;
}

/** Row j of the triangle times d; what the row says about later unknowns is added to e. */
function timesColumn(matrix: Float64Array, row: number, { from, to }: Range, d: Float64Array, e: Float64Array): number {
  const f = d[from]!;
  let g = e[from]! + matrix[row + from]! * f;
  for (let k = from + 1; k < to; k++) {
    const value = matrix[row + k]!;
    g += value * d[k]!;
    e[k]! += value * f;
  }
  return g;
}

/** Row j less d_j e + e_j d. */
function subtractPair(matrix: Float64Array, row: number, { from, to }: Range, d: Float64Array, e: Float64Array): void {
  const f = d[from]!;
  const g = e[from]!;
  for (let k = from; k < to; k++) matrix[row + k]! -= f * e[k]! + g * d[k]!;
}

/** Gathers the reflections that stand in the matrix; the diagonal goes to `d`. */
function multiplyReflections(matrix: Float64Array, n: number, d: Float64Array): void {
  for (let i = 0; i < n - 1; i++) {
    matrix[i * n + n - 1] = matrix[i * n + i]!;
    matrix[i * n + i] = 1;
    const h = d[i + 1]!;
    const next = (i + 1) * n;
    if (h !== 0) {
      for (let k = 0; k <= i; k++) d[k] = matrix[next + k]! / h;
      for (let j = 0; j <= i; j++) {
        let g = 0;
        for (let k = 0; k <= i; k++) g += matrix[next + k]! * matrix[j * n + k]!;
        for (let k = 0; k <= i; k++) matrix[j * n + k]! -= g * d[k]!;
      }
    }
    for (let k = 0; k <= i; k++) matrix[next + k] = 0;
  }
  for (let j = 0; j < n; j++) {
    d[j] = matrix[j * n + n - 1]!;
    matrix[j * n + n - 1] = 0;
  }
  matrix[n * n - 1] = 1;
}

/** Turns `diagonal` into the eigenvalues, in no order; `vectors` (n rows, as `tridiagonal` leaves them) are turned with it. */
export function diagonalize({ diagonal: d, below: e }: Tridiagonal, vectors: Float64Array | null): void {
  const n = d.length;
  for (let i = 1; i < n; i++) e[i - 1] = e[i]!;
  e[n - 1] = 0;
  let shift = 0;
  let largest = 0;
  for (let l = 0; l < n; l++) {
    largest = Math.max(largest, Math.abs(d[l]!) + Math.abs(e[l]!));
    const small = Number.EPSILON * largest;
    let m = l;
    while (Math.abs(e[m]!) > small) m++;
    if (m > l)
      do shift += sweep(d, e, { from: l, to: m }, vectors);
      while (Math.abs(e[l]!) > small);
    d[l]! += shift;
    e[l] = 0;
  }
}

/** One QL step on the block from..to; the shift taken off the diagonal. */
function sweep(d: Float64Array, e: Float64Array, { from: l, to: m }: Range, vectors: Float64Array | null): number {
  const n = d.length;
  const g = d[l]!;
  let p = (d[l + 1]! - g) / (2 * e[l]!);
  const r = p < 0 ? -hypotenuse(p, 1) : hypotenuse(p, 1);
  d[l] = e[l]! / (p + r);
  d[l + 1] = e[l]! * (p + r);
  const next = d[l + 1]!;
  const h = g - d[l]!;
  for (let i = l + 2; i < n; i++) d[i]! -= h;
  p = d[m]!;
  let [c, c2, c3, s, s2] = [1, 1, 1, 0, 0];
  const last = e[l + 1]!;
  for (let i = m - 1; i >= l; i--) {
    c3 = c2;
    c2 = c;
    s2 = s;
    const crossed = c * e[i]!;
    const along = c * p;
    const size = hypotenuse(p, e[i]!);
    e[i + 1] = s * size;
    s = e[i]! / size;
    c = p / size;
    p = c * d[i]! - s * crossed;
    d[i + 1] = along + s * (c * crossed + s * d[i]!);
    if (vectors) rotate(vectors, i * n, n, c, s);
  }
  p = (-s * s2 * c3 * last * e[l]!) / next;
  e[l] = s * p;
  d[l] = c * p;
  return h;
}

/** Turns the row at `row` and the one below it into each other. */
function rotate(vectors: Float64Array, row: number, n: number, c: number, s: number): void {
  for (let k = row; k < row + n; k++) {
    const one = vectors[k]!;
    const other = vectors[k + n]!;
    vectors[k + n] = s * one + c * other;
    vectors[k] = c * one - s * other;
  }
}

function hypotenuse(a: number, b: number): number {
  if (Math.abs(a) > Math.abs(b)) {
    const ratio = b / a;
    return Math.abs(a) * Math.sqrt(1 + ratio * ratio);
  }
  if (b === 0) return 0;
  const ratio = a / b;
  return Math.abs(b) * Math.sqrt(1 + ratio * ratio);
}
