import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import type { Cholesky } from "./cholesky.ts";
import { choleskyForward } from "./cholesky.ts";

/** Eigenvalues in ascending order and their vectors, row-major, one vector a row. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

/** Eigenvalues of a symmetric matrix, row-major, ascending, with orthonormal vectors. */
export function symmetricEigen(values: Float64Array, size: number): Eigen {
  if (size === 0) return { values: new Float64Array(0), vectors: new Float64Array(0) };
  const matrix = new Matrix(size, size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) matrix.set(i, j, 0.5 * (values[i * size + j]! + values[j * size + i]!));
  }
  const decomposition = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  const found = decomposition.realEigenvalues;
  const columns = decomposition.eigenvectorMatrix;
  const order = Array.from({ length: size }, (_, i) => i).sort((a, b) => found[a]! - found[b]!);
  const vectors = new Float64Array(size * size);
  order.forEach((column, row) => {
    for (let i = 0; i < size; i++) vectors[row * size + i] = columns.get(i, column);
  });
  return { values: Float64Array.from(order, (i) => found[i]!), vectors };
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
  const { values: inverse, vectors: turned } = symmetricEigen(reduced, n);
  const values = new Float64Array(n);
  const vectors = new Float64Array(n * n);
  for (let row = 0; row < n; row++) {
    const from = n - 1 - row;
    values[row] = 1 / inverse[from]!;
    const vector = vectors.subarray(row * n, (row + 1) * n);
    vector.set(turned.subarray(from * n, (from + 1) * n));
    for (let i = n - 1; i >= 0; i--) {
      const value = vector[i]! / stiffness.lower[i * n + i]!;
      vector[i] = value;
      for (let k = 0; k < i; k++) vector[k]! -= stiffness.lower[i * n + k]! * value;
    }
  }
  return { values, vectors };
}
