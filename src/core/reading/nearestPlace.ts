/** The place of a curve that a point with errors in both axes most likely belongs to. */

export interface NearestQuestion {
  readonly x: readonly number[];
  readonly y: number;
  /** Standard uncertainties of each x, zero where it is exact, and of y, above zero. */
  readonly standardX: readonly number[];
  readonly standardY: number;
  readonly value: (x: readonly number[]) => number;
  readonly slopes: (x: readonly number[]) => readonly number[];
}

export interface NearestPlace {
  readonly at: readonly number[];
  /** Distance in standard uncertainties, with the sign of curve less point. */
  readonly distance: number;
  /**
   * What a rise of the curve adds to the distance, in units of `standardY`: 1 / sqrt(1 + sum (slope sx / sy)^2). As the place is
   * the nearest one, its own move adds nothing.
   */
  readonly share: number;
}

/**
 * Minimizes ((f(x + d) - y) / sy)^2 + sum (d / sx)^2 by Gauss-Newton steps, halved where they overshoot.
 *
 *     d = -slope sx^2 e / (sy^2 + sum slope^2 sx^2),   e = f(x + d) - slope d - y
 *
 * Derivation: docs/theory/fits.md. Source: [britt-1973] (from memory, to be confirmed).
 */
export function nearestPlace({ x, y, standardX, standardY, value, slopes }: NearestQuestion): NearestPlace {
  const cost = (f: number, d: readonly number[]) =>
    ((f - y) / standardY) ** 2 + d.reduce((sum, one, k) => sum + (one === 0 ? 0 : (one / standardX[k]!) ** 2), 0);
  let d: readonly number[] = x.map(() => 0);
  let at = x;
  let f = value(at);
  let here = cost(f, d);
  for (let i = 0; i < 100; i++) {
    const slope = slopes(at);
    const error = f - y - slope.reduce((sum, one, k) => sum + one * d[k]!, 0);
    const spread = slope.reduce((sum, one, k) => sum + (one * standardX[k]!) ** 2, standardY ** 2);
    const wanted = slope.map((one, k) => (-one * standardX[k]! ** 2 * error) / spread);
    const moved = Math.max(...wanted.map((one, k) => (standardX[k] === 0 ? 0 : Math.abs(one - d[k]!) / standardX[k]!)));
    if (!(moved > 1e-13)) break;
    let took = false;
    for (let share = 1; share > 1e-4 && !took; share /= 2) {
      const trial = d.map((one, k) => one + share * (wanted[k]! - one));
      const place = x.map((one, k) => one + trial[k]!);
      const height = value(place);
      const next = cost(height, trial);
      if (!(next <= here)) continue;
      [d, at, f, here] = [trial, place, height, next];
      took = true;
    }
    if (!took) break;
  }
  const slope = slopes(at);
  const share = 1 / Math.sqrt(1 + slope.reduce((sum, one, k) => sum + ((one * standardX[k]!) / standardY) ** 2, 0));
  return { at, distance: Math.sqrt(here) * (f >= y ? 1 : -1), share };
}
