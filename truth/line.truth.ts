/** Straight line with errors in both axes: Pearson's points with York's weights, the usual check of such fits; by York's way and as a formula. */
import { readByFormula } from "../src/core/reading/byFormula.ts";
import { fitLine, type Line } from "../src/core/reading/powerLaw.ts";
import type { TruthRow } from "./row.ts";

const x = [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
const weightX = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1];
const weightY = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500];
const standard = (weights: readonly number[]) => weights.map((weight) => 1 / Math.sqrt(weight));

function line(): Line {
  const found = fitLine({ x, y, standardX: standard(weightX), standardY: standard(weightY) });
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join(" "));
  return found.value;
}

/** The same points as a typed formula: each is moved to the nearest place of the curve. */
function byFormula() {
  const found = readByFormula({
    formula: "y = a + b*x",
    variables: { x },
    y,
    start: { a: 4, b: -1 },
    standard: standard(weightY),
    standardX: { x: standard(weightX) },
  });
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join(" "));
  return found.value.values;
}

const row = (what: string, got: () => number, expected: number, within: number): TruthRow => ({
  what: `Pearson's points with York's weights: ${what}`,
  got,
  expected,
  within,
  why: "digits given",
  origin: "published",
  source: "[york-2004] (from memory, to be confirmed)",
});
const scaled = (what: string, got: () => number, expected: number): TruthRow => ({
  ...row(what, got, expected, 0.5e-4 / expected),
  why: "half the last digit printed",
  source: "[cantrell-2008] (from memory, to be confirmed): by York's formulas, times the root of the reduced sum",
});

export const rows: readonly TruthRow[] = [
  row("slope", () => line().slope, -0.48053341, 1e-8),
  row("intercept", () => line().intercept, 5.47991022, 1e-8),
  row("weighted sum of squares over its degrees of freedom", () => line().reducedSum, 1.4833, 4e-5),
  row("slope by a formula", () => byFormula()["b"]!.value, -0.48053341, 1e-8),
  row("intercept by a formula", () => byFormula()["a"]!.value, 5.47991022, 1e-8),
  scaled("standard uncertainty of the slope", () => line().standardSlope, 0.0706),
  scaled("standard uncertainty of the intercept", () => line().standardIntercept, 0.3592),
  scaled("standard uncertainty of the slope by a formula", () => byFormula()["b"]!.standardUncertainty!, 0.0706),
  scaled("standard uncertainty of the intercept by a formula", () => byFormula()["a"]!.standardUncertainty!, 0.3592),
];
