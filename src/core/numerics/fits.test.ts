import { expect, test } from "vitest";
import { describeSample } from "./describeSample.ts";
import { fitLinear } from "./linearFit.ts";
import { fitNonlinear } from "./nonlinearFit.ts";

const codes = (outcome: {
  readonly ok: boolean;
  readonly problems?: readonly { readonly code: string }[];
  readonly remarks?: readonly { readonly code: string }[];
}) => (outcome.ok ? outcome.remarks : outcome.problems)?.map(({ code }) => code);
const line = ([a, b]: readonly number[], x: number) => a! + b! * x;

test("a linear fit names all that stands in its way", () => {
  expect(
    codes(
      fitLinear({
        columns: [
          [1, 1, 1],
          [1, 2],
        ],
        y: [1, 2, Number.NaN],
      }),
    ),
  ).toEqual(["columns-unequal", "not-finite"]);
  expect(
    codes(
      fitLinear({
        columns: [
          [1, 2, 3],
          [2, 4, 6],
        ],
        y: [1, 2, 3],
      }),
    ),
  ).toEqual(["columns-dependent"]);
  expect(codes(fitLinear({ columns: [[1], [2]], y: [1] }))).toEqual(["too-few-points"]);
  expect(codes(fitLinear({ columns: [[1, 2]], y: [1, 2], standard: [1, 0] }))).toEqual(["wrong-standard"]);
});

test("a nonlinear fit too, and it says where it stopped", () => {
  expect(codes(fitNonlinear({ model: line, start: [0, 0], x: [1, 2], y: [1] }))).toEqual([
    "columns-unequal",
    "too-few-points",
  ]);
  expect(codes(fitNonlinear({ model: () => Number.NaN, start: [0], x: [1, 2], y: [1, 2] }))).toEqual([
    "model-not-finite",
  ]);
  expect(codes(fitNonlinear({ model: line, start: [0, 0], x: [1, 2, 3], y: [1, 2, 3], standard: [1, -1, 1] }))).toEqual(
    ["wrong-standard"],
  );
  expect(codes(fitNonlinear({ model: line, start: [0, 0], x: [1, 2, 3], y: [1, 2, 3.1], upper: [5, 0.5] }))).toEqual([
    "value-at-bound",
  ]);
  expect(codes(fitNonlinear({ model: ([a, b]) => a! + b!, start: [0, 0], x: [1, 2, 3], y: [1, 2, 3] }))).toContain(
    "values-not-told-apart",
  );
  expect(
    codes(
      fitNonlinear({
        model: ([a, b, c], x: number) => a! * Math.exp(b! / (x + c!)),
        start: [2, 4e5, 25000],
        x: Array.from({ length: 16 }, (_, i) => 50 + 5 * i),
        y: Array.from({ length: 16 }, (_, i) => 0.0056 * Math.exp(6181 / (395 + 5 * i))),
        maxSteps: 3,
      }),
    ),
  ).toContain("not-converged");
});

test("a sample of nothing, or of what is no number, is refused", () => {
  expect(codes(describeSample([]))).toEqual(["empty"]);
  expect(codes(describeSample([1, Number.POSITIVE_INFINITY]))).toEqual(["not-finite"]);
  expect(describeSample([3, 3])).toMatchObject({ value: { mean: 3, standardDeviation: 0, lagOne: null } });
});
