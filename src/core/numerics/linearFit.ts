/**
 * Linear least squares: modified Gram-Schmidt in double-double arithmetic, so that the answer is right to the last digits
 * of the data even where the columns are nearly dependent. Gram-Schmidt with the observations as one more column is as
 * stable as Householder's way: Bjorck 1967 (from memory, to be confirmed).
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import {
  type DoubleDouble,
  type DoubleDoubles,
  ddAdd,
  ddDivide,
  ddDot,
  ddMultiply,
  ddNegative,
  ddSubtractMultiple,
  ddZeros,
} from "./doubleDouble.ts";
import { type LeastSquares, notFinite, unequal, wrongStandard } from "./leastSquares.ts";

type Numbers = ArrayLike<number>;

export interface LinearFitQuestion {
  /** One list a column of the design, each as long as `y`; a constant is a column of ones. */
  readonly columns: readonly Numbers[];
  readonly y: Numbers;
  /** Standard uncertainty of each y, in its unit. Absent: all alike, and taken from the residuals. */
  readonly standard?: Numbers;
}

export type LinearFit = LeastSquares;

/** A column whose part outside the earlier ones is less than this share of it (squared) adds nothing. */
const dependentShare = 1e-30;

/**
 * Fits y = sum values_j column_j.
 *
 * Problems: `columns-unequal`, `not-finite`, `too-few-points`, `columns-dependent`, `wrong-standard`.
 * Source: checked against NIST StRD (truth/strd.truth.ts).
 */
export function fitLinear({ columns, y, standard }: LinearFitQuestion): Outcome<LinearFit> {
  const problems = check(columns, y, standard);
  if (problems.length > 0) return refuse(...problems);
  return solve(columns.map(plain), plain(y), y, standard);
}

/** Fits y = sum values_k x^k, k from 0 to `degree`; the powers too carry 31 digits. Problems: as `fitLinear`. */
export function fitPolynomial({
  x,
  y,
  degree,
  standard,
}: {
  readonly x: Numbers;
  readonly y: Numbers;
  readonly degree: number;
  readonly standard?: Numbers;
}): Outcome<LinearFit> {
  const problems = check([x], y, standard).filter(({ code }) => code !== "too-few-points");
  if (y.length < degree + 1) problems.push(tooFew(y.length, degree + 1));
  if (problems.length > 0) return refuse(...problems);
  const powers: DoubleDoubles[] = [plain(new Float64Array(y.length).fill(1))];
  for (let k = 1; k <= degree; k++) powers.push(timesNumbers(powers[k - 1]!, x));
  return solve(powers, plain(y), y, standard);
}

function check(columns: readonly Numbers[], y: Numbers, standard: Numbers | undefined): Problem[] {
  const lists: readonly (readonly [string, Numbers])[] = [
    ...columns.map((column, i) => [`columns[${i}]`, column] as const),
    ["y", y],
    ...(standard === undefined ? [] : [["standard", standard] as const]),
  ];
  const problems = lists.flatMap(([name, list]) => [...unequal(name, list.length, y.length), ...notFinite(name, list)]);
  problems.push(...wrongStandard(standard));
  if (y.length < columns.length || columns.length === 0) problems.push(tooFew(y.length, Math.max(1, columns.length)));
  return problems;
}

const tooFew = (found: number, needed: number): Problem => ({
  code: "too-few-points",
  path: ["y"],
  message: `Points found: ${found}; needed: ${needed} or more, one for each value that is sought.`,
});

const plain = (list: Numbers): DoubleDoubles => ({
  high: Float64Array.from(list),
  low: new Float64Array(list.length),
});

function timesNumbers(a: DoubleDoubles, factors: Numbers): DoubleDoubles {
  const out = ddZeros(a.high.length);
  for (let i = 0; i < a.high.length; i++) {
    const product = ddMultiply({ high: a.high[i]!, low: a.low[i]! }, { high: factors[i]!, low: 0 });
    out.high[i] = product.high;
    out.low[i] = product.low;
  }
  return out;
}

