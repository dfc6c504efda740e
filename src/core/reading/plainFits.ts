/**
 * Fits of plain tables: a polynomial, a plane through several predictors, and what a list of numbers says.
 * Values stand in the units of the table.
 */
import { describeSample } from "../numerics/describeSample.ts";
import { fitLinear, fitPolynomial } from "../numerics/linearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { ofLinear, type PlainReading } from "./plainReading.ts";
import { coverageOfIntervals, readValue } from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

type Numbers = ArrayLike<number>;

/** y = b0 + b1 x + ... + bn x^n. Problems: those of `fitPolynomial`, `degree-missing`. */
export function readPolynomial(x: Numbers, y: Numbers, degree: number, standard?: Numbers): Outcome<PlainReading> {
  if (!Number.isInteger(degree) || degree < 0 || degree > 30)
    return refuse({
      code: "degree-missing",
      path: ["degree"],
      message: `Degree of the polynomial: ${degree}; needed: a whole number from 0 to 30.`,
    });
  const fit = fitPolynomial({ x, y, degree, ...(standard && { standard }) });
  return fit.ok ? answer(ofLinear("polynomial", fit.value, numbered(degree + 1, 0), y), fit.remarks) : fit;
}

/** y = b0 + b1 x1 + b2 x2 + ...; without b0 where `throughZero`. Problems: those of `fitLinear`. */
export function readPlane(
  columns: readonly Numbers[],
  y: Numbers,
  { throughZero = false, standard }: { readonly throughZero?: boolean; readonly standard?: Numbers } = {},
): Outcome<PlainReading> {
  const all = throughZero ? columns : [new Float64Array(y.length).fill(1), ...columns];
  const fit = fitLinear({ columns: all, y, ...(standard && { standard }) });
  return fit.ok
    ? answer(ofLinear("linear", fit.value, numbered(all.length, throughZero ? 1 : 0), y), fit.remarks)
    : fit;
}

const numbered = (count: number, first: number) => Array.from({ length: count }, (_, i) => `b${first + i}`);

/** Mean, standard deviation and autocorrelation at a lag of one of a list. Problems: those of `describeSample`. */
export function readStatistics(y: Numbers): Outcome<PlainReading> {
  const described = describeSample(y);
  if (!described.ok) return described;
  const { count, mean, standardDeviation, standardUncertaintyOfMean, lagOne } = described.value;
  const degreesOfFreedom = count - 1;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const residuals = Float64Array.from(y, (value) => value - mean);
  // Of a standard deviation and of a lag-one correlation of white noise: for many numbers.
  const remarks: Problem[] =
    lagOne !== null && Math.abs(lagOne) > 2 / Math.sqrt(count)
      ? [
          {
            code: "not-independent",
            path: ["lagOne"],
            message: `Neighbors correlate by ${lagOne.toFixed(2)}: the numbers are not independent, and the uncertainty of the mean is ${lagOne > 0 ? "larger" : "smaller"} than said.`,
          },
        ]
      : [];
  return answer(
    {
      kind: "statistics",
      values: {
        mean: readValue(mean, standardUncertaintyOfMean, factor),
        ...(standardDeviation !== null && {
          standardDeviation: readValue(standardDeviation, standardDeviation / Math.sqrt(2 * degreesOfFreedom), factor),
        }),
        ...(lagOne !== null && { lagOne: readValue(lagOne, 1 / Math.sqrt(count), factor) }),
      },
      correlation: null,
      residuals: residualsOf(residuals),
      residualStandardDeviation: standardDeviation,
      sumOfSquares: residuals.reduce((sum, one) => sum + one * one, 0),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped: "converged",
      steps: 1,
      minima: null,
      model: new Float64Array(count).fill(mean),
    },
    remarks,
  );
}
