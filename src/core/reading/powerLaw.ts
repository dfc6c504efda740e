/**
 * Power laws in log-log, with errors in both axes: ln y = ln c + n ln x.
 * The line is York's, by his iteration; without errors in x it is the weighted line. Source: [york-2004].
 */

import { describeSample } from "../numerics/describeSample.ts";
import { pow } from "../numerics/power.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { coverageOfIntervals, type FitEvidence, type ReadValue, readValue } from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

type Numbers = ArrayLike<number>;

export interface LineQuestion {
  readonly x: Numbers;
  readonly y: Numbers;
  /** Standard uncertainties; none in x and alike in y where absent. */
  readonly standardX?: Numbers;
  readonly standardY?: Numbers;
}

export interface Line {
  readonly slope: number;
  readonly intercept: number;
  readonly standardSlope: number;
  readonly standardIntercept: number;
  readonly covariance: number;
  /** Weighted sum of squares over the degrees of freedom; about 1 where the uncertainties are right. */
  readonly reducedSum: number;
  readonly steps: number;
}

/** Straight line with errors in both axes. Problems: `columns-unequal`, `too-few-points`, `not-finite`, `all-equal`. */
export function fitLine(question: LineQuestion): Outcome<Line> {
  const { x, y, standardX, standardY } = question;
  const problems = checkLists(question);
  if (problems.length > 0) return refuse(...problems);
  const count = x.length;
  const wx = (i: number) => (standardX === undefined ? Number.POSITIVE_INFINITY : 1 / standardX[i]! ** 2);
  const wy = (i: number) => (standardY === undefined ? 1 : 1 / standardY[i]! ** 2);
  let slope = plainSlope(x, y);
  let steps = 0;
  let last = { xBar: 0, yBar: 0, sum: 0, beta: new Float64Array(count), weight: new Float64Array(count) };
  for (; steps < 200; steps++) {
    last = sums(x, y, wx, wy, slope);
    const { xBar, yBar, beta, weight } = last;
    let [top, below] = [0, 0];
    for (let i = 0; i < count; i++) {
      top += weight[i]! * beta[i]! * (y[i]! - yBar);
      below += weight[i]! * beta[i]! * (x[i]! - xBar);
    }
    const next = top / below;
    const done = Math.abs(next - slope) <= 1e-15 * Math.abs(next);
    slope = next;
    if (done) break;
  }
  const { xBar, yBar, sum, beta, weight } = last;
  const intercept = yBar - slope * xBar;
  // Adjusted points: x_i = xBar + beta_i.
  let adjusted = 0;
  for (let i = 0; i < count; i++) adjusted += weight[i]! * (xBar + beta[i]!);
  adjusted /= sum;
  let spread = 0;
  for (let i = 0; i < count; i++) spread += weight[i]! * (xBar + beta[i]! - adjusted) ** 2;
  let squares = 0;
  for (let i = 0; i < count; i++) squares += weight[i]! * (y[i]! - slope * x[i]! - intercept) ** 2;
  const reducedSum = count > 2 ? squares / (count - 2) : 0;
  const scale = standardY === undefined ? Math.sqrt(reducedSum) : Math.max(1, Math.sqrt(reducedSum));
  const standardSlope = scale / Math.sqrt(spread);
  return answer({
    slope,
    intercept,
    standardSlope,
    standardIntercept: scale * Math.sqrt(1 / sum + adjusted ** 2 / spread),
    covariance: -adjusted * standardSlope ** 2,
    reducedSum,
    steps,
  });
}

function sums(x: Numbers, y: Numbers, wx: (i: number) => number, wy: (i: number) => number, slope: number) {
  const count = x.length;
  const weight = Float64Array.from({ length: count }, (_, i) => {
    const [a, b] = [wx(i), wy(i)];
    return Number.isFinite(a) ? (a * b) / (a + slope * slope * b) : b;
  });
  let [sum, xBar, yBar] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    sum += weight[i]!;
    xBar += weight[i]! * x[i]!;
    yBar += weight[i]! * y[i]!;
  }
  xBar /= sum;
  yBar /= sum;
  const beta = weight.map((w, i) => {
    const [u, v] = [x[i]! - xBar, y[i]! - yBar];
    const a = wx(i);
    return Number.isFinite(a) ? w * (u / wy(i) + (slope * v) / a) : u;
  });
  return { xBar, yBar, sum, beta, weight };
}

