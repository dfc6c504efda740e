import { cos, sin } from "./sine.ts";

/**
 * Bessel functions J_0 .. J_{count - 1} at a real x >= 0.
 *
 *     J_{n-1} + J_{n+1} = (2 n / x) J_n,     1 = J_0 + 2 (J_2 + J_4 + ...)
 *
 * Below 30 (or where orders above x are asked for) the recurrence runs downward from far above max(count, x) and is
 * normalized by the sum: no cancellation for any order. Beyond, J_0 and J_1 by Hankel's expansion, then upward, which is
 * stable below order x. Source: Abramowitz and Stegun 9.1.27, 9.1.46, 9.2.5 (from memory, to be confirmed); checked against
 * an independent library.
 */
export function besselValues(count: number, x: number): Float64Array {
  return x < 30 || count > x ? downward(count, x) : upward(count, x);
}

function downward(count: number, x: number): Float64Array {
  const values = new Float64Array(count);
  if (count === 0) return values;
  if (x < 1e-8) {
    values[0] = 1;
    if (count > 1) values[1] = x / 2;
    if (count > 2) values[2] = (x * x) / 8;
    return values;
  }
  // Beyond order x the values fall over some x^(1/3) orders: 12 of those and 40 more leave no trace of the start.
  const start = 2 * Math.ceil((Math.max(count, x + 12 * Math.cbrt(x)) + 40) / 2);
  let above = 0;
  let here = 1e-300;
  let sum = 0;
  for (let n = start; n > 0; n--) {
    const below = ((2 * n) / x) * here - above;
    above = here;
    here = below;
    if (n - 1 < count) values[n - 1] = here;
    if ((n - 1) % 2 === 0) sum += n === 1 ? here : 2 * here;
    if (Math.abs(here) > 1e200) {
      here *= 1e-200;
      above *= 1e-200;
      sum *= 1e-200;
      for (let i = Math.max(0, n - 1); i < count; i++) values[i]! *= 1e-200;
    }
  }
  for (let n = 0; n < count; n++) values[n]! /= sum;
  return values;
}

function upward(count: number, x: number): Float64Array {
  const values = new Float64Array(count);
  if (count > 0) values[0] = hankelExpansion(0, x).first;
  if (count > 1) values[1] = hankelExpansion(1, x).first;
  for (let n = 2; n < count; n++) values[n] = ((2 * (n - 1)) / x) * values[n - 1]! - values[n - 2]!;
  return values;
}

/**
 * J_v and Y_v of order 0 or 1 at a real x >= 30, by Hankel's expansion in 1 / x.
 *
 *     J = sqrt(2 / (pi x)) (P cos t - Q sin t),   Y = sqrt(2 / (pi x)) (P sin t + Q cos t),   t = x - (v / 2 + 1 / 4) pi
 *
 * Source: Abramowitz and Stegun 9.2.5, 9.2.6 (from memory, to be confirmed). Holds: the smallest term is exp(-2 x).
 */
export function hankelExpansion(order: 0 | 1, x: number): { readonly first: number; readonly second: number } {
  let p = 1;
  let q = 0;
  let term = 1;
  for (let n = 1; n <= 40; n++) {
    term *= (4 * order * order - (2 * n - 1) ** 2) / (n * 8 * x);
    if (n % 2 === 1) q += n % 4 === 1 ? term : -term;
    else p += n % 4 === 2 ? -term : term;
    if (Math.abs(term) < 1e-18) break;
  }
  // cos(x - pi/4) and sin(x - pi/4) by sums: no angle is rounded off at large x.
  const c = (cos(x) + sin(x)) * Math.SQRT1_2;
  const s = (sin(x) - cos(x)) * Math.SQRT1_2;
  const cosine = order === 0 ? c : s;
  const sine = order === 0 ? s : -c;
  const size = Math.sqrt(2 / (Math.PI * x));
  return { first: size * (p * cosine - q * sine), second: size * (p * sine + q * cosine) };
}
