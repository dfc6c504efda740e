import { type Room, separately } from "./room.ts";

/** Cholesky factor L of a symmetric positive definite matrix, K = L L^T, row-major, lower triangle. */
export interface Cholesky {
  readonly size: number;
  readonly lower: Float64Array;
}

/**
 * Factor of a symmetric positive definite matrix (row-major, its lower triangle is read).
 * Returns the factor, or null where the matrix is not positive definite: for a plate, past buckling.
 */
export function cholesky(matrix: Float64Array, size: number, room: Room = separately): Cholesky | null {
  const lower = room(size * size);
  for (let i = 0; i < size; i++) {
    const rowI = i * size;
    for (let j = 0; j < i; j++) {
      const rowJ = j * size;
      let sum = matrix[rowI + j]!;
      // Two sums, so that one need not wait for the other.
      let other = 0;
      const last = j - (j % 2);
      for (let k = 0; k < last; k += 2) {
        sum -= lower[rowI + k]! * lower[rowJ + k]!;
        other -= lower[rowI + k + 1]! * lower[rowJ + k + 1]!;
      }
      if (last < j) sum -= lower[rowI + last]! * lower[rowJ + last]!;
      lower[rowI + j] = (sum + other) / lower[rowJ + j]!;
    }
    let pivot = matrix[rowI + i]!;
    for (let k = 0; k < i; k++) pivot -= lower[rowI + k]! ** 2;
    if (!(pivot > 1e-13 * Math.abs(matrix[rowI + i]!))) return null;
    lower[rowI + i] = Math.sqrt(pivot);
  }
  return { size, lower };
}

/** Solves K x = b. */
export function choleskySolve({ size, lower }: Cholesky, right: Float64Array): Float64Array {
  const x = choleskyForward({ size, lower }, right);
  for (let i = size - 1; i >= 0; i--) {
    const value = x[i]! / lower[i * size + i]!;
    x[i] = value;
    for (let k = 0; k < i; k++) x[k]! -= lower[i * size + k]! * value;
  }
  return x;
}

/** Solves L x = b. */
export function choleskyForward({ size, lower }: Cholesky, right: Float64Array): Float64Array {
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    let sum = x[i]!;
    for (let k = 0; k < i; k++) sum -= lower[i * size + k]! * x[k]!;
    x[i] = sum / lower[i * size + i]!;
  }
  return x;
}
