/** Fits in which each point is held against the nearest place of the curve: errors in both axes. */
import type { NonlinearFitQuestion } from "../numerics/modelSquares.ts";
import { nearestPlace } from "./nearestPlace.ts";

type Numbers = ArrayLike<number>;

export interface Point {
  readonly x: readonly number[];
  readonly y: number;
  /** Zero where it is exact. */
  readonly standardX: readonly number[];
  readonly standardY: number;
}

export const isPoint = (x: Point | readonly number[] | undefined): x is Point => x !== undefined && !Array.isArray(x);

/** A model with its derivatives to the values that are sought and to its variables. */
export interface Surface {
  readonly value: (values: readonly number[], x: readonly number[]) => number;
  readonly slopes: (values: readonly number[], x: readonly number[]) => readonly number[];
  readonly slopesInX: (values: readonly number[], x: readonly number[]) => readonly number[];
}

/** Residuals stand in the unit of y: the distance in standard uncertainties, times that of y. `inX`: exact where absent. */
export function orthogonal(
  surface: Surface,
  {
    points,
    seen,
    inY,
    inX,
    start,
  }: {
    readonly points: readonly (readonly number[])[];
    readonly seen: Numbers;
    readonly inY: Numbers;
    readonly inX: readonly (Numbers | undefined)[];
    readonly start: readonly number[];
  },
): NonlinearFitQuestion<Point> {
  const all = points.map((x, i): Point => {
    const standardX = x.map((_, k) => inX[k]?.[i] ?? 0);
    return { x, y: seen[i]!, standardX, standardY: inY[i]! };
  });
  const place = (values: readonly number[], point: Point) =>
    nearestPlace({
      ...point,
      value: (x) => surface.value(values, x),
      slopes: (x) => surface.slopesInX(values, x),
    });
  return {
    model: (values, point) => point.y + place(values, point).distance * point.standardY,
    derivatives: (values, point) => {
      const { at, share } = place(values, point);
      return surface.slopes(values, at).map((slope) => slope * share);
    },
    start,
    x: all,
    y: seen,
    standard: inY,
  };
}

/** What intervals are widened by, as of a line with errors in both axes: never narrower than the points themselves say. */
export const widening = (reducedSum: number): number => Math.max(1, Math.sqrt(reducedSum));
