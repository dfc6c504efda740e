import { describe, expect, test } from "vitest";
import {
  complexVector,
  factorSymmetric,
  residual,
  solveFactored,
  symmetricForms,
  symmetricWork,
} from "./complexSymmetric.ts";
import { seededUniform } from "./random.ts";
import { realRowProducts, rowProducts } from "./rowProducts.ts";

const random = seededUniform(5);
const made = (length: number) => {
  const part = () => Float64Array.from({ length }, () => random() - 0.5);
  return { re: part(), im: part() };
};

describe.each([1, 2, 3, 8, 21])("a complex symmetric system of %i unknowns", (size) => {
  const matrix = made(size * size);
  for (let i = 0; i < size; i++) matrix.re[i * size + i]! += size;
  const work = symmetricWork(size);
  factorSymmetric(work, matrix.re, matrix.im);
  const vectors = made(3 * size);
  const solved = [0, 1, 2].map((a) => {
    const right = {
      re: vectors.re.slice(a * size, (a + 1) * size),
      im: vectors.im.slice(a * size, (a + 1) * size),
    };
    const x = { re: right.re.slice(), im: right.im.slice() };
    solveFactored(work, x);
    return { right, x };
  });

  test("is solved to round-off: put back into the matrix, the solution leaves nothing", () => {
    for (const { right, x } of solved) expect(residual(size, matrix.re, matrix.im, x, right)).toBeLessThan(1e-13);
    // And what is left is noticed.
    expect(residual(size, matrix.re, matrix.im, solved[0]!.right, solved[0]!.right)).toBeGreaterThan(1e-3);
  });

  test("has the forms x^T A^-1 y that its solutions give", () => {
    const forms = complexVector(9);
    symmetricForms(work, vectors, 3, forms);
    for (let a = 0; a < 3; a++) {
      for (let b = 0; b <= a; b++) {
        const { right } = solved[a]!;
        const { x } = solved[b]!;
        const re = right.re.reduce((sum, value, k) => sum + value * x.re[k]! - right.im[k]! * x.im[k]!, 0);
        const im = right.re.reduce((sum, value, k) => sum + value * x.im[k]! + right.im[k]! * x.re[k]!, 0);
        expect(forms.re[3 * a + b]).toBeCloseTo(re, 13);
        expect(forms.im[3 * a + b]).toBeCloseTo(im, 13);
      }
    }
  });
});

test.each([
  [3, 4],
  [4, 3],
  [1, 1],
])("products of %i rows with %i rows are the sums of their entries' products", (rows, count) => {
  const width = 5;
  const a = made(rows * width).re;
  const b = made(count * width);
  const out = complexVector(rows * count);
  const real = new Float64Array(rows * count);
  rowProducts(a, b, { width, count, part: "all" }, out);
  realRowProducts(a, b.im, { width, count, part: "all" }, real);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < count; k++) {
      const plain = (of: Float64Array) => {
        let sum = 0;
        for (let j = 0; j < width; j++) sum += a[i * width + j]! * of[k * width + j]!;
        return sum;
      };
      expect(out.re[i * count + k]).toBeCloseTo(plain(b.re), 14);
      expect(out.im[i * count + k]).toBeCloseTo(plain(b.im), 14);
      expect(real[i * count + k]).toBe(out.im[i * count + k]);
    }
  }
});
