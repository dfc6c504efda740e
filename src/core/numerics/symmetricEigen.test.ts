import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { cholesky } from "./cholesky.ts";
import { seededUniform } from "./random.ts";
import { generalizedEigen, generalizedEigenvalues, symmetricEigen, symmetricEigenvalues } from "./symmetricEigen.ts";

/** A symmetric matrix of random numbers; `rank` below its size makes the rest of the eigenvalues zero. */
function matrixOf(size: number, seed: number, rank = size): Float64Array {
  const random = seededUniform(seed);
  const factor = Float64Array.from({ length: size * rank }, () => random() - 0.5);
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++)
      for (let k = 0; k < rank; k++)
        matrix[i * size + j]! += (k % 2 === 0 ? 1 : -1) * factor[i * rank + k]! * factor[j * rank + k]!;
  return matrix;
}

describe.each([1, 2, 3, 7, 20, 41])("a symmetric matrix of size %i", (size) => {
  const matrix = matrixOf(size, 40 + size);
  const { values, vectors } = symmetricEigen(matrix, size);
  const scale = Math.max(...values.map(Math.abs));

  test("has the eigenvalues that another implementation finds", () => {
    const rows = Array.from({ length: size }, (_, i) => [...matrix.subarray(i * size, (i + 1) * size)]);
    // ml-matrix, by its path for matrices of any kind.
    const other = new EigenvalueDecomposition(new Matrix(rows)).realEigenvalues.sort((a, b) => a - b);
    for (const [i, value] of other.entries()) expect(Math.abs(values[i]! - value)).toBeLessThan(1e-13 * scale);
  });

  test("is made of its vectors and values again, and they are orthonormal", () => {
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        let [sum, product] = [0, 0];
        for (let k = 0; k < size; k++) {
          sum += values[k]! * vectors[k * size + i]! * vectors[k * size + j]!;
          product += vectors[i * size + k]! * vectors[j * size + k]!;
        }
        expect(Math.abs(sum - matrix[i * size + j]!)).toBeLessThan(1e-13 * scale);
        expect(Math.abs(product - (i === j ? 1 : 0))).toBeLessThan(1e-13);
      }
    }
  });

  test("has the same eigenvalues without their vectors", () => {
    expect(symmetricEigenvalues(matrix, size)).toEqual(values);
  });
});

test("the eigenvalues of the second difference are 2 - 2 cos(k pi / (n + 1))", () => {
  const n = 30;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    matrix[i * n + i] = 2;
    if (i > 0) matrix[i * n + i - 1] = matrix[(i - 1) * n + i] = -1;
  }
  symmetricEigenvalues(matrix, n).forEach((value, k) => {
    expect(Math.abs(value - (2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1))))).toBeLessThan(1e-14);
  });
});

test("a matrix of low rank has zeros for the rest, a diagonal one its diagonal, an empty one none", () => {
  const low = symmetricEigenvalues(matrixOf(12, 5, 3), 12);
  expect([...low].filter((value) => Math.abs(value) > 1e-14)).toHaveLength(3);
  expect([...symmetricEigenvalues(Float64Array.from([3, 0, 0, 0, -1, 0, 0, 0, 2]), 3)]).toEqual([-1, 2, 3]);
  expect(symmetricEigen(new Float64Array(0), 0).values).toHaveLength(0);
});

test("K v = lambda M v holds, with and without the vectors", () => {
  const n = 9;
  const square = matrixOf(n, 3);
  const stiffness = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < n; k++) stiffness[i * n + j]! += square[i * n + k]! * square[j * n + k]!;
      if (i === j) stiffness[i * n + j]! += 1;
    }
  const mass = new Float64Array(n * n);
  for (let i = 0; i < n; i++) mass[i * n + i] = 1 + i;
  const factor = cholesky(stiffness, n)!;
  const { values, vectors } = generalizedEigen(factor, mass);
  expect(generalizedEigenvalues(factor, mass)).toEqual(values);
  for (let k = 0; k < n; k++) {
    for (let i = 0; i < n; i++) {
      let left = 0;
      for (let j = 0; j < n; j++) left += stiffness[i * n + j]! * vectors[k * n + j]!;
      expect(Math.abs(left - values[k]! * mass[i * n + i]! * vectors[k * n + i]!)).toBeLessThan(1e-11);
    }
  }
});
