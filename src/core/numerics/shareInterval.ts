import { incompleteBeta } from "./gammaFunctions.ts";

export interface ShareInterval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/**
 * A share with its exact interval, after so many successes in so many trials [-]. Never covers less than `coverage`.
 *
 *     low: I_low(k, n - k + 1) = (1 - coverage) / 2      high: I_high(k + 1, n - k) = (1 + coverage) / 2
 *
 * Source: [clopper-1934]. Holds: independent trials; evenly spread ones scatter less, so it is on the safe side there.
 */
export function shareInterval(successes: number, trials: number, coverage = 0.95): ShareInterval {
  const tail = (1 - coverage) / 2;
  const low = successes === 0 ? 0 : solve((x) => incompleteBeta(successes, trials - successes + 1, x), tail);
  const high = successes === trials ? 1 : solve((x) => incompleteBeta(successes + 1, trials - successes, x), 1 - tail);
  return { value: successes / trials, low, high };
}

/** Bisection of a rising function on 0 .. 1, to round-off. */
function solve(rising: (x: number) => number, wanted: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
