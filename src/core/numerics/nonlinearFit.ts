/** Nonlinear least squares of a model given as a function: values, uncertainties, correlation, why it stopped. */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import {
  type Linearization,
  type Minimum,
  minimizeSquares,
  type SquaresProblem,
  type Stopped,
} from "./minimizeSquares.ts";
import { inverseOfNormal, reduceToTriangle } from "./triangle.ts";

export interface NonlinearFitQuestion<X> {
  /** The model's value at one point. */
  readonly model: (parameters: readonly number[], x: X) => number;
  /** Derivatives of the model to each parameter at one point; central differences where absent. */
  readonly derivatives?: (parameters: readonly number[], x: X) => ArrayLike<number>;
  readonly start: readonly number[];
  /** Points: numbers, or lists of several predictors. */
  readonly x: ArrayLike<X>;
  readonly y: ArrayLike<number>;
  /** Standard uncertainty of each y, in its unit. Absent: all alike, and taken from the residuals. */
  readonly standard?: ArrayLike<number>;
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** Steps of each try; 10000 where absent. */
  readonly maxSteps?: number;
  /** Ways of going downhill that are tried at most; all where absent. */
  readonly tries?: number;
}

export interface NonlinearFit {
  readonly values: readonly number[];
  /** null where the values can't be told apart, or without a degree of freedom and `standard`. */
  readonly standardUncertainties: readonly number[] | null;
  /** Row-major, as many rows as values. */
  readonly covariance: Float64Array | null;
  /** y less the model, in the unit of y. */
  readonly residuals: Float64Array;
  readonly residualStandardDeviation: number | null;
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
  readonly stopped: Stopped;
  readonly steps: number;
  /** Indices of values that lie at a bound: their uncertainty is not given by the fit. */
  readonly atBound: readonly number[];
}

/** Ways of going downhill, tried until two arrive at the lowest sum: far starts need different cautions. */
const ways = [
  { damping: 1e-3, scaling: "largest" },
  { damping: 1e-3, scaling: "current", reach: 0.5 },
  { damping: 1, scaling: "largest" },
  { damping: 100, scaling: "current" },
  { damping: 1e-9, scaling: "current", reach: 0.3 },
] as const;

/**
 * Fits y = model(values, x) + e by least squares.
 *
 * Problems: `columns-unequal`, `not-finite`, `too-few-points`, `wrong-standard`, `model-not-finite`.
 * Remarks: `not-converged`, `values-not-told-apart`, `value-at-bound`.
 * Source: checked against NIST StRD from both starting points (truth/strd.truth.ts).
 */
export function fitNonlinear<X>(question: NonlinearFitQuestion<X>): Outcome<NonlinearFit> {
  const problems = check(question);
  if (problems.length > 0) return refuse(...problems);
  const problem = squaresOf(question);
  const best = lowest(problem, question);
  if (best.linearization === null)
    return refuse({
      code: "model-not-finite",
      path: ["start"],
      message: `The model is not finite at the start ${question.start.join(", ")}; needed: a start where every point has a value.`,
    });
  const fit = finish(question, best, best.linearization);
  return answer(fit, remarksOf(fit, question));
}

/** Steps of each way, in rounds: most starts need few, a wanderer is not followed far before the other ways were tried. */
const rounds = [300, 3000, 10_000] as const;
/** Values of the model that the rounds after the first may cost. */
const mostValues = 2e6;

function lowest<X>(problem: SquaresProblem, question: NonlinearFitQuestion<X>): Minimum {
  const { start, lower, upper, maxSteps = 10_000, tries = ways.length } = question;
  const bounds = { ...(lower && { lower }), ...(upper && { upper }) };
  const affordable = Math.max(rounds[0], mostValues / (tries * question.y.length));
  let best: Minimum | null = null;
  for (const round of rounds) {
    const most = Math.min(round, maxSteps, affordable);
    for (const way of ways.slice(0, tries)) {
      const found = minimizeSquares(problem, { start, ...bounds, maxSteps: most, ...way });
      if (found.stopped === "not-finite-at-start") return found;
      const agrees = best !== null && Math.abs(found.sumOfSquares - best.sumOfSquares) <= 1e-8 * best.sumOfSquares;
      const both = found.stopped === "converged" && best?.stopped === "converged";
      if (best === null || better(found, best)) best = found;
      if (agrees && both) return best;
    }
    if (best?.stopped === "converged" || most < round) break;
  }
  return best!;
}

