/** One mode of a ring-down out of the parameters of the fit, with its uncertainty. */
import { cube } from "../numerics/power.ts";
import { type ReadValue, readValue } from "./reading.ts";

export interface RingDownMode {
  /** Of the pole: |omega_p| / 2 pi [Hz]. */
  readonly frequency: ReadValue;
  readonly dampingRatio: ReadValue;
  /** Decay rate [1/s]. */
  readonly rate: ReadValue;
  /** At the start of the fit, in the unit of the output. */
  readonly amplitude: ReadValue;
}

/** Values of one mode: zeta = s / sqrt(s^2 + w^2), |omega_p| = sqrt(s^2 + w^2), and their uncertainty by the gradient. */
export function modeOf(
  p: Float64Array,
  covariance: Float64Array | null,
  k: number,
  perSecond: number,
  factor: number,
): RingDownMode {
  const at = 4 * k;
  const [s, w, a, b] = [p[at]!, p[at + 1]!, p[at + 2]!, p[at + 3]!];
  const size = Math.hypot(s, w);
  const u = (i: number, j: number) => covariance![(at + i) * p.length + at + j]!;
  const spread = (gradient: readonly number[], from: number): number | null => {
    if (covariance === null) return null;
    let sum = 0;
    for (const [i, x] of gradient.entries())
      for (const [j, y] of gradient.entries()) sum += x * y * u(from + i, from + j);
    return Math.sqrt(Math.max(0, sum));
  };
  const hertz = perSecond / (2 * Math.PI);
  const amplitude = Math.hypot(a, b);
  return {
    frequency: readValue(size * hertz, spread([(s / size) * hertz, (w / size) * hertz], 0), factor),
    dampingRatio: readValue(s / size, spread([(w * w) / cube(size), (-s * w) / cube(size)], 0), factor),
    rate: readValue(s * perSecond, spread([perSecond], 0), factor),
    amplitude: readValue(amplitude, amplitude > 0 ? spread([a / amplitude, b / amplitude], 2) : null, factor),
  };
}
