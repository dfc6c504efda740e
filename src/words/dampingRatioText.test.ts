import { expect, test } from "vitest";
import { dampingRatioText } from "./dampingRatioText.ts";

test("a damping ratio has three digits, and what is below the poles' own error is none", () => {
  expect([0.5382, 0.002, 4e-6].map(dampingRatioText)).toEqual(["0.538", "0.00200", "4.00 × 10⁻⁶"]);
  expect([7e-25, -3e-12].map(dampingRatioText)).toEqual(["0", "0"]);
});
