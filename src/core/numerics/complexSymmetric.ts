/**
 * Complex symmetric systems (not Hermitian) on two Float64Arrays, row-major, lower triangle read.
 *
 *     A = L D L^T,  no pivoting first; where the residual shows that this failed, again with complete pivoting (LU).
 */
export interface ComplexVector {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const complexVector = (size: number): ComplexVector => ({
  re: new Float64Array(size),
  im: new Float64Array(size),
});

/** A factored matrix with room to work in; made once for a size and used again for each frequency. */
export interface SymmetricWork {
  readonly size: number;
  /** Rows of L (below the diagonal) and, before they are divided, of L D. */
  readonly lowerRe: Float64Array;
  readonly lowerIm: Float64Array;
  /** Inverse of D. */
  readonly pivotRe: Float64Array;
  readonly pivotIm: Float64Array;
  readonly rowRe: Float64Array;
  readonly rowIm: Float64Array;
}

export function symmetricWork(size: number): SymmetricWork {
  return {
    size,
    lowerRe: new Float64Array(size * size),
    lowerIm: new Float64Array(size * size),
    pivotRe: new Float64Array(size),
    pivotIm: new Float64Array(size),
    rowRe: new Float64Array(size),
    rowIm: new Float64Array(size),
  };
}

/** Factors A into `work`; the matrix is not changed. */
export function factorSymmetric(work: SymmetricWork, aRe: Float64Array, aIm: Float64Array): void {
  const { size: n, lowerRe, lowerIm, pivotRe, pivotIm, rowRe, rowIm } = work;
  for (let i = 0; i < n; i++) {
    const at = i * n;
    for (let j = 0; j < i; j++) {
      const other = j * n;
      let re = aRe[at + j]!;
      let im = aIm[at + j]!;
      for (let k = 0; k < j; k++) {
        const uRe = rowRe[k]!;
        const uIm = rowIm[k]!;
        const lRe = lowerRe[other + k]!;
        const lIm = lowerIm[other + k]!;
        re -= uRe * lRe - uIm * lIm;
        im -= uRe * lIm + uIm * lRe;
      }
      rowRe[j] = re;
      rowIm[j] = im;
    }
    let dRe = aRe[at + i]!;
    let dIm = aIm[at + i]!;
    for (let k = 0; k < i; k++) {
      const uRe = rowRe[k]!;
      const uIm = rowIm[k]!;
      const pRe = pivotRe[k]!;
      const pIm = pivotIm[k]!;
      const lRe = uRe * pRe - uIm * pIm;
      const lIm = uRe * pIm + uIm * pRe;
      lowerRe[at + k] = lRe;
      lowerIm[at + k] = lIm;
      dRe -= uRe * lRe - uIm * lIm;
      dIm -= uRe * lIm + uIm * lRe;
    }
    const squared = dRe * dRe + dIm * dIm;
    pivotRe[i] = dRe / squared;
    pivotIm[i] = -dIm / squared;
  }
}

/** The same for a matrix whose imaginary part is zero. */
export function factorReal(work: SymmetricWork, a: Float64Array): void {
  const { size: n, lowerRe, lowerIm, pivotRe, pivotIm, rowRe } = work;
  lowerIm.fill(0);
  pivotIm.fill(0);
  for (let i = 0; i < n; i++) {
    const at = i * n;
    let d = a[at + i]!;
    for (let j = 0; j < i; j++) {
      const other = j * n;
      let value = a[at + j]!;
      for (let k = 0; k < j; k++) value -= rowRe[k]! * lowerRe[other + k]!;
      rowRe[j] = value;
    }
    for (let k = 0; k < i; k++) {
      const l = rowRe[k]! * pivotRe[k]!;
      lowerRe[at + k] = l;
      d -= rowRe[k]! * l;
    }
    pivotRe[i] = 1 / d;
  }
}

/** Solves with the factors in `work`, in place: `x` holds the right side on entry and the solution on return. */
export function solveFactored(work: SymmetricWork, x: ComplexVector): void {
  const { size: n, lowerRe, lowerIm, pivotRe, pivotIm } = work;
  const { re: xRe, im: xIm } = x;
  for (let i = 0; i < n; i++) {
    const at = i * n;
    let re = xRe[i]!;
    let im = xIm[i]!;
    for (let k = 0; k < i; k++) {
      re -= lowerRe[at + k]! * xRe[k]! - lowerIm[at + k]! * xIm[k]!;
      im -= lowerRe[at + k]! * xIm[k]! + lowerIm[at + k]! * xRe[k]!;
    }
    xRe[i] = re;
    xIm[i] = im;
  }
  for (let i = 0; i < n; i++) {
    const re = xRe[i]!;
    const im = xIm[i]!;
    xRe[i] = re * pivotRe[i]! - im * pivotIm[i]!;
    xIm[i] = re * pivotIm[i]! + im * pivotRe[i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    const at = i * n;
    const re = xRe[i]!;
    const im = xIm[i]!;
    for (let k = 0; k < i; k++) {
      xRe[k]! -= lowerRe[at + k]! * re - lowerIm[at + k]! * im;
      xIm[k]! -= lowerRe[at + k]! * im + lowerIm[at + k]! * re;
    }
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
  let worst = 0;
  let scale = 0;
  for (let i = 0; i < size; i++) {
    let re = -right.re[i]!;
    let im = -right.im[i]!;
    scale = Math.max(scale, Math.abs(re) + Math.abs(im));
    for (let j = 0; j < size; j++) {
      const at = i >= j ? i * size + j : j * size + i;
      re += aRe[at]! * xRe[j]! - aIm[at]! * xIm[j]!;
      im += aRe[at]! * xIm[j]! + aIm[at]! * xRe[j]!;
    }
    worst = Math.max(worst, Math.abs(re) + Math.abs(im));
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
