/**
 * Other minima of a nonlinear fit: seeded starts about the point that a fit has reached and about its start, those values in
 * which the model is linear solved exactly at each (as in variable projection [golub-1973]), the best of
 * them followed downhill. It finds what a fit from one start can't see; that there is nothing else it can't prove.
 */

import type { NonlinearFitQuestion } from "./modelSquares.ts";
import { fitNonlinear, type NonlinearFit } from "./nonlinearFit.ts";
import { seededNormal, seededUniform } from "./random.ts";
import { backSubstitute, reduceToTriangle } from "./triangle.ts";

export interface MinimaSearch {
  /** The lowest that was found: `first` itself, or another. */
  readonly lowest: NonlinearFit;
  /** Converged fits with another curve, by their sum of squares; without `lowest`. */
  readonly others: readonly NonlinearFit[];
  /** Starts that were drawn, and those that were followed. */
  readonly drawn: number;
  readonly followed: number;
  readonly seed: number;
}

/** Where a round led lower the next one starts from there. */
const rounds = 4;
// Not derived: as many as a second allows; a minimum may still be missed (docs/theory/fits.md).
/** Starts that a round draws, those of the lowest sum that are followed, and steps that each may take. */
const draws = 96;
const follows = 8;
const steps = 80;
/** Values of the model that a search may cost, in all: about a second. */
const mostValues = 2e6;
/** Logarithmic spread of the starts, in turns. */
const spreads = [0.3, 1, 2.5] as const;

/** `linear`: indices of the values in which the model is linear together. Null where the data are too many for a search to be cheap. */
export function searchMinima<X>(
  question: NonlinearFitQuestion<X>,
  first: NonlinearFit,
  {
    linear,
    range,
    seed = 1,
  }: { readonly linear: readonly number[]; readonly range: Range | null; readonly seed?: number },
): MinimaSearch | null {
  const rows = question.y.length;
  if (rows * (draws * (linear.length + 2) + follows * steps) > mostValues) return null;
  // Ten digits of every y: below that two curves are one.
  const least = 1e-20 * Array.from(question.y).reduce((sum, one) => sum + one * one, 0);
  let distinct: readonly NonlinearFit[] = [first];
  let [drawn, followed] = [0, 0];
  for (let round = 0; round < rounds; round++) {
    const reached = distinct[0]!;
    const draw = drawer(question.start, reached.values, { linear, range, seed: seed + 2 * round });
    const starts = Array.from({ length: draws }, (_, k) => draw(k))
      .map((values) => solvedLinear(question, values, linear))
      .map((values) => ({ values, sum: sumOfSquares(question, values) }))
      .filter(({ sum }) => Number.isFinite(sum))
      .sort((a, b) => a.sum - b.sum)
      .slice(0, follows);
    const found = starts.flatMap(({ values }) => {
      const fit = fitNonlinear({ ...question, start: values, maxSteps: steps, tries: 1 });
      return fit.ok && fit.value.stopped === "converged" ? [fit.value] : [];
    });
    distinct = joined(distinct, found, least);
    drawn += draws;
    followed += starts.length;
    if (distinct[0] === reached && reached.stopped === "converged") break;
  }
  const [lowest = first, ...others] = distinct;
  return { lowest, others: others.filter(({ stopped }) => stopped === "converged"), drawn, followed, seed };
}

/** One of each curve, the lowest first; of two alike the first one stays, unless it stopped halfway. */
function joined(before: readonly NonlinearFit[], found: readonly NonlinearFit[], least: number): NonlinearFit[] {
  const distinct = [...before];
  for (const fit of found) {
    const same = distinct.findIndex((one) => sameCurve(one, fit, least));
    if (same < 0) distinct.push(fit);
    else if (distinct[same]!.stopped !== "converged") distinct[same] = fit;
  }
  return distinct.sort((a, b) => a.sumOfSquares - b.sumOfSquares);
}

/** Smallest and largest of the predictor. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** Values about the start and about what was reached; one that lies within the predictor's range may be a place on it. */
function drawer(
  start: readonly number[],
  reached: readonly number[],
  { linear, range, seed }: { readonly linear: readonly number[]; readonly range: Range | null; readonly seed: number },
): (k: number) => number[] {
  const normal = seededNormal(seed);
  const uniform = seededUniform(seed + 1);
  const isPlace = (j: number) =>
    range !== null && [start[j]!, reached[j]!].every((value) => value >= range.low && value <= range.high);
  return (k) => {
    const about = k % 2 === 0 ? reached : start;
    const spread = spreads[Math.floor(k / 2) % spreads.length]!;
    return about.map((value, j) => {
      if (linear.includes(j)) return 0;
      const [share, size, turned] = [uniform(), normal(), uniform() < 0.05];
      if (isPlace(j) && share < 0.4) return range!.low + (share / 0.4) * (range!.high - range!.low);
      const moved = value === 0 ? spread * size : value * Math.exp(spread * size);
      return turned ? -moved : moved;
    });
  };
}

/** The same values, those in which the model is linear at their least squares; as they are where these can't be told apart. */
function solvedLinear<X>(
  { model, derivatives, x, y, standard }: NonlinearFitQuestion<X>,
  values: readonly number[],
  linear: readonly number[],
): readonly number[] {
  if (linear.length === 0 || derivatives === undefined) return values;
  const rows = y.length;
  const weight = (i: number) => (standard === undefined ? 1 : 1 / standard[i]!);
  const columns = linear.map(() => new Float64Array(rows));
  const right = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    const slopes = derivatives(values, x[i]!);
    linear.forEach((j, c) => {
      columns[c]![i] = slopes[j]! * weight(i);
    });
    right[i] = (y[i]! - model(values, x[i]!)) * weight(i);
  }
  const { triangle, projected } = reduceToTriangle(columns, right, rows);
  const solved = backSubstitute(triangle, projected);
  if (solved === null || !solved.every(Number.isFinite)) return values;
  return values.map((value, j) => {
    const c = linear.indexOf(j);
    return c < 0 ? value : solved[c]!;
  });
}

function sumOfSquares<X>({ model, x, y, standard }: NonlinearFitQuestion<X>, values: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < y.length; i++) sum += ((model(values, x[i]!) - y[i]!) / (standard?.[i] ?? 1)) ** 2;
  return sum;
}

/** Two names for one minimum, as where two peaks change places, give one curve. */
function sameCurve(a: NonlinearFit, b: NonlinearFit, least: number): boolean {
  let [apart, rest] = [0, 0];
  for (let i = 0; i < a.residuals.length; i++) {
    apart += (a.residuals[i]! - b.residuals[i]!) ** 2;
    rest += a.residuals[i]! ** 2 + b.residuals[i]! ** 2;
  }
  return apart <= 1e-6 * rest + least;
}
