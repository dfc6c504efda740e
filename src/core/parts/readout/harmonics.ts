/** What a large phase does on the cosine: harmonics, the level at a distortion, how far the bias may wander. */

import { besselValues } from "../../numerics/bessel.ts";
import { pow } from "../../numerics/power.ts";
import { cos, sin } from "../../numerics/sine.ts";

/**
 * Amplitudes of the harmonics 1, 2, ... of the output for a sine of phase of amplitude m about an operating angle t, in
 * units of the curve's amplitude [-].
 *
 *     -sin(t) 2 J_k(m)  odd k,     cos(t) 2 J_k(m)  even k
 *
 * Source: Jacobi-Anger expansion, Abramowitz and Stegun 9.1.42 to 9.1.45 (from memory, to be confirmed).
 */
export function harmonicsOf(amplitude: number, angle: number, count: number): readonly number[] {
  const j = besselValues(count + 1, Math.abs(amplitude));
  const [odd, even] = [-sin(angle), cos(angle)];
  return Array.from({ length: count }, (_, i) => 2 * j[i + 1]! * (i % 2 === 0 ? odd : even));
}

/** Total harmonic distortion, harmonics over the fundamental [-]; infinite in the null, where there is no fundamental. */
export function distortionOf(amplitude: number, angle: number): number {
  const [first = 0, ...others] = harmonicsOf(amplitude, angle, 24);
  return Math.hypot(...others) / Math.abs(first);
}

/**
 * Phase amplitude at which the distortion reaches a value below 1 [rad], by bisection; null where any amplitude has more: in the
 * null. The angle is that of the cosine, bias and the port's own angle together.
 */
export function amplitudeAtDistortion(angle: number, distortion: number): number | null {
  if (!(Math.abs(sin(angle)) > 1e-9)) return null;
  // The fundamental is largest at the maximum of J_1, 1.841; distortion rises up to there.
  let [low, high] = [0, 1.841184];
  if (distortionOf(high, angle) < distortion) return high;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (distortionOf(middle, angle) < distortion) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Least change of the angle after which the slope has fallen by so many dB (amplitudes) [rad]; 0 in the null. */
export function stepForSlope(angle: number, decibel: number): number {
  const now = Math.abs(sin(angle));
  return Math.asin(Math.min(1, now)) - Math.asin(Math.min(1, now * pow(10, -decibel / 20)));
}
