/**
 * Complex symmetric systems (not Hermitian) on two Float64Arrays, row-major, lower triangle read.
 *
 *     A = L D L^T,  no pivoting first; where the residual shows that this failed, again with complete pivoting (LU).
 */
import type { Complex } from "./complex.ts";
import { type Room, separately } from "./room.ts";

export interface ComplexVector {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const complexVector = (size: number, room: Room = separately): ComplexVector => ({
  re: room(size),
  im: room(size),
});

/** Vectors at most whose forms are taken at once. */
const mostForms = 4;

/** A factored matrix with room to work in; made once for a size and used again for each frequency. */
export interface SymmetricWork {
  readonly size: number;
  /** Rows of L below the diagonal, real and imaginary parts by turns. */
  readonly lower: Float64Array;
  /** Inverse of D. */
  readonly pivotRe: Float64Array;
  readonly pivotIm: Float64Array;
  /** Rows of L D before they are divided, or right sides on their way, stored as those of L. */
  readonly rows: Float64Array;
}

export function symmetricWork(size: number, room: Room = separately): SymmetricWork {
  return {
    size,
    lower: room(2 * size * size),
    pivotRe: room(size),
    pivotIm: room(size),
    rows: room(2 * mostForms * size),
  };
}

/** Factors A into `work`, two rows at a time; the matrix is not changed. */
export function factorSymmetric(work: SymmetricWork, aRe: Float64Array, aIm: Float64Array): void {
  const { lower, pivotRe, pivotIm, rows } = work;
  const n = pivotRe.length;
  const width = 2 * n;
  for (let i = 0; i < n; i += 2) {
    // Of an odd number the last row is its own partner.
    const other = Math.min(i + 1, n - 1);
    eliminateTwo(work, aRe, aIm, i * n, other * n, i, 0);
    const [at, next] = [i * width, other * width];
    let pRe = aRe[i * n + i]!;
    let pIm = aIm[i * n + i]!;
    let qRe = aRe[other * n + i]!;
    let qIm = aIm[other * n + i]!;
    let dRe = aRe[other * n + other]!;
    let dIm = aIm[other * n + other]!;
    for (let k = 0; k < i; k++) {
      const uRe = rows[2 * k]!;
      const uIm = rows[2 * k + 1]!;
      const vRe = rows[width + 2 * k]!;
      const vIm = rows[width + 2 * k + 1]!;
      const eRe = pivotRe[k]!;
      const eIm = pivotIm[k]!;
      const lRe = uRe * eRe - uIm * eIm;
      const lIm = uRe * eIm + uIm * eRe;
      const mRe = vRe * eRe - vIm * eIm;
      const mIm = vRe * eIm + vIm * eRe;
      lower[at + 2 * k] = lRe;
      lower[at + 2 * k + 1] = lIm;
      lower[next + 2 * k] = mRe;
      lower[next + 2 * k + 1] = mIm;
      pRe -= uRe * lRe - uIm * lIm;
      pIm -= uRe * lIm + uIm * lRe;
      qRe -= vRe * lRe - vIm * lIm;
      qIm -= vRe * lIm + vIm * lRe;
      dRe -= vRe * mRe - vIm * mIm;
      dIm -= vRe * mIm + vIm * mRe;
    }
    const squared = pRe * pRe + pIm * pIm;
    const eRe = pRe / squared;
    const eIm = -pIm / squared;
    pivotRe[i] = eRe;
    pivotIm[i] = eIm;
    if (other === i) break;
    const lRe = qRe * eRe - qIm * eIm;
    const lIm = qRe * eIm + qIm * eRe;
    lower[next + 2 * i] = lRe;
    lower[next + 2 * i + 1] = lIm;
    dRe -= qRe * lRe - qIm * lIm;
    dIm -= qRe * lIm + qIm * lRe;
    const size = dRe * dRe + dIm * dIm;
    pivotRe[other] = dRe / size;
    pivotIm[other] = -dIm / size;
  }
}

/**
 * L^-1 of two right sides, which stand in `re` and `im` from `from` and from `fromNext` on: their first `count` entries, by the first rows
 * of L, into `rows` from `at` on, one after the other. Two rows by two columns at a time: half the reading of one by one.
 */
function eliminateTwo(
  { lower, pivotRe, rows }: SymmetricWork,
  re: Float64Array,
  im: Float64Array,
  from: number,
  fromNext: number,
  count: number,
  at: number,
): void {
  const width = 2 * pivotRe.length;
  const next = at + width;
  for (let j = 0; j < count; j += 2) {
    const first = j * width;
    // Of an odd number the last column is its own partner.
    const other = j + 1 < count ? j + 1 : j;
    const second = other * width;
    const end = 2 * j;
    let aRe = re[from + j]!;
    let aIm = im[from + j]!;
    let bRe = re[from + other]!;
    let bIm = im[from + other]!;
    let cRe = re[fromNext + j]!;
    let cIm = im[fromNext + j]!;
    let dRe = re[fromNext + other]!;
    let dIm = im[fromNext + other]!;
    for (let k = 0; k < end; k += 2) {
      const uRe = rows[at + k]!;
      const uIm = rows[at + k + 1]!;
      const vRe = rows[next + k]!;
      const vIm = rows[next + k + 1]!;
      const lRe = lower[first + k]!;
      const lIm = lower[first + k + 1]!;
      aRe -= uRe * lRe - uIm * lIm;
      aIm -= uRe * lIm + uIm * lRe;
      cRe -= vRe * lRe - vIm * lIm;
      cIm -= vRe * lIm + vIm * lRe;
      const mRe = lower[second + k]!;
      const mIm = lower[second + k + 1]!;
      bRe -= uRe * mRe - uIm * mIm;
      bIm -= uRe * mIm + uIm * mRe;
      dRe -= vRe * mRe - vIm * mIm;
      dIm -= vRe * mIm + vIm * mRe;
    }
    rows[at + end] = aRe;
    rows[at + end + 1] = aIm;
    rows[next + end] = cRe;
    rows[next + end + 1] = cIm;
    if (other === j) break;
    const mRe = lower[second + end]!;
    const mIm = lower[second + end + 1]!;
    rows[at + end + 2] = bRe - (aRe * mRe - aIm * mIm);
    rows[at + end + 3] = bIm - (aRe * mIm + aIm * mRe);
    rows[next + end + 2] = dRe - (cRe * mRe - cIm * mIm);
    rows[next + end + 3] = dIm - (cRe * mIm + cIm * mRe);
  }
}

/** The same for a matrix whose imaginary part is zero. */
export function factorReal(work: SymmetricWork, a: Float64Array): void {
  const { lower, pivotRe, pivotIm, rows } = work;
  const n = pivotRe.length;
  const width = 2 * n;
  lower.fill(0);
  pivotIm.fill(0);
  for (let i = 0; i < n; i++) {
    const from = i * n;
    const at = i * width;
    let d = a[from + i]!;
    for (let j = 0; j < i; j++) {
      const other = j * width;
      let value = a[from + j]!;
      for (let k = 0; k < j; k++) value -= rows[k]! * lower[other + 2 * k]!;
      rows[j] = value;
    }
    for (let k = 0; k < i; k++) {
      const l = rows[k]! * pivotRe[k]!;
      lower[at + 2 * k] = l;
      d -= rows[k]! * l;
    }
    pivotRe[i] = 1 / d;
  }
}

/** Solves with the factors in `work`, in place: `x` holds the right side on entry and the solution on return. */
export function solveFactored(work: SymmetricWork, x: ComplexVector): void {
  const { lower, pivotRe, pivotIm } = work;
  const n = pivotRe.length;
  const { re: xRe, im: xIm } = x;
  // Two rows at a time here and on the way back; of an odd number the last one alone, as its own partner.
  for (let i = 0; i < n; i += 2) {
    const at = 2 * i * n;
    const pair = i + 1 < n;
    const next = pair ? at + 2 * n : at;
    let aRe = xRe[i]!;
    let aIm = xIm[i]!;
    let bRe = pair ? xRe[i + 1]! : 0;
    let bIm = pair ? xIm[i + 1]! : 0;
    for (let k = 0; k < i; k++) {
      const re = xRe[k]!;
      const im = xIm[k]!;
      const lRe = lower[at + 2 * k]!;
      const lIm = lower[at + 2 * k + 1]!;
      const mRe = lower[next + 2 * k]!;
      const mIm = lower[next + 2 * k + 1]!;
      aRe -= lRe * re - lIm * im;
      aIm -= lRe * im + lIm * re;
      bRe -= mRe * re - mIm * im;
      bIm -= mRe * im + mIm * re;
    }
    xRe[i] = aRe;
    xIm[i] = aIm;
    if (!pair) break;
    const mRe = lower[next + 2 * i]!;
    const mIm = lower[next + 2 * i + 1]!;
    xRe[i + 1] = bRe - (mRe * aRe - mIm * aIm);
    xIm[i + 1] = bIm - (mRe * aIm + mIm * aRe);
  }
  for (let i = 0; i < n; i++) {
    const re = xRe[i]!;
    const im = xIm[i]!;
    xRe[i] = re * pivotRe[i]! - im * pivotIm[i]!;
    xIm[i] = re * pivotIm[i]! + im * pivotRe[i]!;
  }
  for (let i = n - 2 + (n % 2); i >= 0; i -= 2) {
    const at = 2 * i * n;
    const pair = i + 1 < n;
    const next = pair ? at + 2 * n : at;
    const bRe = pair ? xRe[i + 1]! : 0;
    const bIm = pair ? xIm[i + 1]! : 0;
    const between = pair ? next + 2 * i : at;
    const aRe = xRe[i]! - (lower[between]! * bRe - lower[between + 1]! * bIm);
    const aIm = xIm[i]! - (lower[between]! * bIm + lower[between + 1]! * bRe);
    xRe[i] = aRe;
    xIm[i] = aIm;
    for (let k = 0; k < i; k++) {
      const lRe = lower[at + 2 * k]!;
      const lIm = lower[at + 2 * k + 1]!;
      const mRe = lower[next + 2 * k]!;
      const mIm = lower[next + 2 * k + 1]!;
      xRe[k]! -= lRe * aRe - lIm * aIm + (mRe * bRe - mIm * bIm);
      xIm[k]! -= lRe * aIm + lIm * aRe + (mRe * bIm + mIm * bRe);
    }
  }
}

/** Share of a diagonal entry below which its pivot shows that digits were lost: of sixteen, ten are left. */
const leastPivot = 1e-3;

/** Whether no pivot is much smaller than the entry of A it came from: then the factors are as good as those of a pivoted matrix. */
export function pivotsHold({ pivotRe, pivotIm }: SymmetricWork, aRe: Float64Array, aIm: Float64Array): boolean {
  const n = pivotRe.length;
  for (let i = 0; i < n; i++) {
    const size = Math.abs(aRe[i * n + i]!) + Math.abs(aIm[i * n + i]!);
    // The inverse of D is what stands there.
    if (!(leastPivot * size * (Math.abs(pivotRe[i]!) + Math.abs(pivotIm[i]!)) < 1)) return false;
  }
  return true;
}

/**
 * Compliances x^T A^-1 y of some vectors by the factors in `work`: L^-1 of each, and no solution of any.
 *
 *     forms_ab = sum_k (L^-1 x_a)_k (L^-1 x_b)_k / D_k
 *
 * `vectors`: `count` of them, four at most, one after the other; `forms` takes count x count, lower triangle.
 */
export function symmetricForms(work: SymmetricWork, vectors: ComplexVector, count: number, forms: ComplexVector): void {
  const { pivotRe, pivotIm, rows } = work;
  const n = pivotRe.length;
  const width = 2 * n;
  // Of an odd number the last one is its own partner.
  for (let a = 0; a < count; a += 2)
    eliminateTwo(work, vectors.re, vectors.im, a * n, Math.min(a + 1, count - 1) * n, n, a * width);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b <= a; b++) {
      const [one, other] = [a * width, b * width];
      let sumRe = 0;
      let sumIm = 0;
      for (let k = 0; k < n; k++) {
        const xRe = rows[one + 2 * k]!;
        const xIm = rows[one + 2 * k + 1]!;
        const yRe = rows[other + 2 * k]!;
        const yIm = rows[other + 2 * k + 1]!;
        const pRe = xRe * yRe - xIm * yIm;
        const pIm = xRe * yIm + xIm * yRe;
        sumRe += pRe * pivotRe[k]! - pIm * pivotIm[k]!;
        sumIm += pRe * pivotIm[k]! + pIm * pivotRe[k]!;
      }
      forms.re[a * count + b] = sumRe;
      forms.im[a * count + b] = sumIm;
    }
  }
}

