import { cos, sin } from "./sine.ts";

/**
 * Spherical Bessel functions j_0 .. j_{count - 1} at a real x >= 0.
 *
 *     j_{n-1} + j_{n+1} = (2 n + 1) j_n / x
 *
 * Downward from far above max(count, x) and normalized by j_0 = sin x / x or j_1, whichever is larger: stable for every
 * order. Source: Abramowitz and Stegun 10.1 (from memory, to be confirmed); checked against closed forms.
 */
export function sphericalBesselValues(count: number, x: number): Float64Array {
  const values = new Float64Array(count);
  if (count === 0) return values;
  if (x < 1e-8) {
    values[0] = 1 - (x * x) / 6;
    if (count > 1) values[1] = x / 3;
    return values;
  }
  const start = Math.ceil(Math.max(count, x)) + 40;
  let above = 0;
  let here = 1e-300;
  for (let n = start; n > 0; n--) {
    const below = ((2 * n + 1) / x) * here - above;
    above = here;
    here = below;
    if (n - 1 < count) values[n - 1] = here;
    if (Math.abs(here) > 1e200) {
      here *= 1e-200;
      above *= 1e-200;
      for (let i = Math.max(0, n - 1); i < count; i++) values[i]! *= 1e-200;
    }
  }
  const zeroth = sin(x) / x;
  const first = sin(x) / (x * x) - cos(x) / x;
  // `here` is the unscaled j_0, `above` the unscaled j_1.
  const factor = Math.abs(zeroth) >= Math.abs(first) ? zeroth / here : first / above;
  for (let n = 0; n < count; n++) values[n]! *= factor;
  return values;
}
