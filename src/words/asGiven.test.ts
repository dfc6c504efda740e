import { expect, test } from "vitest";
import { asGiven } from "./asGiven.ts";

test("a value is written with the digits it was given with, degrees right behind the number", () => {
  expect(asGiven(7000, "frequency")).toBe("7\u202fkHz");
  expect(asGiven(-2.6e-3, "length")).toBe("−2.6\u202fmm");
  expect(asGiven(-Math.PI / 4, "angle")).toBe("−45°");
  expect(asGiven(0.4, "ratio")).toBe("0.4");
});
