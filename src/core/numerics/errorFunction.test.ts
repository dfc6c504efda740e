import cephes from "cephes";
import { expect, test } from "vitest";
import { erf, erfc } from "./errorFunction.ts";

test("error function and complement agree with an independent library from -5 to 6", () => {
  for (let x = -5; x <= 6; x += 0.173) {
    expect(Math.abs(erf(x) - cephes.erf(x))).toBeLessThan(2e-15);
    expect(Math.abs(erfc(x) / cephes.erfc(x) - 1)).toBeLessThan(1e-12);
  }
  expect(erfc(40)).toBe(0);
});