function solve(
  columns: DoubleDoubles[],
  right: DoubleDoubles,
  y: Numbers,
  standard: Numbers | undefined,
): Outcome<LinearFit> {
  const count = columns.length;
  // A power of two keeps every digit; the weights themselves are rounded once.
  const weights = standard === undefined ? null : Float64Array.from(standard, (value) => 1 / value);
  const q = weights === null ? columns : columns.map((column) => timesNumbers(column, weights));
  const rest = weights === null ? right : timesNumbers(right, weights);
  const zero: DoubleDouble = { high: 0, low: 0 };
  const triangle: DoubleDouble[][] = q.map(() => new Array(count).fill(zero));
  const projected: DoubleDouble[] = [];
  const norms: DoubleDouble[] = [];
  const original = q.map((column) => ddDot(column, column).high);
  for (let k = 0; k < count; k++) {
    const norm = ddDot(q[k]!, q[k]!);
    if (!(norm.high > dependentShare * original[k]!)) return refuse(dependent(k));
    norms.push(norm);
    for (let j = k + 1; j < count; j++) {
      const share = ddDivide(ddDot(q[k]!, q[j]!), norm);
      triangle[k]![j] = share;
      ddSubtractMultiple(q[j]!, share, q[k]!);
    }
    const share = ddDivide(ddDot(q[k]!, rest), norm);
    projected.push(share);
    ddSubtractMultiple(rest, share, q[k]!);
  }
  const inverse = inverseOfUnitTriangle(triangle);
  const values = inverse.map((row) => sumOfProducts(row, projected));
  return answer(finish({ values, inverse, norms, rest, y, weights }));
}

const dependent = (column: number): Problem => ({
  code: "columns-dependent",
  path: ["columns", column],
  message: `Column ${column} is zero or a sum of the columns before it; their values can't be told apart. Leave one out.`,
});

function inverseOfUnitTriangle(triangle: readonly (readonly DoubleDouble[])[]): DoubleDouble[][] {
  const count = triangle.length;
  const inverse: DoubleDouble[][] = triangle.map((_, i) =>
    Array.from({ length: count }, (__, j) => ({ high: i === j ? 1 : 0, low: 0 })),
  );
  for (let i = count - 1; i >= 0; i--)
    for (let j = i + 1; j < count; j++) {
      let sum: DoubleDouble = { high: 0, low: 0 };
      for (let k = i + 1; k <= j; k++) sum = ddAdd(sum, ddMultiply(triangle[i]![k]!, inverse[k]![j]!));
      inverse[i]![j] = ddNegative(sum);
    }
  return inverse;
}

const sumOfProducts = (a: readonly DoubleDouble[], b: readonly DoubleDouble[]): number =>
  a.reduce<DoubleDouble>((sum, value, i) => ddAdd(sum, ddMultiply(value, b[i]!)), { high: 0, low: 0 }).high;

function finish({
  values,
  inverse,
  norms,
  rest,
  y,
  weights,
}: {
  readonly values: readonly number[];
  readonly inverse: readonly (readonly DoubleDouble[])[];
  readonly norms: readonly DoubleDouble[];
  readonly rest: DoubleDoubles;
  readonly y: Numbers;
  readonly weights: Float64Array | null;
}): LinearFit {
  const count = values.length;
  const degreesOfFreedom = y.length - count;
  const sumOfSquares = ddDot(rest, rest).high;
  const variance = degreesOfFreedom > 0 ? sumOfSquares / degreesOfFreedom : null;
  const scale = weights === null ? variance : 1;
  const residuals = weights === null ? rest.high : Float64Array.from(rest.high, (value, i) => value / weights[i]!);
  const shared = {
    values,
    residuals,
    sumOfSquares,
    degreesOfFreedom,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
  };
  if (scale === null) return { ...shared, standardUncertainties: null, covariance: null };
  const covariance = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      let sum: DoubleDouble = { high: 0, low: 0 };
      for (let k = Math.max(i, j); k < count; k++)
        sum = ddAdd(sum, ddDivide(ddMultiply(inverse[i]![k]!, inverse[j]![k]!), norms[k]!));
      covariance[i * count + j] = scale * sum.high;
    }
  const standardUncertainties = values.map((_, i) => Math.sqrt(covariance[i * count + i]!));
  return { ...shared, standardUncertainties, covariance };
}
