/**
 * A rational function through samples on the real axis, in barycentric form:
 *
 *     r(z) = sum w_j f_j / (z - x_j) / sum w_j / (z - x_j)
 *
 * Every other sample is a support; the weights are the null vector of the Loewner matrix (f_i - f_j) / (x_i - x_j) of the
 * rest, so that all samples are met. Where that matrix has a lower rank the function needs fewer supports, and takes fewer.
 * Source: Antoulas and Anderson 1986; Nakatsukasa, Sete and Trefethen 2018 (from memory, to be confirmed).
 */
import { add, type Complex, complex, divide, multiply } from "./complex.ts";

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
  const supports = Int32Array.from({ length: Math.ceil(x.length / 2) }, (_, i) => 2 * i);
  const tests = Int32Array.from({ length: supports.length - 1 }, (_, i) => 2 * i + 1);
  const { columns, vector } = loewnerNullVector({ x, re, im }, supports, tests);
  const used = columns.map((c, i) => ({ at: supports[c]!, weight: vector[i]! })).sort((a, b) => a.at - b.at);
  return {
    x: Float64Array.from(used, ({ at }) => x[at]!),
    re: Float64Array.from(used, ({ at }) => re[at]!),
    im: Float64Array.from(used, ({ at }) => im[at]!),
    weightRe: Float64Array.from(used, ({ weight }) => weight.re),
    weightIm: Float64Array.from(used, ({ weight }) => weight.im),
  };
}

/** Null vector by elimination with complete pivoting: the pivot columns and one free column, the smallest set that does. */
function loewnerNullVector(samples: Samples, supports: Int32Array, tests: Int32Array) {
  const { x, re, im } = samples;
  const rows = tests.length;
  const width = supports.length;
  const aRe = new Float64Array(rows * width);
  const aIm = new Float64Array(rows * width);
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < width; j++) {
      const [t, s] = [tests[i]!, supports[j]!];
      const step = 1 / (x[t]! - x[s]!);
      aRe[i * width + j] = (re[t]! - re[s]!) * step;
      aIm[i * width + j] = (im[t]! - im[s]!) * step;
    }
  }
  const order = Array.from({ length: width }, (_, j) => j);
  let rank = 0;
  let largest = 0;
  for (; rank < rows; rank++) {
    const [row, column, size] = largestEntry(aRe, aIm, rank, rows, width);
    if (rank === 0) largest = size;
    if (!(size > rankTolerance * largest)) break;
    for (const part of [aRe, aIm]) {
      swapRows(part, width, rank, row);
      swapColumns(part, width, rows, rank, column);
    }
    [order[rank], order[column]] = [order[column]!, order[rank]!];
    eliminateBelow(aRe, aIm, rank, rows, width);
  }
  const vector: Complex[] = new Array(rank + 1);
  vector[rank] = complex(1);
  for (let i = rank - 1; i >= 0; i--) {
    let sum = complex(0);
    for (let j = i + 1; j <= rank; j++) {
      sum = add(sum, multiply({ re: aRe[i * width + j]!, im: aIm[i * width + j]! }, vector[j]!));
    }
    vector[i] = divide({ re: -sum.re, im: -sum.im }, { re: aRe[i * width + i]!, im: aIm[i * width + i]! });
  }
  return { columns: order.slice(0, rank + 1), vector };
}

function largestEntry(aRe: Float64Array, aIm: Float64Array, from: number, rows: number, width: number) {
  let [row, column, size] = [from, from, -1];
  for (let i = from; i < rows; i++) {
    for (let j = from; j < width; j++) {
      const value = Math.abs(aRe[i * width + j]!) + Math.abs(aIm[i * width + j]!);
      if (value > size) [row, column, size] = [i, j, value];
    }
  }
  return [row, column, size] as const;
}

function swapRows(values: Float64Array, width: number, a: number, b: number): void {
  for (let j = 0; j < width; j++) {
    const kept = values[a * width + j]!;
    values[a * width + j] = values[b * width + j]!;
    values[b * width + j] = kept;
  }
}

function swapColumns(values: Float64Array, width: number, rows: number, a: number, b: number): void {
  for (let i = 0; i < rows; i++) {
    const kept = values[i * width + a]!;
    values[i * width + a] = values[i * width + b]!;
    values[i * width + b] = kept;
  }
}

function eliminateBelow(aRe: Float64Array, aIm: Float64Array, k: number, rows: number, width: number): void {
  const pRe = aRe[k * width + k]!;
  const pIm = aIm[k * width + k]!;
  const squared = pRe * pRe + pIm * pIm;
  for (let i = k + 1; i < rows; i++) {
    const vRe = aRe[i * width + k]!;
    const vIm = aIm[i * width + k]!;
    const fRe = (vRe * pRe + vIm * pIm) / squared;
    const fIm = (vIm * pRe - vRe * pIm) / squared;
    for (let j = k; j < width; j++) {
      const uRe = aRe[k * width + j]!;
      const uIm = aIm[k * width + j]!;
      aRe[i * width + j]! -= fRe * uRe - fIm * uIm;
      aIm[i * width + j]! -= fRe * uIm + fIm * uRe;
    }
  }
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
  for (let round = 0; round < 60; round++) {
    let moved = 0;
    for (let i = 0; i < count; i++) {
      const [re, im] = [zRe[i]!, zIm[i]!];
      // value = D, slope = D', inverse = sum 1 / (z - x_j); plain numbers, because this is the innermost loop.
      let [valueRe, valueIm, slopeRe, slopeIm, inverseRe, inverseIm] = [0, 0, 0, 0, 0, 0];
      for (let j = 0; j < x.length; j++) {
        const stepRe = re - x[j]!;
        const squared = stepRe * stepRe + im * im;
        const oneRe = stepRe / squared;
        const oneIm = -im / squared;
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
        const squared = stepRe * stepRe + stepIm * stepIm;
        inverseRe -= stepRe / squared;
        inverseIm += stepIm / squared;
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
      moved = Math.max(moved, Math.hypot(moveRe, moveIm) / (Math.hypot(re, im) + 1e-300));
    }
    // Starting points only: the search that follows polishes them.
    if (moved < 1e-6) break;
  }
  return Array.from(zRe, (re, i) => ({ re, im: zIm[i]! }));
}