/** x^T A_11^-1 x of the first `count` rows of A, for one of the vectors whose forms were taken last. */
export function leadingForm({ pivotRe, pivotIm, rows }: SymmetricWork, vector: number, count: number): Complex {
  const from = 2 * vector * pivotRe.length;
  let [sumRe, sumIm] = [0, 0];
  for (let k = 0; k < count; k++) {
    const re = rows[from + 2 * k]!;
    const im = rows[from + 2 * k + 1]!;
    const pRe = re * re - im * im;
    const pIm = 2 * re * im;
    sumRe += pRe * pivotRe[k]! - pIm * pivotIm[k]!;
    sumIm += pRe * pivotIm[k]! + pIm * pivotRe[k]!;
  }
  return { re: sumRe, im: sumIm };
}

/** The same for a real right side, with the factors of `factorReal`. */
export function solveFactoredReal({ lower, pivotRe }: SymmetricWork, x: Float64Array): void {
  const n = pivotRe.length;
  for (let i = 0; i < n; i++) {
    const at = 2 * i * n;
    let value = x[i]!;
    for (let k = 0; k < i; k++) value -= lower[at + 2 * k]! * x[k]!;
    x[i] = value;
  }
  for (let i = 0; i < n; i++) x[i]! *= pivotRe[i]!;
  for (let i = n - 1; i >= 0; i--) {
    const at = 2 * i * n;
    const value = x[i]!;
    for (let k = 0; k < i; k++) x[k]! -= lower[at + 2 * k]! * value;
  }
}

