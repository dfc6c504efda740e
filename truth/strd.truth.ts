/**
 * NIST Statistical Reference Datasets: certified regressions, from both starting points, and certified summary statistics.
 * A row gives the digits of agreement, LRE = -log10(|ours - certified| / |certified|), the worst of all values and of their
 * standard deviations; it passes with as many digits as asked for, or more.
 */
import { describeSample } from "../src/core/numerics/describeSample.ts";
import { fitLinear, fitPolynomial, type LinearFit } from "../src/core/numerics/linearFit.ts";
import { fitNonlinear } from "../src/core/numerics/nonlinearFit.ts";
import type { Outcome } from "../src/core/problem.ts";
import { good } from "../tests/outcomes.ts";
import fromMemory from "./data/strdFromMemory.json" with { type: "json" };
import linear from "./data/strdLinear.json" with { type: "json" };
import nonlinear from "./data/strdNonlinear.json" with { type: "json" };
import univariate from "./data/strdUnivariate.json" with { type: "json" };
import type { TruthRow } from "./row.ts";
import { strdModels } from "./strdModels.ts";

/** Digits of agreement; 15 is all that a double holds. Where zero is certified the error itself counts. */
export function digits(ours: number, certified: number): number {
  const error = certified === 0 ? Math.abs(ours) : Math.abs(ours - certified) / Math.abs(certified);
  return Number.isFinite(error) ? Math.min(15, -Math.log10(Math.max(error, 1e-300))) : 0;
}

const worst = (ours: readonly number[], certified: readonly number[]): number =>
  Math.min(...certified.map((value, i) => digits(ours[i] ?? Number.NaN, value)));

/** Solved when it is first asked for. */
function once<T>(solve: () => T): () => T {
  let kept: { readonly value: T } | null = null;
  return () => {
    kept ??= { value: solve() };
    return kept.value;
  };
}

/** A row whose number is the digits of agreement: of the 15 that a double holds, so many are asked for. */
const row = (what: string, asked: number, got: () => number, source: string): TruthRow => ({
  what: `${what}: digits of agreement, ${asked} or more`,
  got,
  expected: 15,
  within: (15 - asked) / 15,
  why: "digits asked for; common practice for a sound program in double precision",
  origin: "certified",
  source,
});

type LinearSet = (typeof linear.sets)[number];
const powers = (set: LinearSet) =>
  set.certified.map((_, k) => Float64Array.from(set.x, (x) => (set.first + k === 0 ? 1 : x ** (set.first + k))));

const linearRows = linear.sets.flatMap((set) => {
  const fits: (readonly [string, number, () => Outcome<LinearFit>])[] = [
    ["powers rounded to double", set.name === "Filip" ? 7 : 9, () => fitLinear({ columns: powers(set), y: set.y })],
  ];
  if (set.first === 0)
    fits.push(["polynomial", 11, () => fitPolynomial({ x: set.x, y: set.y, degree: set.certified.length - 1 })]);
  return fits.flatMap(([how, asked, solve]) => [
    row(`${set.name}, values, ${how}`, asked, () => worst(good(solve()).values, set.certified), linear.source),
    row(
      `${set.name}, standard deviations, ${how}`,
      asked,
      () =>
        worst(
          [...good(solve()).standardUncertainties!, good(solve()).residualStandardDeviation!],
          [...set.standardDeviation, set.residualStandardDeviation],
        ),
      linear.source,
    ),
  ]);
});

/** Sum of squares of Lanczos1 is 1e-25: only its values are compared. */
const nonlinearSets = [nonlinear, fromMemory].flatMap(({ sets, source }) => sets.map((set) => ({ ...set, source })));
const nonlinearRows = nonlinearSets.flatMap((set) =>
  set.starts.flatMap((start, i) => {
    const { model, response } = strdModels[set.name]!;
    const solution = once(() =>
      good(
        fitNonlinear<number | readonly number[]>({
          model,
          start,
          x: set.x as readonly (number | readonly number[])[],
          y: set.y.map(response),
        }),
      ),
    );
    const name = `${set.name}, start ${i + 1}`;
    const rows = [row(`${name}, values`, 6, () => worst(solution().values, set.certified), set.source)];
    if (set.name !== "Lanczos1")
      rows.push(
        row(
          `${name}, standard deviations`,
          6,
          () => worst(solution().standardUncertainties!, set.standardDeviation),
          set.source,
        ),
        row(`${name}, sum of squares`, 9, () => digits(solution().sumOfSquares, set.sumOfSquares), set.source),
      );
    return rows;
  }),
);

const univariateRows = univariate.sets.map((set) =>
  row(
    `${set.name}, mean, standard deviation, autocorrelation`,
    // NumAcc3's 0.1 about 1000000.2: the data themselves are rounded to 1e-10.
    set.name === "NumAcc3" ? 8 : 12,
    () => {
      const { mean, standardDeviation, lagOne } = good(describeSample(set.y));
      return worst([mean, standardDeviation!, lagOne!], [set.mean, set.standardDeviation, set.lag1]);
    },
    univariate.source,
  ),
);

export const rows: readonly TruthRow[] = [...linearRows, ...nonlinearRows, ...univariateRows];
