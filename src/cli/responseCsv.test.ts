import { expect, test } from "vitest";
import { responseCsv } from "./responseCsv.ts";

test("the response as CSV carries its units, all digits, and no level where there is no signal", () => {
  // By hand: 3, 4, 5 is a right triangle; atan2(4e-3, -3e-3) = 126.8698976 deg.
  const text = responseCsv({ frequency: [100, 1000], re: [-3e-3, 0], im: [4e-3, 0], groupDelay: null });
  const [header, first, second, end] = text.split("\r\n");
  expect(header?.split(",").every((name) => /\[.+\]$/.test(name))).toBe(true);
  expect(first).toMatch(/^100,-0\.003,0\.004,0\.005,-46\.02059991\d*,126\.8698976\d*$/);
  expect(second).toBe("1000,0,0,0,,0");
  expect(end).toBe("");
});
