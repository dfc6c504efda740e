/** When a fit takes further terms in: by what they take away that noise alone would not. */
import type { Minimum, SquaresProblem } from "../numerics/minimizeSquares.ts";
import { fisherShare } from "../numerics/quantiles.ts";

/** Chance of such a gain by noise alone below one in a million: several terms are tried in every record. */
const demandedShare = 1 - 1e-6;

/**
 * Whether a fit to so many rows gains by its further parameters what it must.
 *
 *     F = ((S_1 - S_2) / (p_2 - p_1)) / (S_2 / (rows - p_2)),   share of Fisher's distribution below F > 1 - 1e-6
 *
 * Source: the extra sum of squares, textbooks of regression (from memory, to be confirmed). Holds: errors independent and alike.
 */
export const demanded = (before: Minimum, after: Minimum, rows: number): boolean =>
  isDemanded(before, { sumOfSquares: after.sumOfSquares, parameters: after.parameters.length }, rows);

/** One full step from the start gains half of what is demanded: only then the fit is worth its time. */
export function promising(before: Minimum, problem: SquaresProblem, start: Float64Array, rows: number): boolean {
  const here = problem.linearize(start, false);
  if (here === null) return false;
  const gain = before.sumOfSquares - here.sumOfSquares + here.projected.reduce((sum, value) => sum + value * value, 0);
  const sumOfSquares = Math.max(1e-9 * before.sumOfSquares, before.sumOfSquares - 2 * gain);
  return isDemanded(before, { sumOfSquares, parameters: start.length }, rows);
}

function isDemanded(
  before: Minimum,
  after: { readonly sumOfSquares: number; readonly parameters: number },
  rows: number,
): boolean {
  const more = after.parameters - before.parameters.length;
  const degrees = rows - after.parameters;
  if (more <= 0 || degrees < 2 || !(after.sumOfSquares < before.sumOfSquares)) return false;
  const ratio = ((before.sumOfSquares - after.sumOfSquares) / more / after.sumOfSquares) * degrees;
  return fisherShare(ratio, more, degrees) > demandedShare;
}
