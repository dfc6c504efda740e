/** Edges held by an adhesive line. */
import { bondRotation } from "../src/core/parts/diaphragm/bond.ts";
import { isotropic } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const thickness = 30e-6;
const across = 5.5e-3;
const d = (72.9e9 * thickness ** 3) / (12 * (1 - 0.21 ** 2));
const bond = { modulus: 3e9, thickness: 10e-6 };
const plate = { stiffness: isotropic(72.9e9, 0.21), thickness };

export const rows: readonly TruthRow[] = [
  {
    what: "adhesive of 3 GPa, 10 um under 30 um of glass, a = 5.5 mm: k_r a / D [-]",
    got: () => (bondRotation(plate, bond).rotation * across) / d,
    expected: 141,
    within: 0.5 / 141,
    why: "three digits given",
    origin: "own derivation",
    source: "docs/theory/bond.md",
  },
  {
    what: "adhesive under a long overlap: moment over rotation, k_r [N]",
    got: () => bondRotation(plate, bond).rotation,
    // Rotation under an end moment: 4 M0 beta^3 / k, beta = (k / (4 D))^(1/4).
    expected: 3e14 / (4 * (3e14 / (4 * d)) ** 0.75),
    within: 1e-12,
    why: "round-off; the same formula in the form that handbooks print",
    origin: "published",
    source: "[hetenyi-1946] semi-infinite beam with a moment at its end (from memory, to be confirmed)",
  },
];
