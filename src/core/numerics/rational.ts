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
}

/** Pivots smaller than this share of the largest are taken for noise. */
const rankTolerance = 1e-13;

/** Rational interpolant of an odd number of samples (the last one is left out of an even number's tests). */
export function rationalInterpolant({ x, re, im }: Samples): Rational {
  const { used, weightRe, weightIm } = loewnerNullVector({ x, re, im });
  const count = used.length;
  const rational = {
    x: new Float64Array(count),
    re: new Float64Array(count),
    im: new Float64Array(count),
    weightRe,
    weightIm,
  };
  for (let i = 0; i < count; i++) {
    const at = 2 * used[i]!;
    rational.x[i] = x[at]!;
    rational.re[i] = re[at]!;
    rational.im[i] = im[at]!;
  }
  return rational;
}

/**
 * Null vector by elimination with complete pivoting: the pivot columns and one free column, the smallest set that does. `used`: those
 * columns, ascending, of the supports 0, 2, 4, ... of the samples.
 */
function loewnerNullVector(samples: Samples) {
  const width = (samples.x.length + 1) >> 1;
  const rows = samples.x.length >> 1;
  const matrix = loewnerMatrix(samples, rows, width);
  const order = new Int32Array(width);
  for (let j = 0; j < width; j++) order[j] = j;
  let rank = 0;
  let next = largestEntry(matrix, rows, width);
  const least = rankTolerance * next.size;
  for (; rank < rows && next.size > least; rank++) {
    swapRows(matrix, width, rank, next.row);
    swapColumns(matrix, width, rank, next.column);
    const kept = order[rank]!;
    order[rank] = order[next.column]!;
    order[next.column] = kept;
    next = eliminateBelow(matrix, rank, rows, width);
  }
  const vectorRe = new Float64Array(width);
  const vectorIm = new Float64Array(width);
  // In the order of the samples: by column, and not by pivot.
  vectorRe[order[rank]!] = 1;
  for (let i = rank - 1; i >= 0; i--) {
    const at = 2 * i * width;
    let re = 0;
    let im = 0;
    for (let j = i + 1; j <= rank; j++) {
      const [vRe, vIm] = [vectorRe[order[j]!]!, vectorIm[order[j]!]!];
      re -= matrix[at + 2 * j]! * vRe - matrix[at + 2 * j + 1]! * vIm;
      im -= matrix[at + 2 * j]! * vIm + matrix[at + 2 * j + 1]! * vRe;
    }
    const [pRe, pIm] = [matrix[at + 2 * i]!, matrix[at + 2 * i + 1]!];
    const squared = pRe * pRe + pIm * pIm;
    vectorRe[order[i]!] = (re * pRe + im * pIm) / squared;
    vectorIm[order[i]!] = (im * pRe - re * pIm) / squared;
  }
  const used = order.subarray(0, rank + 1).sort();
  const [weightRe, weightIm] = [new Float64Array(rank + 1), new Float64Array(rank + 1)];
  for (let i = 0; i <= rank; i++) {
    weightRe[i] = vectorRe[used[i]!]!;
    weightIm[i] = vectorIm[used[i]!]!;
  }
  return { used, weightRe, weightIm };
}

/** A row for each test, a column for each support; row-major, real and imaginary parts by turns. */
function loewnerMatrix({ x, re, im }: Samples, rows: number, width: number): Float64Array {
  const matrix = new Float64Array(2 * rows * width);
  for (let i = 0, at = 0; i < rows; i++) {
    const t = 2 * i + 1;
    for (let s = 0; s < 2 * width; s += 2, at += 2) {
      const step = 1 / (x[t]! - x[s]!);
      matrix[at] = (re[t]! - re[s]!) * step;
      matrix[at + 1] = (im[t]! - im[s]!) * step;
    }
  }
  return matrix;
}

interface Entry {
  readonly row: number;
  readonly column: number;
  /** |re| + |im| */
  readonly size: number;
}