/** Lower by more than round-off; of equal sums the one that has converged. */
function better(a: Minimum, b: Minimum): boolean {
  if (!(a.sumOfSquares <= b.sumOfSquares * (1 + 1e-9))) return false;
  if (a.sumOfSquares < b.sumOfSquares * (1 - 1e-9)) return true;
  return a.stopped === "converged" && b.stopped !== "converged";
}

function squaresOf<X>({
  model,
  derivatives,
  x,
  y,
  standard,
  start,
  lower,
  upper,
}: NonlinearFitQuestion<X>): SquaresProblem {
  const rows = y.length;
  const count = start.length;
  const weight = (i: number) => (standard === undefined ? 1 : 1 / standard[i]!);
  const residuals = (point: ArrayLike<number>): Float64Array => {
    const parameters = Array.from(point);
    const out = new Float64Array(rows);
    for (let i = 0; i < rows; i++) out[i] = (model(parameters, x[i]!) - y[i]!) * weight(i);
    return out;
  };
  const sumOf = (values: Float64Array) => {
    let sum = 0;
    for (let i = 0; i < values.length; i++) sum += values[i]! ** 2;
    return sum;
  };
  const given = (parameters: Float64Array): Float64Array[] => {
    const values = Array.from(parameters);
    const columns = Array.from({ length: count }, () => new Float64Array(rows));
    for (let i = 0; i < rows; i++) {
      const row = derivatives!(values, x[i]!);
      for (let j = 0; j < count; j++) columns[j]![i] = row[j]! * weight(i);
    }
    return columns;
  };
  const byDifference = (parameters: Float64Array, fine: boolean): Float64Array[] =>
    Array.from({ length: count }, (_, j) => {
      const step = differenceStep(parameters[j]!, start[j]!, fine);
      const at = (move: number) => {
        const moved = Float64Array.from(parameters);
        moved[j]! += move;
        return { value: moved[j]!, residuals: residuals(moved) };
      };
      const [up, down] = [at(step), at(-step)];
      const outside =
        up.value > (upper?.[j] ?? Number.POSITIVE_INFINITY) || down.value < (lower?.[j] ?? Number.NEGATIVE_INFINITY);
      if (outside) return oneSided(parameters, j, step, at, upper?.[j]);
      const width = up.value - down.value;
      const near = up.residuals.map((value, i) => (value - down.residuals[i]!) / width);
      if (!fine) return near;
      // Five points: the error of the fourth order is taken out of the second's.
      const [further, back] = [at(2 * step), at(-2 * step)];
      const wide = further.value - back.value;
      if (!Number.isFinite(sumOf(further.residuals)) || !Number.isFinite(sumOf(back.residuals))) return near;
      return near.map((value, i) => (4 * value - (further.residuals[i]! - back.residuals[i]!) / wide) / 3);
    });
  return {
    // Thirteen digits of every y: more is not to be had from data printed to fifteen.
    roundOff: 1e-26 * sumOf(Float64Array.from(y, (value, i) => value * weight(i))),
    sumOfSquares: (parameters) => sumOf(residuals(parameters)),
    linearize: (parameters, fine) => {
      const right = residuals(parameters);
      const sumOfSquares = sumOf(right);
      if (!Number.isFinite(sumOfSquares)) return null;
      const columns = derivatives === undefined ? byDifference(parameters, fine) : given(parameters);
      if (!columns.every((column) => Number.isFinite(sumOf(column)))) return null;
      return { sumOfSquares, ...reduceToTriangle(columns, right, rows) };
    },
  };
}

/** Second-order difference that stays on the side of the bound where the parameter lies. */
function oneSided(
  parameters: Float64Array,
  j: number,
  step: number,
  at: (move: number) => { readonly value: number; readonly residuals: Float64Array },
  top: number | undefined,
): Float64Array {
  const way = parameters[j]! + step > (top ?? Number.POSITIVE_INFINITY) ? -step : step;
  const [here, one, two] = [at(0).residuals, at(way).residuals, at(2 * way).residuals];
  return here.map((value, i) => (-3 * value + 4 * one[i]! - two[i]!) / (2 * way));
}

