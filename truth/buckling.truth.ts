/** Compression at which a clamped plate leaves its plane, in pi^2 D / a^2; a is the short side, across. */

import type { Edge } from "../src/core/parts/diaphragm/diaphragm.ts";
import { isBuckled } from "../src/core/parts/diaphragm/modes.ts";
import { unitPlate } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Largest compression, times `along` and `across` each, that leaves the plate flat, by bisection [pi^2 D / a^2]. */
function critical(
  along: number,
  share: { across: number; along: number },
  edge: Edge = "clamped",
  ratios?: { d12: number; d22: number; d66: number },
): number {
  const buckled = (load: number) =>
    isBuckled(
      unitPlate({
        along,
        tension: { across: -load * share.across * Math.PI ** 2, along: -load * share.along * Math.PI ** 2 },
        edges: { sides: edge, ends: edge },
        ...(ratios && { ratios }),
      }),
      12,
    );
  let [flat, bent] = [0, 30];
  while (bent - flat > 1e-9) {
    const middle = (flat + bent) / 2;
    if (buckled(middle)) bent = middle;
    else flat = middle;
  }
  return flat;
}

/** Stiffnesses over D11 of a plate with directions. */
const crystal = { d12: 0.1, d22: 0.6, d66: 0.25 };

const both = { across: 1, along: 1 };
const overAcross = { across: 1, along: 0 };
const overAlong = { across: 0, along: 1 };

const spectral = "spectral code of another hand, converged to the digits shown";

const clamped: readonly (readonly [string, number, { across: number; along: number }, number, number])[] = [
  ["square, equal on both axes", 1, both, 5.30363, 0.6e-5],
  ["square, on one axis", 1, overAcross, 10.07395, 0.6e-5],
  ["square, on the other axis", 1, overAlong, 10.07395, 0.6e-5],
  ["b/a = 2, along the long side", 2, overAlong, 7.8671, 0.6e-4],
  ["b/a = 2, along the short side", 2, overAcross, 4.8347, 0.6e-4],
  ["b/a = 2, equal on both axes", 2, both, 3.9234, 0.6e-4],
];

const printed: readonly (readonly [
  string,
  number,
  { across: number; along: number },
  number,
  number,
  string,
  string,
])[] = [
  ["square, on one axis", 1, overAcross, 10.07, 0.006, "digits printed", "[levy-1942-buckling]"],
  [
    "square, equal on both axes",
    1,
    both,
    5.33,
    0.03,
    "the print is an energy value with one term, 0.5 % above the exact one",
    "[timoshenko-gere-1961]",
  ],
  [
    "b/a = 2, along the long side",
    2,
    overAlong,
    7.88,
    0.02,
    "digits printed, and 0.15 % above the exact one",
    "[levy-1942-buckling]",
  ],
];

const glass = { d12: 0.3, d22: 1, d66: 0.35 };

/**
 * Supported plate, exact: least over m, n of (x^2 + 2 (D12 + 2 D66) / D11 x y + D22 / D11 y^2) / (s_x x + s_y y), x = (m/a)^2,
 * y = (n/b)^2.
 */
function supportedCritical(along: number, share: { across: number; along: number }, ratios = glass): number {
  let least = Number.POSITIVE_INFINITY;
  for (let m = 1; m < 6; m++) {
    for (let n = 1; n < 12; n++) {
      const [x, y] = [m ** 2, (n / along) ** 2];
      const force = share.across * x + share.along * y;
      const bending = x * x + 2 * (ratios.d12 + 2 * ratios.d66) * x * y + ratios.d22 * y * y;
      if (force > 0) least = Math.min(least, bending / force);
    }
  }
  return least;
}

export const rows: readonly TruthRow[] = [
  ...clamped.map(
    ([what, along, share, expected, digit]): TruthRow => ({
      what: `clamped ${what}, critical compression / (pi^2 D / a^2) [-]`,
      got: () => critical(along, share),
      expected,
      within: digit / expected,
      why: "last digit given",
      origin: "independent method",
      source: spectral,
    }),
  ),
  ...printed.map(
    ([what, along, share, expected, digit, why, source]): TruthRow => ({
      what: `clamped ${what}, critical compression as printed / (pi^2 D / a^2) [-]`,
      got: () => critical(along, share),
      expected,
      within: digit / expected,
      why,
      origin: "published",
      source: `${source} (from memory, to be confirmed)`,
    }),
  ),
  ...(
    [
      [1, both],
      [1, overAcross],
      [2.3, overAlong],
      [0.45, overAcross],
      [2.3, both],
    ] as const
  ).map(
    ([along, share]): TruthRow => ({
      what: `supported b/a = ${along}, compression ${share.across} across : ${share.along} along, critical [pi^2 D / a^2]`,
      got: () => critical(along, share, "supported"),
      expected: supportedCritical(along, share),
      within: 1e-7,
      why: "12 functions a direction; the shape may have three half waves along and need not be even",
      origin: "exact",
      source: "sine shapes put into the equation of the supported plate",
    }),
  ),
  ...(
    [
      [1, both],
      [1.6, overAlong],
      [0.7, overAcross],
    ] as const
  ).map(
    ([along, share]): TruthRow => ({
      what: `supported orthotropic b/a = ${along}, compression ${share.across} across : ${share.along} along, critical [pi^2 D11 / a^2]`,
      got: () => critical(along, share, "supported", crystal),
      expected: supportedCritical(along, share, crystal),
      within: 1e-7,
      why: "12 functions a direction",
      origin: "exact",
      source: "sine shapes put into the equation of the supported orthotropic plate",
    }),
  ),
  ...(
    [
      ["k_r a / D = 1e8: as clamped", 1e8, 5.30363, 0.6e-5 / 5.30363],
      ["k_r a / D = 1e-7: as supported", 1e-7, 2, 1e-6],
    ] as const
  ).map(
    ([what, rotation, expected, within]): TruthRow => ({
      what: `square with elastic edges, ${what}, equal on both axes, critical [pi^2 D / a^2]`,
      got: () => critical(1, both, { rotation }),
      expected,
      within,
      why: "limit of the elastic edge, to the digits of the limit's own value",
      origin: "exact",
      source: "limits: the clamped and the supported plate",
    }),
  ),
];
