import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import type { Cholesky } from "./cholesky.ts";
import { choleskyForward } from "./cholesky.ts";

/** Eigenvalues in ascending order and their vectors, row-major, one vector a row. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

/**
 * K v = lambda M v for symmetric K = L L^T (given factored) and symmetric M, both row-major; v^T K v = 1.
 *
 *     L^-1 M L^-T u = mu u,   lambda = 1 / mu,   v = L^-T u
 *
 * Solved for the largest mu, so that the lowest lambda are the most exact ones.
 */
export function generalizedEigen(stiffness: Cholesky, mass: Float64Array): Eigen {
  const n = stiffness.size;
  const half = new Float64Array(n * n);
  for (let i = 0; i < n; i++) half.set(choleskyForward(stiffness, mass.subarray(i * n, (i + 1) * n)), i * n);
  const reduced = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const column = new Float64Array(n);
    for (let i = 0; i < n; i++) column[i] = half[i * n + j]!;
    reduced.set(choleskyForward(stiffness, column), j * n);
  }
  const matrix = new Matrix(n, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) matrix.set(i, j, 0.5 * (reduced[i * n + j]! + reduced[j * n + i]!));
  }
  const decomposition = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  const inverse = decomposition.realEigenvalues;
  const columns = decomposition.eigenvectorMatrix;
  const order = Array.from({ length: n }, (_, i) => i).sort((a, b) => inverse[b]! - inverse[a]!);
  const values = new Float64Array(n);
  const vectors = new Float64Array(n * n);
  order.forEach((column, row) => {
    values[row] = 1 / inverse[column]!;
    const vector = new Float64Array(n);
    for (let i = 0; i < n; i++) vector[i] = columns.get(i, column);
    for (let i = n - 1; i >= 0; i--) {
      const value = vector[i]! / stiffness.lower[i * n + i]!;
      vector[i] = value;
      for (let k = 0; k < i; k++) vector[k]! -= stiffness.lower[i * n + k]! * value;
    }
    vectors.set(vector, row * n);
  });
  return { values, vectors };
}
