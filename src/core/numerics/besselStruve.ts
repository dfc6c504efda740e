import { besselValues, hankelExpansion } from "./bessel.ts";

/**
 * Struve function H_1 at a real x >= 0 [-].
 *
 *     x < 40:   H_1 = (16 / pi) sum_{k >= 1} k^2 / (4 k^2 - 1) J_2k(x)
 *     beyond:   H_1 = Y_1 + (2 / pi) (1 + 1 / x^2 - 1^2 3 / x^4 + 1^2 3^2 5 / x^6 - ...)
 *
 * Source: Abramowitz and Stegun 12.1.20 with 1 = J_0 + 2 (J_2 + J_4 + ...) put in for its 1 - J_0, so that nothing cancels
 * at small x; 12.1.31 (from memory, to be confirmed). Checked against 40-digit values.
 */
export function struveH1(x: number): number {
  if (x < 40) {
    const values = besselValues(Math.ceil(1.5 * x) + 30, x);
    let sum = 0;
    for (let k = 1; 2 * k < values.length; k++) sum += ((k * k) / (4 * k * k - 1)) * values[2 * k]!;
    return (16 / Math.PI) * sum;
  }
  let sum = 1;
  let term = 1;
  for (let n = 1; n < 20; n++) {
    term *= n === 1 ? 1 / (x * x) : (-(2 * n - 1) * (2 * n - 3)) / (x * x);
    sum += term;
    if (Math.abs(term) < 1e-17) break;
  }
  return hankelExpansion(1, x).second + (2 / Math.PI) * sum;
}