function plainSlope(x: Numbers, y: Numbers): number {
  const list = Array.from(x);
  const [mx, my] = [mean(list), mean(Array.from(y))];
  const top = list.reduce((total, value, i) => total + (value - mx) * (y[i]! - my), 0);
  return top / list.reduce((total, value) => total + (value - mx) ** 2, 0);
}

const mean = (list: readonly number[]) => {
  const described = describeSample(list);
  return described.ok ? described.value.mean : 0;
};

function checkLists(lists: LineQuestion): Problem[] {
  const problems: Problem[] = [];
  for (const [name, list] of Object.entries(lists) as [string, Numbers | undefined][]) {
    if (list === undefined) continue;
    if (list.length !== lists.x.length)
      problems.push({
        code: "columns-unequal",
        path: [name],
        message: `${name} has ${list.length} numbers for ${lists.x.length} points; needed: one for each.`,
      });
    const bad = Array.from(list).findIndex(
      (value) => !Number.isFinite(value) || (name.startsWith("standard") && !(value > 0)),
    );
    if (bad >= 0)
      problems.push({
        code: "not-finite",
        path: [name, bad],
        message: `${name}[${bad}] is ${list[bad]}; needed: a number${name.startsWith("standard") ? " above zero" : ""}.`,
      });
  }
  if (lists.x.length < 3)
    problems.push({
      code: "too-few-points",
      path: ["x"],
      message: `Points found: ${lists.x.length}; needed: three or more for a line and its uncertainty.`,
    });
  else if (new Set(Array.from(lists.x)).size < 2)
    problems.push({
      code: "all-equal",
      path: ["x"],
      message: `All points lie at ${lists.x[0]}; needed: two or more different places.`,
    });
  return problems;
}

export interface PowerLaw extends FitEvidence {
  readonly kind: "power-law";
  readonly values: { readonly exponent: ReadValue; readonly factor: ReadValue };
  readonly reducedSum: number;
  /** y of the law at each x. */
  readonly model: Float64Array;
}

/** Fits y = factor x^exponent. Problems: those of `fitLine`, `not-positive`. Remark: `scatter-beyond-uncertainty`. */
export function fitPowerLaw(question: LineQuestion): Outcome<PowerLaw> {
  const { x, y, standardX, standardY } = question;
  const bad = [...Array.from(x), ...Array.from(y)].findIndex((value) => !(value > 0));
  if (bad >= 0 && x.length === y.length)
    return refuse({
      code: "not-positive",
      path: [bad < x.length ? "x" : "y", bad % x.length],
      message: `Point ${(bad % x.length) + 1} is zero or less; needed: positive numbers, whose logarithms are taken.`,
    });
  const relative = (values: Numbers, standard: Numbers) => Array.from(standard, (value, i) => value / values[i]!);
  const line = fitLine({
    x: Array.from(x, Math.log),
    y: Array.from(y, Math.log),
    ...(standardX && { standardX: relative(x, standardX) }),
    ...(standardY && { standardY: relative(y, standardY) }),
  });
  if (!line.ok) return line;
  const { slope, intercept, standardSlope, standardIntercept, reducedSum, steps } = line.value;
  const degreesOfFreedom = x.length - 2;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, degreesOfFreedom);
  const c = Math.exp(intercept);
  const model = Float64Array.from(x, (value) => c * pow(value, slope));
  const residuals = model.map((value, i) => y[i]! - value);
  const half = factor * standardIntercept;
  const law: PowerLaw = {
    kind: "power-law",
    values: {
      exponent: readValue(slope, standardSlope, factor),
      factor: {
        value: c,
        standardUncertainty: c * standardIntercept,
        low: c * Math.exp(-half),
        high: c * Math.exp(half),
      },
    },
    residuals: residualsOf(residuals),
    coverage: coverageOfIntervals,
    degreesOfFreedom,
    reducedSum,
    stopped: steps < 200 ? "converged" : "too-many-steps",
    steps,
    model,
  };
  const scattered = standardY !== undefined && reducedSum > 3;
  return answer(
    law,
    scattered
      ? [
          {
            code: "scatter-beyond-uncertainty",
            path: ["standardY"],
            message: `The points scatter ${Math.sqrt(reducedSum).toPrecision(2)} times as much as their uncertainties say; the interval was widened. Are the specimens of one kind?`,
          },
        ]
      : [],
  );
}