/** Largest |A x - b| over largest |b|. */
export function residual(
  size: number,
  aRe: Float64Array,
  aIm: Float64Array,
  x: ComplexVector,
  right: ComplexVector,
): number {
  const { re: xRe, im: xIm } = x;
  const left = complexVector(size);
  const [leftRe, leftIm] = [left.re, left.im];
  const n = leftRe.length;
  for (let i = 0; i < n; i++) {
    const re = xRe[i]!;
    const im = xIm[i]!;
    let sumRe = 0;
    let sumIm = 0;
    // Each entry below the diagonal stands for the one above it as well.
    for (let j = 0; j < i; j++) {
      const bRe = aRe[i * n + j]!;
      const bIm = aIm[i * n + j]!;
      sumRe += bRe * xRe[j]! - bIm * xIm[j]!;
      sumIm += bRe * xIm[j]! + bIm * xRe[j]!;
      leftRe[j]! += bRe * re - bIm * im;
      leftIm[j]! += bRe * im + bIm * re;
    }
    const [dRe, dIm] = [aRe[i * n + i]!, aIm[i * n + i]!];
    leftRe[i] = sumRe + dRe * re - dIm * im;
    leftIm[i] = sumIm + dRe * im + dIm * re;
  }
  let worst = 0;
  let scale = 0;
  for (let i = 0; i < n; i++) {
    worst = Math.max(worst, Math.abs(leftRe[i]! - right.re[i]!) + Math.abs(leftIm[i]! - right.im[i]!));
    scale = Math.max(scale, Math.abs(right.re[i]!) + Math.abs(right.im[i]!));
  }
  return scale === 0 ? worst : worst / scale;
}

