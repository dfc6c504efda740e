/** Compression at which a clamped plate leaves its plane, in pi^2 D / a^2; a is the short side, across. */
import { isBuckled } from "../src/core/parts/diaphragm/modes.ts";
import { unitPlate } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Largest compression, times `along` and `across` each, that leaves the plate flat, by bisection [pi^2 D / a^2]. */
function critical(along: number, share: { across: number; along: number }, edges?: "supported"): number {
  const buckled = (load: number) =>
    isBuckled(
      unitPlate({
        along,
        tension: { across: -load * share.across * Math.PI ** 2, along: -load * share.along * Math.PI ** 2 },
        ...(edges ? { edges: { sides: edges, ends: edges } } : {}),
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

/** Supported plate, exact: least over m, n of ((m/a)^2 + (n/b)^2)^2 / (s_x (m/a)^2 + s_y (n/b)^2). */
function supportedCritical(along: number, share: { across: number; along: number }): number {
  let least = Number.POSITIVE_INFINITY;
  for (let m = 1; m < 6; m++) {
    for (let n = 1; n < 12; n++) {
      const [x, y] = [m ** 2, (n / along) ** 2];
      const force = share.across * x + share.along * y;
      if (force > 0) least = Math.min(least, (x + y) ** 2 / force);
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
];
