/** Photoelastic weights of a guide in a cubic crystal along <110>, against the turned fourth-rank tensor. */
import { cubicWeights, glassWeights } from "../src/core/parts/guide/cubic.ts";
import type { TruthRow } from "./row.ts";

/** Silicon's elasto-optic coefficients and stiffness; here only numbers of some crystal. */
const crystal = { p11: -0.094, p12: 0.017, p44: -0.051, c11: 165.64e9, c12: 63.94e9 };

/** p_ijkl of a cubic crystal in its own axes. */
function own(i: number, j: number, k: number, l: number): number {
  if (i === j && k === l) return i === k ? crystal.p11 : crystal.p12;
  if ((i === k && j === l) || (i === l && j === k)) return crystal.p44;
  return 0;
}

/** p'_iikk after a turn by 45 degrees about axis 3: sum over all 81 products of direction cosines. */
function turned(i: number, k: number): number {
  const s = Math.SQRT1_2;
  const q = [
    [s, s, 0],
    [-s, s, 0],
    [0, 0, 1],
  ];
  const axes = [0, 1, 2];
  let sum = 0;
  for (const a of axes)
    for (const b of axes)
      for (const c of axes)
        for (const e of axes) sum += q[i]![a]! * q[i]![b]! * q[k]![c]! * q[k]![e]! * own(a, b, c, e);
  return sum;
}

/** Change of B_x - B_z for strain along k (0 across, 1 along) with sigma_z = 0. */
function expected(k: 0 | 1): number {
  const free = -crystal.c12 / crystal.c11;
  return turned(0, k) + turned(0, 2) * free - (turned(2, k) + turned(2, 2) * free);
}

const glass = { p11: 0.121, p12: 0.27, nu: 0.21 };
/** Isotropic: p44 = (p11 - p12) / 2, c12 / c11 = nu / (1 - nu). */
const isotropicCrystal = {
  p11: glass.p11,
  p12: glass.p12,
  p44: (glass.p11 - glass.p12) / 2,
  c11: 1 - glass.nu,
  c12: glass.nu,
};

export const rows: readonly TruthRow[] = [
  ...([0, 1] as const).map(
    (k): TruthRow => ({
      what: `cubic crystal along <110>, weight of the strain ${k === 0 ? "across" : "along"} the guide [-]`,
      got: () => (k === 0 ? cubicWeights(crystal).x : cubicWeights(crystal).y),
      expected: expected(k),
      within: 1e-12,
      why: "round-off",
      origin: "exact",
      source: "turn of the fourth-rank tensor, written out",
    }),
  ),
  {
    what: "isotropic limit of the crystal's weights, across: (p11 - p12) / (1 - nu) [-]",
    got: () => cubicWeights(isotropicCrystal).x,
    expected: (glass.p11 - glass.p12) / (1 - glass.nu),
    within: 1e-13,
    why: "round-off",
    origin: "exact",
    source: "eps_x - eps_z of an isotropic sheet",
  },
  {
    what: "isotropic limit of the crystal's weights, along: nu (p11 - p12) / (1 - nu) [-]",
    got: () => cubicWeights(isotropicCrystal).y,
    expected: (glass.nu * (glass.p11 - glass.p12)) / (1 - glass.nu),
    within: 1e-13,
    why: "round-off",
    origin: "exact",
    source: "eps_x - eps_z of an isotropic sheet",
  },
  {
    what: "weights of glass, across [-]",
    got: () => glassWeights({ p11: glass.p11, p12: glass.p12, poissonRatio: glass.nu }).x,
    expected: -0.149 / 0.79,
    within: 1e-13,
    why: "round-off",
    origin: "exact",
    source: "(0.121 - 0.27) / (1 - 0.21)",
  },
];
