/** What one reads off a response or a ring-down as damping, against the damping ratio of the pole itself. */

import {
  decrementDamping,
  halfPowerDamping,
  secondOrderDamping,
} from "../src/core/microphone/poles/dampingReadings.ts";
import type { TruthRow } from "./row.ts";

/** A plain second-order section with its pole at 1 Hz. */
const section = (dampingRatio: number) => (frequency: number) => {
  const [re, im] = [1 - frequency ** 2, 2 * dampingRatio * frequency];
  const squared = re ** 2 + im ** 2;
  return { re: re / squared, im: -im / squared };
};

export const rows: readonly TruthRow[] = [
  {
    what: "half-power width over twice the resonance, damping ratio 0.1 [-]",
    got: () => halfPowerDamping(section(0.1), 1) ?? Number.NaN,
    expected: 0.202073 / 2,
    within: 1e-5,
    why: "digits given",
    origin: "exact",
    source: "second-order section, width of the peak over the natural frequency",
  },
  {
    what: "second-order fit of a second-order section, damping ratio 0.3 [-]",
    got: () => secondOrderDamping(section(0.3), 1, 0.2) ?? Number.NaN,
    expected: 0.3,
    within: 1e-9,
    why: "round-off",
    origin: "exact",
    source: "the section itself",
  },
  {
    what: "logarithmic decrement of a decaying cosine, damping ratio 0.0032471 [-]",
    got: () => {
      const zeta = 0.0032471;
      const time = Array.from({ length: 4000 }, (_, i) => i / 200);
      const value = time.map(
        (t) => Math.exp(-zeta * 2 * Math.PI * t) * Math.cos(Math.sqrt(1 - zeta ** 2) * 2 * Math.PI * t),
      );
      return decrementDamping({ time, value }) ?? Number.NaN;
    },
    expected: 0.0032471,
    within: 2e-4,
    why: "peaks found by parabolas through samples a two-hundredth of a period apart",
    origin: "exact",
    source: "zeta = delta / sqrt(4 pi^2 + delta^2)",
  },
];