/** Solves A x = b by Gaussian elimination with complete pivoting; slow, for the few systems where L D L^T fails. */
export function solvePivoted(size: number, aRe: Float64Array, aIm: Float64Array, right: ComplexVector): ComplexVector {
  const width = size + 1;
  const re = new Float64Array(size * width);
  const im = new Float64Array(size * width);
  const order = Int32Array.from({ length: size }, (_, i) => i);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const at = i >= j ? i * size + j : j * size + i;
      re[i * width + j] = aRe[at]!;
      im[i * width + j] = aIm[at]!;
    }
    re[i * width + size] = right.re[i]!;
    im[i * width + size] = right.im[i]!;
  }
  const swap = (values: Float64Array, a: number, b: number) => {
    const kept = values[a]!;
    values[a] = values[b]!;
    values[b] = kept;
  };
  for (let k = 0; k < size; k++) {
    let best = -1;
    let row = k;
    let column = k;
    for (let i = k; i < size; i++) {
      for (let j = k; j < size; j++) {
        const value = Math.abs(re[i * width + j]!) + Math.abs(im[i * width + j]!);
        if (value > best) [best, row, column] = [value, i, j];
      }
    }
    for (let j = 0; j < width; j++) {
      swap(re, k * width + j, row * width + j);
      swap(im, k * width + j, row * width + j);
    }
    for (let i = 0; i < size; i++) {
      swap(re, i * width + k, i * width + column);
      swap(im, i * width + k, i * width + column);
    }
    const kept = order[k]!;
    order[k] = order[column]!;
    order[column] = kept;
    const pRe = re[k * width + k]!;
    const pIm = im[k * width + k]!;
    const squared = pRe * pRe + pIm * pIm;
    for (let i = k + 1; i < size; i++) {
      const aR = re[i * width + k]!;
      const aI = im[i * width + k]!;
      const fRe = (aR * pRe + aI * pIm) / squared;
      const fIm = (aI * pRe - aR * pIm) / squared;
      for (let j = k; j < width; j++) {
        const uRe = re[k * width + j]!;
        const uIm = im[k * width + j]!;
        re[i * width + j]! -= fRe * uRe - fIm * uIm;
        im[i * width + j]! -= fRe * uIm + fIm * uRe;
      }
    }
  }
  const x = complexVector(size);
  const y = complexVector(size);
  for (let i = size - 1; i >= 0; i--) {
    let sRe = re[i * width + size]!;
    let sIm = im[i * width + size]!;
    for (let j = i + 1; j < size; j++) {
      const uRe = re[i * width + j]!;
      const uIm = im[i * width + j]!;
      sRe -= uRe * y.re[j]! - uIm * y.im[j]!;
      sIm -= uRe * y.im[j]! + uIm * y.re[j]!;
    }
    const pRe = re[i * width + i]!;
    const pIm = im[i * width + i]!;
    const squared = pRe * pRe + pIm * pIm;
    y.re[i] = (sRe * pRe + sIm * pIm) / squared;
    y.im[i] = (sIm * pRe - sRe * pIm) / squared;
    x.re[order[i]!] = y.re[i]!;
    x.im[order[i]!] = y.im[i]!;
  }
  return x;
}
