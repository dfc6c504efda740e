import { expect, test } from "vitest";
import { decimated } from "./decimate.ts";

test("a million samples become two thousand points, and a single spike stays", () => {
  const y = Float64Array.from({ length: 1_000_000 }, (_, i) => Math.sin(i / 1000));
  y[123_457] = 5;
  y[765_432] = -7;
  const kept = decimated(y, 1000);
  expect(kept.length).toBeLessThanOrEqual(2000);
  expect([kept.includes(123_457), kept.includes(765_432)]).toEqual([true, true]);
  expect(kept.every((at, i) => i === 0 || at > kept[i - 1]!)).toBe(true);
});

test("few samples are all drawn, missing ones pass", () => {
  expect(Array.from(decimated([1, 2, 3], 10))).toEqual([0, 1, 2]);
  expect(Array.from(decimated([1, Number.NaN, 3, Number.NaN, Number.NaN, 4], 2))).toEqual([0, 2, 5]);
});
