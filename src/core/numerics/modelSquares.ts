/** The sum of squares of a model given as a function, with its slopes: as given, or by differences within the bounds. */
import type { SquaresProblem } from "./minimizeSquares.ts";
import { reduceToTriangle } from "./triangle.ts";

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

export function squaresOf<X>({
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
