import { expect, test } from "vitest";
import { seededUniform } from "./random.ts";
import {
  fillOwnProducts,
  fillProducts,
  realWeightedSums,
  roomForSums,
  sumTable,
  weightedSums,
} from "./weightedSums.ts";

test("sums of products with complex or real weights are those of the definition, whatever is left over of four", () => {
  const random = seededUniform(11);
  const list = (length: number) => Float64Array.from({ length }, () => random() - 0.5);
  for (const [rows, width] of [
    [1, 3],
    [2, 5],
    [5, 4],
    [3, 0],
  ] as const) {
    const [a, b, weights] = [list(rows * width), list(width), { re: list(width), im: list(width) }];
    const ownTable = sumTable((rows * (rows + 1)) / 2, width);
    fillOwnProducts(ownTable, a);
    const own = roomForSums(ownTable.count);
    weightedSums(ownTable, weights, own);
    const mixedTable = sumTable(rows, width);
    fillProducts(mixedTable, a, b);
    const mixed = roomForSums(rows);
    realWeightedSums(mixedTable, weights.re, mixed.re);
    const sum = (i: number, other: Float64Array, k: number, by: Float64Array) =>
      by.reduce((total, weight, j) => total + a[i * width + j]! * other[k * width + j]! * weight, 0);
    let at = 0;
    for (let i = 0; i < rows; i++) {
      for (let k = 0; k <= i; k++, at++) {
        expect(own.re[at]).toBeCloseTo(sum(i, a, k, weights.re), 14);
        expect(own.im[at]).toBeCloseTo(sum(i, a, k, weights.im), 14);
      }
      expect(mixed.re[i]).toBeCloseTo(sum(i, b, 0, weights.re), 14);
    }
  }
});
