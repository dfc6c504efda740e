/**
 * A rational function through samples on the real axis, in barycentric form:
 *
 *     r(z) = sum w_j f_j / (z - x_j) / sum w_j / (z - x_j)
 *
 * Every other sample is a support; the weights are the null vector of the Loewner matrix (f_i - f_j) / (x_i - x_j) of the
 * rest, so that all samples are met. Where that matrix has a lower rank the function needs fewer supports, and takes fewer.
 * Source: Antoulas and Anderson 1986; Nakatsukasa, Sete and Trefethen 2018 (from memory, to be confirmed).
 */
import type { Complex } from "./complex.ts";

/** Samples of a complex function of a real variable, `x` ascending. */
export interface Samples {
  readonly x: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export interface Rational {
  readonly x: Float64Array;
  /** Values and weights at the supports. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly weightRe: Float64Array;
  readonly weightIm: Float64Array;
  /** What a value takes, in the order in which it takes it: x, w and w f of each support, real and imaginary parts by turns. */
  readonly terms: Float64Array;
}

/** Pivots smaller than this share of the largest are taken for noise. */
const rankTolerance = 1e-13;

/** Numbers that `rationalInterpolant` works in for so many samples. */
const roomNeeded = (samples: number) => 2 * ((samples + 1) >> 1) * ((samples >> 1) + 1);

/**
 * Room for interpolants of up to so many samples, for who makes many: V8 takes longer to make an array beyond 64 bytes, and to
 * collect it, than to work in it.
 */
export const interpolantRoom = (samples: number): Float64Array => new Float64Array(roomNeeded(samples));

/** Rational interpolant of an odd number of samples (the last one is left out of an even number's tests). */
export function rationalInterpolant(samples: Samples, room?: Float64Array): Rational {
  const { x, re, im } = samples;
  const enough = room !== undefined && room.length >= roomNeeded(x.length);
  const { used, vector } = loewnerNullVector(samples, enough ? room : interpolantRoom(x.length));
  const count = used.length;
  // One array and views of it: see `interpolantRoom`.
  const all = new Float64Array(10 * count);
  const terms = all.subarray(5 * count);
  for (let i = 0; i < count; i++) {
    const at = 2 * used[i]!;
    const wRe = vector[at]!;
    const wIm = vector[at + 1]!;
    all[i] = x[at]!;
    all[count + i] = re[at]!;
    all[2 * count + i] = im[at]!;
    all[3 * count + i] = wRe;
    all[4 * count + i] = wIm;
    terms[5 * i] = x[at]!;
    terms[5 * i + 1] = wRe;
    terms[5 * i + 2] = wIm;
    terms[5 * i + 3] = wRe * re[at]! - wIm * im[at]!;
    terms[5 * i + 4] = wRe * im[at]! + wIm * re[at]!;
  }
  return {
    x: all.subarray(0, count),
    re: all.subarray(count, 2 * count),
    im: all.subarray(2 * count, 3 * count),
    weightRe: all.subarray(3 * count, 4 * count),
    weightIm: all.subarray(4 * count, 5 * count),
    terms,
  };
}

/**
 * Null vector by elimination with complete pivoting: the pivot columns and one free column, the smallest set that does. `used`: those
 * columns, ascending, of the supports 0, 2, 4, ... of the samples; `vector`: real and imaginary parts by turns, in the room.
 */
function loewnerNullVector(samples: Samples, room: Float64Array) {
  const width = (samples.x.length + 1) >> 1;
  const rows = samples.x.length >> 1;
  const matrix = room;
  fillLoewner(matrix, samples, rows, width);
  const order = new Int32Array(width);
  for (let j = 0; j < width; j++) order[j] = j;
  let rank = 0;
  let next = largestFrom(matrix, 0, rows, width);
  const least = rankTolerance * next.size;
  for (; rank < rows && next.size > least; rank++) {
    bringUp(matrix, { rows, width }, rank, next);
    const kept = order[rank]!;
    order[rank] = order[next.column]!;
    order[next.column] = kept;
    eliminateBelow(matrix, rank, rows, width);
    next = largestFrom(matrix, rank + 1, rows, width);
  }
  // In the order of the samples: by column, and not by pivot.
  const vector = room.subarray(2 * rows * width, 2 * (rows + 1) * width);
  vector[2 * order[rank]!] = 1;
  vector[2 * order[rank]! + 1] = 0;
  for (let i = rank - 1; i >= 0; i--) {
    const at = 2 * i * width;
    let re = 0;
    let im = 0;
    for (let j = i + 1; j <= rank; j++) {
      const uRe = matrix[at + 2 * j]!;
      const uIm = matrix[at + 2 * j + 1]!;
      const vRe = vector[2 * order[j]!]!;
      const vIm = vector[2 * order[j]! + 1]!;
      re -= uRe * vRe - uIm * vIm;
      im -= uRe * vIm + uIm * vRe;
    }
    const pRe = matrix[at + 2 * i]!;
    const pIm = matrix[at + 2 * i + 1]!;
    const squared = pRe * pRe + pIm * pIm;
    vector[2 * order[i]!] = (re * pRe + im * pIm) / squared;
    vector[2 * order[i]! + 1] = (im * pRe - re * pIm) / squared;
  }
  return { used: order.subarray(0, rank + 1).sort(), vector };
}

/** A row for each test, a column for each support; row-major, real and imaginary parts by turns. */
function fillLoewner(matrix: Float64Array, { x, re, im }: Samples, rows: number, width: number): void {
  for (let i = 0, at = 0; i < rows; i++) {
    const t = 2 * i + 1;
    for (let s = 0; s < 2 * width; s += 2, at += 2) {
      const step = 1 / (x[t]! - x[s]!);
      matrix[at] = (re[t]! - re[s]!) * step;
      matrix[at + 1] = (im[t]! - im[s]!) * step;
    }
  }
}

interface Entry {
  readonly row: number;
  readonly column: number;
  /** |re| + |im| */
  readonly size: number;
}

/** Largest entry at or beyond row and column k. */
function largestFrom(matrix: Float64Array, k: number, rows: number, width: number): Entry {
  let row = k;
  let column = k;
  let size = -1;
  for (let i = k; i < rows; i++) {
    for (let j = k, at = 2 * (i * width + k); j < width; j++, at += 2) {
      const value = Math.abs(matrix[at]!) + Math.abs(matrix[at + 1]!);
      if (value > size) {
        row = i;
        column = j;
        size = value;
      }
    }
  }
  return { row, column, size };
}

/** Changes row and column k with those of an entry beyond. */
function bringUp(
  matrix: Float64Array,
  { rows, width }: { readonly rows: number; readonly width: number },
  k: number,
  { row, column }: Entry,
): void {
  if (row !== k) for (let j = 2 * k; j < 2 * width; j++) change(matrix, 2 * k * width + j, 2 * row * width + j);
  if (column === k) return;
  for (let at = 0; at < 2 * rows * width; at += 2 * width) {
    change(matrix, at + 2 * k, at + 2 * column);
    change(matrix, at + 2 * k + 1, at + 2 * column + 1);
  }
}

function change(matrix: Float64Array, a: number, b: number): void {
  const kept = matrix[a]!;
  matrix[a] = matrix[b]!;
  matrix[b] = kept;
}

/** Takes row k out of those below it, beyond column k. */
function eliminateBelow(matrix: Float64Array, k: number, rows: number, width: number): void {
  const own = 2 * k * width;
  const pRe = matrix[own + 2 * k]!;
  const pIm = matrix[own + 2 * k + 1]!;
  const inverse = 1 / (pRe * pRe + pIm * pIm);
  for (let i = k + 1; i < rows; i++) {
    const at = 2 * i * width;
    const vRe = matrix[at + 2 * k]!;
    const vIm = matrix[at + 2 * k + 1]!;
    const fRe = (vRe * pRe + vIm * pIm) * inverse;
    const fIm = (vIm * pRe - vRe * pIm) * inverse;
    for (let j = 2 * k + 2; j < 2 * width; j += 2) {
      const uRe = matrix[own + j]!;
      const uIm = matrix[own + j + 1]!;
      matrix[at + j] = matrix[at + j]! - (fRe * uRe - fIm * uIm);
      matrix[at + j + 1] = matrix[at + j + 1]! - (fRe * uIm + fIm * uRe);
    }
  }
}

/** Values at real points; at a support its sample. */
export function evaluateRational(rational: Rational, points: Float64Array): { re: Float64Array; im: Float64Array } {
  const values = { re: new Float64Array(points.length), im: new Float64Array(points.length) };
  const value = new Float64Array(2);
  for (let p = 0; p < points.length; p++) {
    valueInto(value, rational, points[p]!);
    values.re[p] = value[0]!;
    values.im[p] = value[1]!;
  }
  return values;
}

/** Real and imaginary part at a real point, in an array of two: hundreds of these a device, so one row of numbers and no garbage. */
export function valueInto(value: Float64Array, rational: Rational, z: number): void {
  const { terms } = rational;
  let nRe = 0;
  let nIm = 0;
  let dRe = 0;
  let dIm = 0;
  for (let j = 0; j < terms.length; j += 5) {
    const inverse = 1 / (z - terms[j]!);
    dRe += terms[j + 1]! * inverse;
    dIm += terms[j + 2]! * inverse;
    nRe += terms[j + 3]! * inverse;
    nIm += terms[j + 4]! * inverse;
  }
  const inverse = 1 / (dRe * dRe + dIm * dIm);
  const support = inverse > 0 ? -1 : rational.x.indexOf(z);
  value[0] = support < 0 ? (nRe * dRe + nIm * dIm) * inverse : rational.re[support]!;
  value[1] = support < 0 ? (nIm * dRe - nRe * dIm) * inverse : rational.im[support]!;
}

/**
 * Poles of the interpolant: zeros of sum w_j / (z - x_j), all at once by the Ehrlich-Aberth iteration
 *
 *     z_i <- z_i - N_i / (1 - N_i sum_(k != i) 1 / (z_i - z_k)),   1 / N = D' / D + sum 1 / (z - x_j)
 *
 * Source: Aberth 1973 (from memory, to be confirmed). They are starting points: polish them on the function itself.
 */
export function rationalPoles({ x, weightRe, weightIm }: Rational): readonly Complex[] {
  const count = x.length - 1;
  if (count < 1) return [];
  const zRe = new Float64Array(count);
  const zIm = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const gap = x[i + 1]! - x[i]!;
    zRe[i] = x[i]! + gap * 0.45;
    zIm[i] = gap * (0.3 + 0.1 * (i % 3));
  }
  const settled = new Uint8Array(count);
  for (let round = 0, left = count; round < 60 && left > 0; round++) {
    for (let i = 0; i < count; i++) {
      if (settled[i]) continue;
      const [re, im] = [zRe[i]!, zIm[i]!];
      // value = D, slope = D', inverse = sum 1 / (z - x_j); plain numbers, because this is the innermost loop.
      let [valueRe, valueIm, slopeRe, slopeIm, inverseRe, inverseIm] = [0, 0, 0, 0, 0, 0];
      for (let j = 0; j < x.length; j++) {
        const stepRe = re - x[j]!;
        const perSquare = 1 / (stepRe * stepRe + im * im);
        const oneRe = stepRe * perSquare;
        const oneIm = -im * perSquare;
        const termRe = weightRe[j]! * oneRe - weightIm[j]! * oneIm;
        const termIm = weightRe[j]! * oneIm + weightIm[j]! * oneRe;
        valueRe += termRe;
        valueIm += termIm;
        slopeRe -= termRe * oneRe - termIm * oneIm;
        slopeIm -= termRe * oneIm + termIm * oneRe;
        inverseRe += oneRe;
        inverseIm += oneIm;
      }
      for (let k = 0; k < count; k++) {
        if (k === i) continue;
        const stepRe = re - zRe[k]!;
        const stepIm = im - zIm[k]!;
        const perSquare = 1 / (stepRe * stepRe + stepIm * stepIm);
        inverseRe -= stepRe * perSquare;
        inverseIm += stepIm * perSquare;
      }
      // step = 1 / (D' / D + inverse)
      const size = valueRe * valueRe + valueIm * valueIm;
      const sumRe = (slopeRe * valueRe + slopeIm * valueIm) / size + inverseRe;
      const sumIm = (slopeIm * valueRe - slopeRe * valueIm) / size + inverseIm;
      const length = sumRe * sumRe + sumIm * sumIm;
      const moveRe = sumRe / length;
      const moveIm = -sumIm / length;
      if (!Number.isFinite(moveRe) || !Number.isFinite(moveIm)) continue;
      zRe[i] = re - moveRe;
      zIm[i] = im - moveIm;
      // The next step would be as the cube of this one.
      if (moveRe * moveRe + moveIm * moveIm > lastStep * lastStep * (re * re + im * im)) continue;
      settled[i] = 1;
      left--;
    }
  }
  return Array.from(zRe, (re, i) => ({ re, im: zIm[i]! }));
}

/** Share of its size that a pole moves in its last step: starting points only, what follows polishes them. */
const lastStep = 1e-4;
