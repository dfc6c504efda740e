/** Plate and film together: complex poles. Air constants and slip are stated, because the numbers belong to them. */
import type { Air } from "../src/core/material/air.ts";
import { findPoles } from "../src/core/microphone/poles/poles.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { workedAir, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Humid air at 23 degC, 101325 Pa, 50 %, without slip. */
const air23: Air = { ...workedAir, density: 1.186085, viscosity: 1.826566e-5, heatRatio: 1.400757, prandtl: 0.72802 };

type Device = Parameters<typeof workedMicrophone>[0];

function lowest(device: Device) {
  const microphone = workedMicrophone(device);
  return findPoles(prepare(microphone), microphone).oscillating[0];
}

function poleRows(
  device: Device,
  what: string,
  frequency: number | null,
  damping: number,
  within: number,
  source: string,
): TruthRow[] {
  // Found once for both rows.
  let found: ReturnType<typeof lowest> | null = null;
  const pole = () => {
    found ??= lowest(device);
    return found;
  };
  const damped: TruthRow = {
    what: `${what}: damping ratio [-]`,
    got: () => pole()?.dampingRatio ?? Number.NaN,
    expected: damping,
    within,
    why: "digits given",
    origin: "independent method",
    source,
  };
  if (frequency === null) return [damped];
  return [
    {
      what: `${what}: |omega| / 2 pi [Hz]`,
      got: () => pole()?.frequency ?? Number.NaN,
      expected: frequency,
      within: Math.min(within, 1e-3),
      why: "digits given",
      origin: "independent method",
      source,
    },
    damped,
  ];
}

const worked = "air: mu 1.83e-5, rho 1.186, gamma 1.4, Pr 0.71, no slip; spectral and finite-element solutions agree";
const third = "air: mu 1.826566e-5, rho 1.186085, gamma 1.400757, Pr 0.72802, no slip; a third code";

/** Gap with the largest damping ratio of the lowest oscillating pole, by golden section between two gaps [m]. */
function mostDampingGap(device: Device, from: number, to: number): number {
  const at = (gap: number) => ({ gap, ratio: lowest({ ...device, gap })?.dampingRatio ?? Number.NaN });
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  const leftOf = () => at(high - golden * (high - low));
  const rightOf = () => at(low + golden * (high - low));
  let [left, right] = [leftOf(), rightOf()];
  while (high - low > 2e-3 * low) {
    // The inner gap that stays is one of the next pair.
    if (left.ratio > right.ratio) {
      high = right.gap;
      right = left;
      left = leftOf();
    } else {
      low = left.gap;
      left = right;
      right = rightOf();
    }
  }
  return (low + high) / 2;
}