/** Width of a difference: eps^(1/3) for two points, eps^(1/5) for four, of the parameter's own size. */
function differenceStep(value: number, start: number, fine: boolean): number {
  const size = value !== 0 ? Math.abs(value) : start !== 0 ? Math.abs(start) : 1;
  return size * (fine ? 3e-4 : 6e-6);
}

function finish<X>(question: NonlinearFitQuestion<X>, best: Minimum, linearization: Linearization): NonlinearFit {
  const { model, x, y, standard } = question;
  const values = Array.from(best.parameters);
  const count = values.length;
  const residuals = Float64Array.from({ length: y.length }, (_, i) => y[i]! - model(values, x[i]!));
  const degreesOfFreedom = y.length - count;
  const variance = degreesOfFreedom > 0 ? best.sumOfSquares / degreesOfFreedom : null;
  const inverse = inverseOfNormal(linearization.triangle, count);
  const scale = standard === undefined ? variance : 1;
  const covariance = inverse === null || scale === null ? null : inverse.map((value) => value * scale);
  return {
    values,
    standardUncertainties: covariance === null ? null : values.map((_, i) => Math.sqrt(covariance[i * count + i]!)),
    covariance,
    residuals,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    sumOfSquares: best.sumOfSquares,
    degreesOfFreedom,
    stopped: best.stopped,
    steps: best.steps,
    atBound: best.atBound,
  };
}

function remarksOf<X>(fit: NonlinearFit, { start }: NonlinearFitQuestion<X>): Problem[] {
  const remarks: Problem[] = [];
  if (fit.stopped !== "converged")
    remarks.push({
      code: "not-converged",
      path: ["start"],
      message: `Stopped after ${fit.steps} steps (${fit.stopped}); the values are the best point found from ${start.join(", ")}. Try another start.`,
    });
  if (fit.covariance === null && fit.degreesOfFreedom > 0)
    remarks.push({
      code: "values-not-told-apart",
      path: [],
      message:
        "These data can't tell the values apart: a change of one is made good by the others. Fix one, or measure more.",
    });
  for (const i of fit.atBound)
    remarks.push({
      code: "value-at-bound",
      path: ["start", i],
      message: `Value ${i} ended at its bound, ${fit.values[i]}; its uncertainty is not that of the fit.`,
    });
  return remarks;
}

function check<X>({ start, x, y, standard, lower, upper }: NonlinearFitQuestion<X>): Problem[] {
  const problems: Problem[] = [];
  const unequal = (name: string, found: number, needed: number) =>
    problems.push({
      code: "columns-unequal",
      path: [name],
      message: `${name} has ${found} entries; needed: ${needed}, one for each.`,
    });
  const finite = (name: string, list: ArrayLike<number>) => {
    for (let i = 0; i < list.length; i++)
      if (!Number.isFinite(list[i]!)) {
        problems.push({
          code: "not-finite",
          path: [name, i],
          message: `${name}[${i}] is ${list[i]}; needed: a number.`,
        });
        return;
      }
  };
  if (x.length !== y.length) unequal("x", x.length, y.length);
  if (standard !== undefined && standard.length !== y.length) unequal("standard", standard.length, y.length);
  if (lower !== undefined && lower.length !== start.length) unequal("lower", lower.length, start.length);
  if (upper !== undefined && upper.length !== start.length) unequal("upper", upper.length, start.length);
  finite("start", start);
  finite("y", y);
  if (standard !== undefined && Array.from(standard).some((value) => !(value > 0)))
    problems.push({
      code: "wrong-standard",
      path: ["standard"],
      message: "A standard uncertainty is zero or less; needed: more than zero for every point.",
    });
  if (start.length === 0 || y.length < start.length)
    problems.push({
      code: "too-few-points",
      path: ["y"],
      message: `Points found: ${y.length}, values sought: ${start.length}; needed: a value to seek, and a point or more for each.`,
    });
  return problems;
}
