import { expect, test } from "vitest";
import { fitTheoryCurve, type TheoryCurveQuestion } from "./theoryCurve.ts";

/** A sensitivity that falls with the square of the thickness, as a plate's does; 50 to 200 um in equal ratios. */
const x = Array.from({ length: 41 }, (_, i) => 50e-6 * 4 ** (i / 40));
const curve = { over: "thickness", of: "sensitivity", x, y: x.map((h) => (100e-6 / h) ** 2) } as const;
/** Twice that, off by a thousandth to and fro. */
const read = (thickness: readonly number[]): TheoryCurveQuestion => ({
  curve,
  x: thickness,
  y: thickness.map((h, i) => 2 * (100e-6 / h) ** 2 * (1 + 1e-3 * (-1) ** i)),
});
const said = (question: TheoryCurveQuestion) => {
  const outcome = fitTheoryCurve(question);
  return outcome.ok ? outcome.remarks : outcome.problems;
};

test("a point where nothing could be predicted is refused, with its number and the range", () => {
  expect(said(read([80e-6, 100e-6, 250e-6, 120e-6]))).toMatchObject([
    {
      code: "beyond-curve",
      path: ["x", 2],
      message: expect.stringMatching(/from 0\.0000500 to 0\.000200 m only.*point 3 lies outside; needed: points where/),
    },
  ]);
});

test("specimens of nearly one thickness don't tell a factor from an offset, and the remark says what would", () => {
  expect(said(read([100e-6, 101e-6, 102e-6, 103e-6, 104e-6]))).toMatchObject([
    {
      code: "values-hang-together",
      path: ["values", "factor"],
      message: expect.stringMatching(/factor and offset correlate by (0\.99\d|1\.000):.*Points further apart/),
    },
  ]);
  const apart = read([52e-6, 70e-6, 100e-6, 140e-6, 195e-6]);
  // Known to the same share, so that the thick ones count as much as the thin ones.
  expect(said({ ...apart, standardY: Float64Array.from(apart.y, (one) => 1e-3 * one) })).toEqual([]);
});
