import { expect, test } from "vitest";
import { bondRotation } from "./bond.ts";

const plate = { thickness: 30e-6, stiffness: { q11: 76e9, q12: 16e9, q22: 19e9, q66: 20e9 } };

test("a thinner or stiffer adhesive holds the edge better, by the fourth root", () => {
  const one = bondRotation(plate, { modulus: 3e9, thickness: 16e-6 });
  const thin = bondRotation(plate, { modulus: 3e9, thickness: 1e-6 });
  expect(thin.rotation / one.rotation).toBeCloseTo(2, 12);
  expect(one.reach / thin.reach).toBeCloseTo(2, 12);
});

test("each pair of edges counts the stiffness across it", () => {
  const adhesive = { modulus: 3e9, thickness: 10e-6 };
  const [sides, ends] = [bondRotation(plate, adhesive), bondRotation(plate, adhesive, "ends")];
  expect(ends.rotation / sides.rotation).toBeCloseTo(0.25 ** 0.75, 12);
});

test("a beam under a moment at its end, on springs, turns as the formula says", () => {
  // Finite differences of D w'''' + k' w = 0 over 8 / beta: w'' = -M / D and w''' = 0 at the near end, all free at the far one.
  const adhesive = { modulus: 3e9, thickness: 10e-6 };
  const { rotation, reach } = bondRotation(plate, adhesive);
  const d = (76e9 * plate.thickness ** 3) / 12;
  const foundation = adhesive.modulus / adhesive.thickness;
  const n = 800;
  const step = (8 * reach) / n;
  // Energy of beam and springs, minimized: D / 2 sum (second differences)^2 + k' / 2 sum w^2 - M w'(0).
  const size = n + 1;
  const band = Array.from({ length: size }, () => new Float64Array(3));
  const right = new Float64Array(size);
  for (let i = 0; i < size; i++) band[i]![0] = foundation * step * (i === 0 || i === n ? 0.5 : 1);
  const weights = [1, -2, 1];
  for (let i = 1; i < n; i++)
    for (let r = 0; r < 3; r++)
      for (let c = r; c < 3; c++) band[i - 1 + c]![c - r]! += (d / step ** 3) * weights[r]! * weights[c]!;
  right[0] = -1 / step;
  right[1] = 1 / step;
  // Band Cholesky, rows hold the diagonal and two entries to its left.
  for (let i = 0; i < size; i++) {
    for (let k = Math.min(2, i); k >= 0; k--) {
      let sum = band[i]![k]!;
      for (let m = 1; m + k <= 2 && i - k - m >= 0; m++) sum -= band[i]![k + m]! * band[i - k]![m]!;
      band[i]![k] = k === 0 ? Math.sqrt(sum) : sum / band[i - k]![0]!;
    }
  }
  const w = right.slice();
  for (let i = 0; i < size; i++) {
    for (let k = 1; k <= 2 && k <= i; k++) w[i]! -= band[i]![k]! * w[i - k]!;
    w[i]! /= band[i]![0]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = 1; k <= 2 && i + k < size; k++) w[i]! -= band[i + k]![k]! * w[i + k]!;
    w[i]! /= band[i]![0]!;
  }
  const turned = (w[1]! - w[0]!) / step;
  expect(Math.abs(1 / turned / rotation)).toBeCloseTo(1, 1.7);
});
