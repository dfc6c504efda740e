import type { Complex } from "./complex.ts";
import { cos, sin } from "./sine.ts";

/**
 * Slopes h_n'(x) of the spherical Hankel functions of the second kind (outgoing waves with e^{+i omega t}), n = 0 .. , at a
 * real x > 0, until they pass 1e150 or `count` are there.
 *
 *     h_0 = i e^{-ix} / x,   h_1 = (i / x - 1) e^{-ix} / x,   h_{n+1} = ((2 n + 1) / x) h_n - h_{n-1},   h_n' = h_{n-1} - ((n + 1) / x) h_n
 *
 * Upward, which is stable for h as a whole: its growing part y_n rules beyond order x.
 * Source: Abramowitz and Stegun 10.1.11 to 10.1.22 (from memory, to be confirmed).
 */
export function sphericalHankelSlopes(count: number, x: number): readonly Complex[] {
  const slopes: Complex[] = [];
  const c = cos(x);
  const s = sin(x);
  let lower: Complex = { re: s / x, im: c / x };
  let here: Complex = { re: s / (x * x) - c / x, im: c / (x * x) + s / x };
  slopes.push({ re: -here.re, im: -here.im });
  for (let n = 1; n < count; n++) {
    const slope = { re: lower.re - ((n + 1) / x) * here.re, im: lower.im - ((n + 1) / x) * here.im };
    slopes.push(slope);
    if (Math.hypot(slope.re, slope.im) > 1e150) break;
    const factor = (2 * n + 1) / x;
    const next = { re: factor * here.re - lower.re, im: factor * here.im - lower.im };
    lower = here;
    here = next;
  }
  return slopes;
}
