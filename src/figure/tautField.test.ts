import { expect, test } from "vitest";
import { tautField } from "./tautField.ts";

const [columns, rows] = [13, 9];
const grid = (value: (x: number, y: number) => number | null) => ({
  columns,
  rows,
  values: Array.from({ length: columns * rows }, (_, at) => value(at % columns, Math.floor(at / columns))),
});
/** Below zero on the right of a slanted line. */
const slanted = (x: number, y: number) => 0.8 * (y + 2.3) - x;

test("where values go straight, the zero line is where they are zero", () => {
  const { lines, valueAt } = tautField(grid(slanted));
  expect(lines).toHaveLength(1);
  for (const [x, y] of lines[0]!) expect(slanted(x, y)).toBeCloseTo(0, 9);
  expect(valueAt(3.3, 2.6)).toBeCloseTo(slanted(3.3, 2.6), 9);
});

test("where values jump, the line is pulled straight between the points, and no point changes sides", () => {
  const given = grid((x, y) => (slanted(x, y) >= 0 ? 0.1 : -3));
  const { lines, valueAt } = tautField(given);
  expect(lines).toHaveLength(1);
  const [line] = lines;
  const [first, last] = [line![0]!, line!.at(-1)!];
  const length = line!.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - line![i]![0], y - line![i]![1]), 0);
  expect(length / Math.hypot(last[0] - first[0], last[1] - first[1])).toBeLessThan(1.01);
  for (const [at, value] of given.values.entries())
    expect(Math.sign(valueAt(at % columns, Math.floor(at / columns))!), `point ${at}`).toBe(Math.sign(value!));
});

test("an island closes, and beside a point without a value there is none", () => {
  const { lines, valueAt } = tautField(grid((x, y) => (x === 0 ? null : 2.5 - Math.hypot(x - 6, y - 4))));
  expect(lines).toHaveLength(1);
  expect(lines[0]!.at(-1)).toEqual(lines[0]![0]);
  expect(valueAt(0.5, 3)).toBeNull();
  expect(valueAt(6, 4)).toBeCloseTo(2.5, 9);
});
