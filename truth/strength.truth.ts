/** Strength of a brittle surface: Weibull's closed forms, slow crack growth, and the vent's share of a rising pressure. */
import { heldBack } from "../src/core/microphone/strength.ts";
import { effectiveArea, failureProbability, strengthAt } from "../src/core/parts/diaphragm/weibull.ts";
import { workedDiaphragm } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const glass = { scale: 45e6, modulus: 7, area: 1e-4, time: 60 };
const exact = "Weibull's distribution";

export const rows: readonly TruthRow[] = [
  {
    what: "stress of the scale on the tested area for the tested time: probability of failure [-]",
    got: () => failureProbability(glass, { stress: 45e6, area: 1e-4, time: 60, growth: 16 }),
    expected: 1 - Math.exp(-1),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: exact,
  },
  {
    what: "strength of 2^7 times the area, modulus 7, over that of the tested one [-]",
    got: () =>
      strengthAt(glass, { probability: 0.05, area: 128e-4, time: 60, growth: 16 }) /
      strengthAt(glass, { probability: 0.05, area: 1e-4, time: 60, growth: 16 }),
    expected: 0.5,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: `${exact}: strength goes with area^(-1/m)`,
  },
  {
    what: "strength under 2^16 times the load time, n = 16, over that of the tested time [-]",
    got: () =>
      strengthAt(glass, { probability: 0.5, area: 1e-4, time: 60 * 2 ** 16, growth: 16 }) /
      strengthAt(glass, { probability: 0.5, area: 1e-4, time: 60, growth: 16 }),
    expected: 0.5,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "sigma^n t constant",
  },
  {
    what: "median strength over the scale, modulus 7 [-]",
    got: () => strengthAt(glass, { probability: 0.5, area: 1e-4, time: 60, growth: 16 }) / 45e6,
    expected: Math.log(2) ** (1 / 7),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: exact,
  },
  {
    what: "clamped square, modulus near nothing: effective area over that of both faces under tension [-]",
    // Every place counts alike; each place of one face is stretched along x and along y, or pressed: half of all four.
    got: () => effectiveArea(workedDiaphragm(5e-3, 5e-3, 30e-6), { modulus: 1e-9, functions: 16 }).area / 25e-6,
    expected: 1,
    within: 1e-6,
    why: "quadrature of a constant",
    origin: "exact",
    source: "two faces, two directions each, one of the two faces stretched, mean of the directions",
  },
  {
    what: "overpressure that rises over one time constant of the vent: largest share across the diaphragm [-]",
    got: () => heldBack({ rise: 2, timeConstant: 2 }),
    expected: 1 - Math.exp(-1),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "first-order lag behind a ramp",
  },
  {
    what: "overpressure that rises a thousand times slower than the vent [-]",
    got: () => heldBack({ rise: 1000, timeConstant: 1 }),
    expected: 1e-3,
    within: 1e-9,
    why: "round-off",
    origin: "exact",
    source: "first-order lag behind a ramp",
  },
];
