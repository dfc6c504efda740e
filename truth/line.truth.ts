/** Straight line with errors in both axes: Pearson's points with York's weights, the usual check of such fits. */
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

const row = (what: string, got: () => number, expected: number, within: number): TruthRow => ({
  what: `Pearson's points with York's weights: ${what}`,
  got,
  expected,
  within,
  why: "digits given",
  origin: "published",
  source: "[york-2004] (from memory, to be confirmed)",
});

export const rows: readonly TruthRow[] = [
  row("slope", () => line().slope, -0.48053341, 1e-8),
  row("intercept", () => line().intercept, 5.47991022, 1e-8),
  row("weighted sum of squares over its degrees of freedom", () => line().reducedSum, 1.4833, 4e-5),
];
