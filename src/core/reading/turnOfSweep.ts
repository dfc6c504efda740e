/** How many radians a unit of a sweep turns the bias, to begin a fit with. */

import { fitLinear } from "../numerics/linearFit.ts";
import { cos, sin } from "../numerics/sine.ts";

/** Turns in the sweep that are looked for, at most. */
const mostTurns = 60;
/** Points that are looked at. */
const mostPoints = 400;

/** Radians per unit whose sine fits best among quarter turns over the whole sweep; null: no points, or none below a whole number of turns. */
export function guessTurn(x: readonly number[], y: ArrayLike<number>): number | null {
  const stride = Math.max(1, Math.ceil(x.length / mostPoints));
  const places = Array.from(x.keys()).filter((i) => i % stride === 0);
  const at = places.map((i) => x[i]!);
  const seen = places.map((i) => y[i]!);
  if (at.length < 6) return null;
  const span = at.reduce((a, b) => Math.max(a, b)) - at.reduce((a, b) => Math.min(a, b));
  if (!(span > 0)) return null;
  const most = Math.min(4 * mostTurns, 2 * (at.length - 1));
  let best: { readonly turn: number; readonly sum: number } | null = null;
  // From half a turn on: below it a parabola fits as well.
  for (let quarter = 2; quarter <= most; quarter++) {
    const turn = (quarter * Math.PI) / 2 / span;
    const columns = [at.map(() => 1), at.map((v) => sin(turn * v)), at.map((v) => cos(turn * v))];
    const fit = fitLinear({ columns, y: seen });
    if (fit.ok && (best === null || fit.value.sumOfSquares < 0.98 * best.sum))
      best = { turn, sum: fit.value.sumOfSquares };
  }
  return best?.turn ?? null;
}