export const rows: readonly TruthRow[] = [
  ...poleRows(
    { across: 10e-3, thickness: 0.22e-3, gap: 0.2e-3 },
    "10 mm, 0.22 mm, open 0.2 mm",
    18650,
    0.0176,
    3e-3,
    worked,
  ),
  ...poleRows({ across: 5e-3, thickness: 30e-6, gap: 100e-6 }, "5 mm, 30 um, open 100 um", 9830, 0.0303, 2e-3, worked),
  ...poleRows({ across: 5e-3, thickness: 30e-6, gap: 30e-6 }, "5 mm, 30 um, open 30 um", 8510, 0.801, 1e-3, worked),
  ...poleRows(
    { across: 5e-3, thickness: 30e-6, gap: 100e-6, edges: "closed" },
    "5 mm, 30 um, closed 100 um",
    17380,
    0.0285,
    2e-3,
    worked,
  ),
  ...poleRows(
    { across: 5e-3, thickness: 30e-6, gap: 31.33e-6 },
    "5 mm, 30 um, open 31.33 um",
    null,
    0.707,
    1e-3,
    worked,
  ),
  ...poleRows(
    { across: 10e-3, thickness: 0.22e-3, gap: 31.8e-6, edges: "closed" },
    "10 mm, 0.22 mm, closed 31.8 um",
    22340,
    0.0961,
    1e-3,
    worked,
  ),
  ...poleRows(
    { across: 5e-3, thickness: 60e-6, gap: 18.65e-6, edges: "closed" },
    "5 mm, 60 um, closed 18.65 um",
    33050,
    0.2134,
    1e-3,
    worked,
  ),
  ...poleRows(
    { across: 10e-3, thickness: 0.22e-3, gap: 0.2e-3, air: air23 },
    "10 mm, 0.22 mm, open 0.2 mm, air of 23 degC",
    18654.1,
    0.01753,
    3e-4,
    third,
  ),
  ...poleRows(
    { across: 5e-3, thickness: 30e-6, gap: 100e-6, air: air23 },
    "5 mm, 30 um, open 100 um, air of 23 degC",
    9828.2,
    0.03022,
    2e-4,
    third,
  ),
  ...poleRows(
    { across: 5e-3, thickness: 30e-6, gap: 30e-6, air: air23 },
    "5 mm, 30 um, open 30 um, air of 23 degC",
    8512.4,
    0.7998,
    1e-4,
    third,
  ),
  ...(
    [
      [{ across: 10e-3, thickness: 0.22e-3, gap: null, edges: "closed" }, 31.8e-6, "10 mm, 0.22 mm"],
      [{ across: 5e-3, thickness: 60e-6, gap: null, edges: "closed" }, 18.65e-6, "5 mm, 60 um"],
    ] as const
  ).map(
    ([device, gap, what]): TruthRow => ({
      what: `${what}, closed: gap of the largest damping ratio [m]`,
      got: () => mostDampingGap(device, 0.9 * gap, 1.1 * gap),
      expected: gap,
      within: 0.015,
      why: "a flat maximum: the damping ratio changes by 1e-4 over 1 % of the gap, and is given to 1e-4",
      origin: "independent method",
      source: worked,
    }),
  ),
  ...(
    [
      [5e-3, 30e-6],
      [10e-3, 0.22e-3],
    ] as const
  ).flatMap(([across, thickness]): TruthRow[] => [
    {
      what: `${across * 1e3} mm, ${thickness * 1e6} um, open 28 um: the lowest pole still oscillates, below half the vacuum resonance's band [1 = yes]`,
      got: () => ((lowest({ across, thickness, gap: 28e-6 })?.dampingRatio ?? 0) > 0.9 ? 1 : 0),
      expected: 1,
      within: 0,
      why: "the pair meets on the imaginary axis between 27 and 28 um",
      origin: "independent method",
      source: worked,
    },
    {
      what: `${across * 1e3} mm, ${thickness * 1e6} um, open 27 um: a slow real pole instead [1 = yes]`,
      got: () => {
        const microphone = workedMicrophone({ across, thickness, gap: 27e-6 });
        const { oscillating, real } = findPoles(prepare(microphone), microphone);
        return real.length > 0 && !oscillating.some((pole) => pole.dampingRatio > 0.9) ? 1 : 0;
      },
      expected: 1,
      within: 0,
      why: "the pair meets on the imaginary axis between 27 and 28 um",
      origin: "independent method",
      source: worked,
    },
  ]),
  ...(
    [
      [0.5, 1],
      [2, 1],
      [1, 2],
    ] as const
  ).map(
    ([side, thickness]): TruthRow => ({
      what: `in vacuum, resonance ~ thickness / side^2: side x ${side}, thickness x ${thickness} [-]`,
      got: () =>
        (lowest({ across: 5e-3 * side, thickness: 30e-6 * thickness, gap: null })?.frequency ?? Number.NaN) /
        (lowest({ across: 5e-3, thickness: 30e-6, gap: null })?.frequency ?? Number.NaN),
      expected: thickness / side ** 2,
      within: 1e-12,
      why: "round-off",
      origin: "exact",
      source: "dimensional analysis of the Kirchhoff plate",
    }),
  ),
];