function largestEntry(matrix: Float64Array, rows: number, width: number): Entry {
  let [row, column, size] = [0, 0, -1];
  for (let i = 0, at = 0; i < rows; i++) {
    for (let j = 0; j < width; j++, at += 2) {
      const value = Math.abs(matrix[at]!) + Math.abs(matrix[at + 1]!);
      if (value > size) [row, column, size] = [i, j, value];
    }
  }
  return { row, column, size };
}

function swapRows(matrix: Float64Array, width: number, a: number, b: number): void {
  if (a === b) return;
  for (let j = 0; j < 2 * width; j++) {
    const kept = matrix[2 * a * width + j]!;
    matrix[2 * a * width + j] = matrix[2 * b * width + j]!;
    matrix[2 * b * width + j] = kept;
  }
}

function swapColumns(matrix: Float64Array, width: number, a: number, b: number): void {
  if (a === b) return;
  for (let row = 0; row < matrix.length; row += 2 * width) {
    for (const part of [0, 1]) {
      const kept = matrix[row + 2 * a + part]!;
      matrix[row + 2 * a + part] = matrix[row + 2 * b + part]!;
      matrix[row + 2 * b + part] = kept;
    }
  }
}

/** Takes row k out of those below it, and gives the largest entry that is left. */
function eliminateBelow(matrix: Float64Array, k: number, rows: number, width: number): Entry {
  const own = 2 * k * width;
  const pRe = matrix[own + 2 * k]!;
  const pIm = matrix[own + 2 * k + 1]!;
  const squared = pRe * pRe + pIm * pIm;
  const end = 2 * width;
  // The column counts in steps of two.
  let [row, column, size] = [k + 1, 2 * k + 2, -1];
  for (let i = k + 1; i < rows; i++) {
    const at = i * end;
    const vRe = matrix[at + 2 * k]!;
    const vIm = matrix[at + 2 * k + 1]!;
    const fRe = (vRe * pRe + vIm * pIm) / squared;
    const fIm = (vIm * pRe - vRe * pIm) / squared;
    for (let j = 2 * k + 2; j < end; j += 2) {
      const uRe = matrix[own + j]!;
      const uIm = matrix[own + j + 1]!;
      const re = matrix[at + j]! - (fRe * uRe - fIm * uIm);
      const im = matrix[at + j + 1]! - (fRe * uIm + fIm * uRe);
      matrix[at + j] = re;
      matrix[at + j + 1] = im;
      const value = Math.abs(re) + Math.abs(im);
      if (value > size) {
        row = i;
        column = j;
        size = value;
      }
    }
  }
  return { row, column: column / 2, size };
}

/** Values at real points; at a support its sample. */
export function evaluateRational(rational: Rational, points: Float64Array): { re: Float64Array; im: Float64Array } {
  const re = new Float64Array(points.length);
  const im = new Float64Array(points.length);
  points.forEach((z, p) => {
    const value = valueAt(rational, z);
    re[p] = value.re;
    im[p] = value.im;
  });
  return { re, im };
}

function valueAt({ x, re, im, weightRe, weightIm }: Rational, z: number): Complex {
  let [nRe, nIm, dRe, dIm] = [0, 0, 0, 0];
  for (let j = 0; j < x.length; j++) {
    const step = z - x[j]!;
    if (step === 0) return { re: re[j]!, im: im[j]! };
    const wRe = weightRe[j]! / step;
    const wIm = weightIm[j]! / step;
    dRe += wRe;
    dIm += wIm;
    nRe += wRe * re[j]! - wIm * im[j]!;
    nIm += wRe * im[j]! + wIm * re[j]!;
  }
  const squared = dRe * dRe + dIm * dIm;
  return { re: (nRe * dRe + nIm * dIm) / squared, im: (nIm * dRe - nRe * dIm) / squared };
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
