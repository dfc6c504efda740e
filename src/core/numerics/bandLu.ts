/** Banded matrices that need no pivoting: definite ones, symmetric or nearly so. */

/** Row i holds columns i - half .. i + half at i * (2 half + 1). */
export interface Band {
  readonly size: number;
  readonly half: number;
  readonly values: Float64Array;
}

export const emptyBand = (size: number, half: number): Band => ({
  size,
  half,
  values: new Float64Array(size * (2 * half + 1)),
});

/**
 * Factor L U in place of a matrix, without pivoting. Returns false where a pivot vanishes: the matrix is not definite enough.
 * Work: size * half^2 multiplications and additions.
 */
export function factorBand({ size, half, values }: Band): boolean {
  const width = 2 * half + 1;
  for (let k = 0; k < size; k++) {
    const rowK = k * width + half - k;
    const pivot = values[rowK + k]!;
    if (!(Math.abs(pivot) > 0)) return false;
    const last = Math.min(size - 1, k + half);
    const inverse = 1 / pivot;
    for (let i = k + 1; i <= last; i++) {
      const rowI = i * width + half - i;
      const lead = values[rowI + k]!;
      if (lead === 0) continue;
      const factor = lead * inverse;
      values[rowI + k] = factor;
      for (let j = k + 1; j <= last; j++) values[rowI + j]! -= factor * values[rowK + j]!;
    }
  }
  return true;
}

/**
 * How many pivots of a factored matrix are negative: of a symmetric one as many eigenvalues are (Sylvester's law of inertia), and
 * rows that are scaled by positive numbers change none of the signs.
 */
export function negativePivots({ size, half, values }: Band): number {
  let count = 0;
  for (let i = 0; i < size; i++) if (values[i * (2 * half + 1) + half]! < 0) count++;
  return count;
}

/** Solves with a factored matrix, in place of the right side. */
export function solveBand({ size, half, values }: Band, x: Float64Array): void {
  const width = 2 * half + 1;
  for (let i = 0; i < size; i++) {
    const row = i * width + half - i;
    let value = x[i]!;
    for (let k = Math.max(0, i - half); k < i; k++) value -= values[row + k]! * x[k]!;
    x[i] = value;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = i * width + half - i;
    let value = x[i]!;
    const last = Math.min(size - 1, i + half);
    for (let k = i + 1; k <= last; k++) value -= values[row + k]! * x[k]!;
    x[i] = value / values[row + i]!;
  }
}
