import { type Cholesky, choleskyForward } from "./cholesky.ts";
import { type Room, separately } from "./room.ts";
import { diagonalize, tridiagonal } from "./tridiagonal.ts";

/** Eigenvalues in ascending order and their vectors, row-major, one vector a row. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

/** Eigenvalues of a symmetric matrix, row-major, ascending, with orthonormal vectors. */
export function symmetricEigen(values: Float64Array, size: number, room: Room = separately): Eigen {
  const turned = evened(values, size, room);
  const found = isDiagonal(turned, size) ? alreadyDiagonal(turned, size, room) : diagonalized(turned, size, room);
  const order = new Uint16Array(size);
  // By insertion: they come nearly in order.
  for (let i = 0; i < size; i++) {
    let at = i;
    for (; at > 0 && found[order[at - 1]!]! > found[i]!; at--) order[at] = order[at - 1]!;
    order[at] = i;
  }
  const sorted = room(size);
  const vectors = room(size * size);
  for (let row = 0, to = 0; row < size; row++) {
    sorted[row] = found[order[row]!]!;
    for (let k = 0, from = order[row]! * size; k < size; k++, from++, to++) vectors[to] = turned[from]!;
  }
  return { values: sorted, vectors };
}

function diagonalized(turned: Float64Array, size: number, room: Room): Float64Array {
  const form = tridiagonal(turned, size, true, room);
  diagonalize(form, turned);
  return form.diagonal;
}

/** Share of the largest entry up to which one off the diagonal is round-off of products that would leave it zero. */
const roundOff = 16 * Number.EPSILON;

function isDiagonal(matrix: Float64Array, size: number): boolean {
  let [inside, outside] = [0, 0];
  for (let i = 0; i < size; i++) {
    inside = Math.max(inside, Math.abs(matrix[i * size + i]!));
    for (let k = 0; k < i; k++) outside = Math.max(outside, Math.abs(matrix[i * size + k]!));
  }
  return outside <= roundOff * inside;
}

/** The diagonal; the matrix becomes the unit matrix. */
function alreadyDiagonal(matrix: Float64Array, size: number, room: Room): Float64Array {
  const diagonal = room(size);
  for (let i = 0; i < size; i++) diagonal[i] = matrix[i * size + i]!;
  matrix.fill(0);
  for (let i = 0; i < size; i++) matrix[i * size + i] = 1;
  return diagonal;
}

/** The eigenvalues alone, which take a sixth of the work. */
export function symmetricEigenvalues(values: Float64Array, size: number): Float64Array {
  const form = tridiagonal(evened(values, size), size, false);
  diagonalize(form, null);
  return form.diagonal.sort();
}

/** The mean of the matrix and its mirror image: what is not symmetric is round-off. */
function evened(values: Float64Array, size: number, room: Room = separately): Float64Array {
  const result = room(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) result[i * size + j] = 0.5 * (values[i * size + j]! + values[j * size + i]!);
  return result;
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
  const { values: inverse, vectors: turned } = symmetricEigen(withinStiffness(stiffness, mass), n);
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

/** The lambda alone, ascending. */
export const generalizedEigenvalues = (stiffness: Cholesky, mass: Float64Array): Float64Array =>
  symmetricEigenvalues(withinStiffness(stiffness, mass), stiffness.size)
    .reverse()
    .map((inverse) => 1 / inverse);

/** L^-1 M L^-T, row-major. */
function withinStiffness(stiffness: Cholesky, mass: Float64Array): Float64Array {
  const n = stiffness.size;
  const half = new Float64Array(n * n);
  for (let i = 0; i < n; i++) half.set(choleskyForward(stiffness, mass.subarray(i * n, (i + 1) * n)), i * n);
  const reduced = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const column = new Float64Array(n);
    for (let i = 0; i < n; i++) column[i] = half[i * n + j]!;
    reduced.set(choleskyForward(stiffness, column), j * n);
  }
  return reduced;
}
