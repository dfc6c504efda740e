/** Shares and quantiles of the distributions that uncertainty statements rest on, to about 1e-12. */

import { complementaryError, incompleteBeta, incompleteGamma } from "./gammaFunctions.ts";
import { cube } from "./power.ts";

/** Share of a standard normal quantity below x. */
export const normalShare = (x: number): number => complementaryError(-x / Math.SQRT2) / 2;

/** Share of chi-squared with so many degrees of freedom below x. */
export const chiSquaredShare = (x: number, degrees: number): number => incompleteGamma(degrees / 2, x / 2).lower;

/** Share of Student's t below x. */
export function studentShare(x: number, degrees: number): number {
  const squared = x * x;
  const tail = incompleteBeta(degrees / 2, 0.5, degrees / (degrees + squared), squared / (degrees + squared)) / 2;
  return x > 0 ? 1 - tail : tail;
}

/** Share of Fisher's F with degrees above and below the line, below x. */
export function fisherShare(x: number, above: number, below: number): number {
  if (x <= 0) return 0;
  const [part, rest] = [above * x, below];
  return incompleteBeta(above / 2, below / 2, part / (part + rest), rest / (part + rest));
}

/** x below which the share p of a standard normal quantity lies, 0 < p < 1. */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p);
  return rootOfRising((x) => Math.log(normalShare(x)) - Math.log(p), -40, 0);
}

/** Quantile of Student's t; infinite degrees are the normal distribution's. */
export function studentQuantile(p: number, degrees: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, degrees);
  const z = normalQuantile(p);
  if (!Number.isFinite(degrees)) return z;
  // z + (z^3 + z) / 4 nu, the next term being of 1 / nu^2: where the incomplete beta function runs out of digits.
  if (degrees > 1e5) return z + (cube(z) + z) / (4 * degrees);
  let high = 1;
  while (studentShare(high, degrees) < p && high < 1e300) high *= 2;
  return rootOfRising((x) => studentShare(x, degrees) - p, 0, high);
}

export function chiSquaredQuantile(p: number, degrees: number): number {
  let high = degrees + 1;
  while (chiSquaredShare(high, degrees) < p && high < 1e300) high *= 2;
  return rootOfRising((x) => chiSquaredShare(x, degrees) - p, 0, high);
}

export function fisherQuantile(p: number, above: number, below: number): number {
  let high = 1;
  while (fisherShare(high, above, below) < p && high < 1e300) high *= 2;
  return rootOfRising((x) => fisherShare(x, above, below) - p, 0, high);
}

/** Root of a function that rises from below zero to above: bisection with secants where they stay inside. */
function rootOfRising(f: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  let [atLow, atHigh] = [f(low), f(high)];
  for (let i = 0; i < 200 && high - low > 4e-16 * Math.max(Math.abs(low), Math.abs(high)); i++) {
    const secant = low - (atLow * (high - low)) / (atHigh - atLow);
    const middle = i % 3 < 2 && secant > low && secant < high ? secant : (low + high) / 2;
    const here = f(middle);
    if (here === 0) return middle;
    if (here < 0) [low, atLow] = [middle, here];
    else [high, atHigh] = [middle, here];
  }
  return (low + high) / 2;
}
