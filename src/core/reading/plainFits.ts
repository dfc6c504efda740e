/**
 * Fits of plain tables: a polynomial, a plane through several predictors, a typed formula, and what a list of numbers says.
 * Values stand in the units of the table.
 */
import { describeSample } from "../numerics/describeSample.ts";
import { readFormula } from "../numerics/formula.ts";
import { fitLinear, fitPolynomial, type LinearFit } from "../numerics/linearFit.ts";
import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type Correlation, coverageOfIntervals, type ReadValue, type Residuals, readValue } from "./reading.ts";
import { whitenessOf } from "./whiteness.ts";

type Numbers = ArrayLike<number>;

export interface PlainReading {
  readonly kind: "polynomial" | "linear" | "formula" | "statistics";
  /** By the names of the parameters: b0, b1, ... of a polynomial and a plane; those of the formula; mean, standardDeviation, lagOne. */
  readonly values: Readonly<Record<string, ReadValue>>;
  readonly correlation: Correlation | null;
  readonly residuals: Residuals;
  /** sqrt(sum of squares / degrees of freedom); null without a degree of freedom. */
  readonly residualStandardDeviation: number | null;
  readonly coverage: number;
  readonly degreesOfFreedom: number;
  readonly stopped: string;
  readonly steps: number;
  readonly model: Float64Array;
}

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

/**
 * A typed formula of the named variables. Where it is linear in its parameters it is solved as such and needs no start.
 *
 * Problems: those of `readFormula`, `fitLinear` and `fitNonlinear`, `start-missing`, `start-unknown`. Remarks: those of the fit.
 */
export function readByFormula({
  formula: text,
  variables,
  y,
  start,
  standard,
}: {
  readonly formula: string;
  readonly variables: Readonly<Record<string, Numbers>>;
  readonly y: Numbers;
  readonly start: Readonly<Record<string, number>>;
  readonly standard?: Numbers;
}): Outcome<PlainReading> {
  const read = readFormula(text, Object.keys(variables));
  if (!read.ok) return read;
  const { parameters, variables: used, value, slopes, response } = read.value;
  const points = Array.from({ length: y.length }, (_, i) => used.map((name) => variables[name]![i]!));
  const seen = Float64Array.from(y, response);
  const unknown = Object.keys(start).filter((name) => !parameters.includes(name));
  if (unknown.length > 0)
    return refuse({
      code: "start-unknown",
      path: ["start"],
      message: `The start names ${unknown.join(", ")}; the formula has ${parameters.join(", ")}.`,
    });
  const flat = linearIn(read.value, points);
  if (flat !== null) {
    const columns = parameters.map((_, k) => flat.map((row) => row[k]!));
    const rest = points.map((x, i) => seen[i]! - value(new Array<number>(parameters.length).fill(0), x));
    const fit = fitLinear({ columns, y: rest, ...(standard && { standard }) });
    return fit.ok ? answer(ofLinear("formula", fit.value, parameters, seen), fit.remarks) : fit;
  }
  const missing = parameters.filter((name) => !(name in start));
  if (missing.length > 0)
    return refuse({
      code: "start-missing",
      path: ["start"],
      message: `No start is given for ${missing.join(", ")}; needed: about how large each parameter is, such as "${parameters.map((name) => `${name}=1`).join(", ")}".`,
    });
  const fit = fitNonlinear({
    model: value,
    derivatives: slopes,
    start: parameters.map((name) => start[name]!),
    x: points,
    y: seen,
    ...(standard && { standard }),
  });
  if (!fit.ok) return fit;
  const { values, standardUncertainties, covariance, residuals, degreesOfFreedom, stopped, steps } = fit.value;
  const { residualStandardDeviation, sumOfSquares } = fit.value;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  return answer(
    {
      kind: "formula",
      values: named(parameters, (i) => readValue(values[i]!, standardUncertainties?.[i] ?? null, factor)),
      correlation: correlationOf(parameters, covariance),
      residuals: { rms: rms(residuals), whiteness: whitenessOf(residuals) },
      residualStandardDeviation: residualStandardDeviation ?? (sumOfSquares === 0 ? 0 : null),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped,
      steps,
      model: Float64Array.from(points, (x) => value(values, x)),
    },
    fit.remarks,
  );
}

/** The slopes at each point where they are the same wherever the parameters are; else null. */
function linearIn(
  {
    parameters,
    slopes,
  }: {
    readonly parameters: readonly string[];
    readonly slopes: (b: readonly number[], x: readonly number[]) => number[];
  },
  points: readonly (readonly number[])[],
): readonly number[][] | null {
  const places = [0.37, 1.93, 4.1].map((first) => parameters.map((_, i) => first + 0.61 * i));
  const rows: number[][] = [];
  for (const x of points) {
    const [row, ...others] = places.map((b) => slopes(b, x));
    if (!row!.every(Number.isFinite)) return null;
    if (others.some((other) => other.some((one, k) => !(Math.abs(one - row![k]!) <= 1e-14 * Math.abs(row![k]!)))))
      return null;
    rows.push(row!);
  }
  return rows;
}

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
      residuals: { rms: rms(residuals), whiteness: whitenessOf(residuals) },
      residualStandardDeviation: standardDeviation,
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped: "converged",
      steps: 1,
      model: new Float64Array(count).fill(mean),
    },
    remarks,
  );
}

function ofLinear(kind: PlainReading["kind"], fit: LinearFit, names: readonly string[], y: Numbers): PlainReading {
  const { values, standardUncertainties, covariance, residuals, degreesOfFreedom, residualStandardDeviation } = fit;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  return {
    kind,
    values: named(names, (i) => readValue(values[i]!, standardUncertainties?.[i] ?? null, factor)),
    correlation: correlationOf(names, covariance),
    residuals: { rms: rms(residuals), whiteness: whitenessOf(residuals) },
    residualStandardDeviation,
    coverage: coverageOfIntervals,
    degreesOfFreedom,
    stopped: "converged",
    steps: 1,
    model: residuals.map((rest, i) => y[i]! - rest),
  };
}

const named = (names: readonly string[], value: (i: number) => ReadValue) =>
  Object.fromEntries(names.map((name, i) => [name, value(i)]));

const rms = (residuals: Float64Array) =>
  Math.sqrt(residuals.reduce((sum, one) => sum + one * one, 0) / Math.max(1, residuals.length));

function correlationOf(names: readonly string[], covariance: Float64Array | null): Correlation | null {
  if (covariance === null) return null;
  const size = names.length;
  return {
    names,
    matrix: Array.from(
      covariance,
      (value, k) =>
        value / Math.sqrt(covariance[Math.floor(k / size) * (size + 1)]! * covariance[(k % size) * (size + 1)]!),
    ),
  };
}
