/**
 * Damping as one reads it off curves. These are readings, not definitions: the damping ratio is that of the pole
 * (docs/theory/poles.md), and each reading is biased where modes overlap or the damping is strong.
 */

import type { Complex } from "../../numerics/complex.ts";
import { fourth } from "../../numerics/power.ts";

type Response = (frequency: number) => Complex;

const size = (value: Complex): number => Math.hypot(value.re, value.im);

/**
 * Half-power width over twice the resonance: (f2 - f1) / (2 f0), |S| at f1 and f2 is 1/sqrt(2) of its peak next to `near` [Hz].
 * f0 is `near`. null where there is no peak within 30 % or the flanks do not fall so far.
 * Holds: small damping only; 1 % off at 0.1, 14 % at 0.3.
 */
export function halfPowerDamping(response: Response, near: number): number | null {
  const peak = peakNear(response, near);
  if (peak === null) return null;
  const half = size(response(peak)) / Math.SQRT2;
  const low = flank(response, peak, -1, half, near);
  const high = flank(response, peak, 1, half, near);
  return low === null || high === null ? null : (high - low) / (2 * near);
}

function peakNear(response: Response, near: number): number | null {
  const count = 600;
  let best = 0;
  for (let i = 0; i <= count; i++) {
    const frequency = near * (0.7 + (0.6 * i) / count);
    if (i === 0 || size(response(frequency)) > size(response(best))) best = frequency;
  }
  if (best < 0.705 * near || best > 1.295 * near) return null;
  let [low, high] = [best - 0.001 * near, best + 0.001 * near];
  const golden = (Math.sqrt(5) - 1) / 2;
  while (high - low > 1e-9 * near) {
    const [left, right] = [high - golden * (high - low), low + golden * (high - low)];
    if (size(response(left)) > size(response(right))) high = right;
    else low = left;
  }
  return (low + high) / 2;
}

function flank(response: Response, peak: number, direction: 1 | -1, level: number, near: number): number | null {
  const step = 2e-4 * near;
  for (let i = 1; i < 4000; i++) {
    const frequency = peak + direction * step * i;
    if (frequency <= 0) return null;
    if (size(response(frequency)) > level) continue;
    let [above, below] = [frequency - direction * step, frequency];
    while (Math.abs(below - above) > 1e-10 * near) {
      const middle = (above + below) / 2;
      if (size(response(middle)) > level) above = middle;
      else below = middle;
    }
    return (above + below) / 2;
  }
  return null;
}

/**
 * Damping ratio of a second-order section fitted to S over +-`width` around `near` [Hz]:
 *
 *     1 / S = a - b f^2 + i c f,   f0 = sqrt(a / b),   zeta = c / (2 sqrt(a b))
 *
 * least squares weighted with |S|^2, so that the peak counts. null where no resonance results.
 */
export function secondOrderDamping(response: Response, near: number, width: number): number | null {
  const count = 81;
  let [s0, s2, s4, t0, t2, u1, v2] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const x = 1 + width * ((2 * i) / (count - 1) - 1);
    const value = response(near * x);
    const squared = value.re ** 2 + value.im ** 2;
    const [re, im] = [value.re / squared, -value.im / squared];
    const weight = squared ** 2;
    s0 += weight;
    s2 += weight * x * x;
    s4 += weight * fourth(x);
    t0 += weight * re;
    t2 += weight * re * x * x;
    u1 += weight * im * x;
    v2 += weight * x * x;
  }
  const determinant = s0 * s4 - s2 * s2;
  const a = (t0 * s4 - t2 * s2) / determinant;
  const b = (t0 * s2 - t2 * s0) / determinant;
  const c = u1 / v2;
  if (!(a * b > 0)) return null;
  return (c * Math.sign(a)) / (2 * Math.sqrt(a * b));
}

/**
 * Damping ratio from the logarithmic decrement of successive peaks of one sign [-].
 *
 *     delta = ln(A_first / A_last) / (n - 1),   zeta = delta / sqrt(4 pi^2 + delta^2)
 *
 * null where fewer than three peaks fall. Source: [torsion] for the formula.
 */
export function decrementDamping({
  value,
}: {
  readonly time: readonly number[];
  readonly value: readonly number[];
}): number | null {
  const peaks: number[] = [];
  for (let i = 1; i + 1 < value.length; i++) {
    const [before, here, after] = [value[i - 1]!, value[i]!, value[i + 1]!];
    if (here <= 0 || here < before || here <= after) continue;
    const bend = before - 2 * here + after;
    peaks.push(bend === 0 ? here : here - (after - before) ** 2 / (8 * bend));
  }
  const [first, last] = [peaks[0], peaks.at(-1)];
  if (first === undefined || last === undefined || peaks.length < 3 || !(first > last && last > 0)) return null;
  const delta = Math.log(first / last) / (peaks.length - 1);
  return delta / Math.hypot(2 * Math.PI, delta);
}
