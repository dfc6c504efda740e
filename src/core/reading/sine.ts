/** A sine of known frequency laid through samples by least squares, and how far that frequency is off. */
import { cos, sin } from "../numerics/sine.ts";

export interface SineFit {
  /** y = offset + cosine cos(omega (i - middle)) + sine sin(omega (i - middle)), i the sample, middle of the record. */
  readonly cosine: number;
  readonly sine: number;
  readonly offset: number;
  readonly sumOfSquares: number;
  /** What the frequency wants to change [rad per sample]; 0 where it is held. */
  readonly turn: number;
  /** Inverse of the normal matrix, row-major 4 x 4: cosine, sine, offset, frequency; the last row is zero where it is held. */
  readonly inverse: Float64Array;
}

/**
 * `omega`: radians per sample. `free`: the step of the frequency too. NaN is left out. The columns are nearly at right angles
 * (time counts from the middle), so that the normal equations lose nothing. null where they have no solution.
 */
export function sineAt(y: Float64Array, omega: number, free: boolean): SineFit | null {
  const first = solved(y, omega, null);
  if (first === null) return null;
  if (!free) return first;
  const both = solved(y, omega, first);
  // No tone there: nothing says where it would go.
  return both === null ? first : { ...first, turn: both.turn, inverse: both.inverse };
}

function solved(y: Float64Array, omega: number, around: SineFit | null): SineFit | null {
  const size = around === null ? 3 : 4;
  const middle = (y.length - 1) / 2;
  const half = Math.max(1, middle);
  const matrix = new Float64Array(16);
  const right = new Float64Array(4);
  const row = new Float64Array(4);
  row[2] = 1;
  let squares = 0;
  for (let i = 0; i < y.length; i++) {
    const value = y[i]!;
    if (Number.isNaN(value)) continue;
    const t = i - middle;
    const [c, s] = [cos(omega * t), sin(omega * t)];
    row[0] = c;
    row[1] = s;
    let rest = value;
    if (around !== null) {
      // The slope to the frequency, over half the record so that all columns are about one.
      row[3] = (t / half) * (around.sine * c - around.cosine * s);
      rest -= around.offset + around.cosine * c + around.sine * s;
    }
    for (let j = 0; j < size; j++) {
      right[j]! += row[j]! * rest;
      for (let k = 0; k <= j; k++) matrix[4 * j + k]! += row[j]! * row[k]!;
    }
    squares += rest * rest;
  }
  for (let j = 0; j < size; j++) for (let k = j + 1; k < size; k++) matrix[4 * j + k] = matrix[4 * k + j]!;
  const inverse = invertedOf(matrix, size);
  if (inverse === null) return null;
  const values = Float64Array.from({ length: 4 }, (_, j) =>
    j < size ? right.reduce((sum, value, k) => sum + (k < size ? inverse[4 * j + k]! * value : 0), 0) : 0,
  );
  if (around !== null) {
    for (let j = 0; j < 4; j++) {
      inverse[4 * j + 3]! /= half;
      inverse[12 + j]! /= half;
    }
    return { ...around, turn: values[3]! / half, inverse };
  }
  const [cosine = 0, sine = 0, offset = 0] = values;
  let sumOfSquares = 0;
  for (let i = 0; i < y.length; i++) {
    if (Number.isNaN(y[i]!)) continue;
    const t = i - middle;
    sumOfSquares += (y[i]! - offset - cosine * cos(omega * t) - sine * sin(omega * t)) ** 2;
  }
  return squares >= 0 ? { cosine, sine, offset, sumOfSquares, turn: 0, inverse } : null;
}

/** By elimination with the largest pivot; null where there is none. */
function invertedOf(matrix: Float64Array, size: number): Float64Array | null {
  const a = Float64Array.from(matrix);
  const out = new Float64Array(16);
  for (let j = 0; j < size; j++) out[5 * j] = 1;
  for (let j = 0; j < size; j++) {
    let pivot = j;
    for (let k = j + 1; k < size; k++) if (Math.abs(a[4 * k + j]!) > Math.abs(a[4 * pivot + j]!)) pivot = k;
    const by = a[4 * pivot + j]!;
    if (!(Math.abs(by) > 1e-12 * Math.abs(matrix[0]! + matrix[10]!))) return null;
    for (let k = 0; k < size; k++) {
      for (const list of [a, out]) {
        const kept = list[4 * j + k]!;
        list[4 * j + k] = list[4 * pivot + k]! / by;
        if (pivot !== j) list[4 * pivot + k] = kept;
      }
    }
    for (let row = 0; row < size; row++) {
      if (row === j) continue;
      const share = a[4 * row + j]!;
      for (let k = 0; k < size; k++) {
        a[4 * row + k]! -= share * a[4 * j + k]!;
        out[4 * row + k]! -= share * out[4 * j + k]!;
      }
    }
  }
  return out;
}
