/** Materials: refractive index, photoelastic constants and silicon's plate constants against published and independent values. */
import { cubicPlate, elasticFromPlate } from "../src/core/material/cubic.ts";
import { indexAt } from "../src/core/material/dispersion.ts";
import { builtInMaterials } from "../src/core/material/materials.ts";
import { photoelasticFromStressOptic, stressOpticConstant, stressOpticPair } from "../src/core/material/stressOptic.ts";
import type { TruthRow } from "./row.ts";

function index(name: "fused-silica" | "borosilicate-crown", wavelength: number): number {
  const outcome = indexAt(builtInMaterials[name], wavelength);
  return outcome.ok ? outcome.value : Number.NaN;
}

const indices: readonly (readonly ["fused-silica" | "borosilicate-crown", number, number, string])[] = [
  ["fused-silica", 632.8e-9, 1.457018, "[malitson-1965]"],
  ["fused-silica", 1064e-9, 1.449631, "[malitson-1965]"],
  ["fused-silica", 1310e-9, 1.446804, "[malitson-1965]"],
  ["borosilicate-crown", 1064e-9, 1.506635, "[bk7-catalogue]"],
];

/** Stiffness of silicon, Hall 1967, as remembered; rounded 166, 64, 80 GPa were seen. */
const silicon = { c11: 165.64e9, c12: 63.94e9, c44: 79.51e9 };

const plateConstants: readonly (readonly [string, () => number, number, number])[] = [
  ["along <100>, q11 [GPa]", () => cubicPlate(silicon, "100").q11 / 1e9, 140.96, 0.01],
  ["along <100>, q12 [GPa]", () => cubicPlate(silicon, "100").q12 / 1e9, 39.26, 0.01],
  ["along <100>, q66 [GPa]", () => cubicPlate(silicon, "100").q66 / 1e9, 79.51, 0.01],
  ["along <110>, q11 [GPa]", () => cubicPlate(silicon, "110").q11 / 1e9, 169.62, 0.01],
  ["along <110>, q12 [GPa]", () => cubicPlate(silicon, "110").q12 / 1e9, 10.6, 0.01],
  ["along <110>, q66 [GPa]", () => cubicPlate(silicon, "110").q66 / 1e9, 50.85, 0.01],
  ["along <100>, E [GPa]", () => elasticFromPlate(cubicPlate(silicon, "100")).youngsModulus / 1e9, 130.0, 0.1],
  ["along <100>, nu [-]", () => elasticFromPlate(cubicPlate(silicon, "100")).poissonRatio, 0.2785, 1e-4],
  ["along <110>, E [GPa]", () => elasticFromPlate(cubicPlate(silicon, "110")).youngsModulus / 1e9, 169.0, 0.1],
  ["along <110>, nu [-]", () => elasticFromPlate(cubicPlate(silicon, "110")).poissonRatio, 0.0625, 1e-4],
];

const crown = { index: 1.5151, youngsModulus: 82e9, poissonRatio: 0.206 };
const crownPair = () => photoelasticFromStressOptic({ ...crown, k11: -0.5e-12, k12: -3.3e-12 });

const photoelastic: readonly (readonly [string, () => number, number, number, string])[] = [
  [
    "bulk silica, stress-optic constant, 633 nm, E 72.9, nu 0.17 [1e-12/Pa]",
    () =>
      1e12 * stressOpticConstant({ index: 1.457018, p11: 0.121, p12: 0.27, youngsModulus: 72.9e9, poissonRatio: 0.17 }),
    3.698,
    1e-3,
    "[dixon-1967] coefficients (from memory), evaluated by another hand",
  ],
  [
    "silica fiber core, stress-optic constant, 633 nm, E 72.9, nu 0.17 [1e-12/Pa]",
    () =>
      1e12 *
      stressOpticConstant({ index: 1.457018, p11: 0.113, p12: 0.252, youngsModulus: 72.9e9, poissonRatio: 0.17 }),
    3.45,
    1e-3,
    "[bertholds-1988] coefficients, evaluated by another hand",
  ],
  ["borosilicate crown, p11 from K11 and K12 [-]", () => crownPair().p11, 0.1168, 1e-4, "[bk7-stress] K11, K12"],
  ["borosilicate crown, p12 from K11 and K12 [-]", () => crownPair().p12, 0.2263, 1e-4, "[bk7-stress] K11, K12"],
  [
    "glass of the whole-chain case, stress-optic constant [1e-12/Pa]",
    () => 1e12 * stressOpticConstant({ index: 1.5151, p11: 0, p12: 0.1095, youngsModulus: 72.9e9, poissonRatio: 0.21 }),
    3.16,
    0.01,
    "independent computation of one whole device",
  ],
];

export const rows: readonly TruthRow[] = [
  ...indices.map(
    ([name, wavelength, expected, source]): TruthRow => ({
      what: `${name}, refractive index at ${(wavelength * 1e9).toFixed(1)} nm [-]`,
      got: () => index(name, wavelength),
      expected,
      within: 0.55e-6 / expected,
      why: "half the last digit given",
      origin: "independent method",
      source: `${source}, evaluated by another hand`,
    }),
  ),
  {
    what: "borosilicate-crown, refractive index at 587.5618 nm (n_d) as the catalog prints it [-]",
    got: () => index("borosilicate-crown", 587.5618e-9),
    expected: 1.5168,
    within: 0.5e-4 / 1.5168,
    why: "half the last digit printed",
    origin: "published",
    source: "[bk7-catalogue]",
  },
  ...plateConstants.map(
    ([what, got, expected, digit]): TruthRow => ({
      what: `silicon (001) plate ${what}`,
      got,
      expected,
      within: (0.55 * digit) / expected,
      why: "half the last digit given",
      origin: "independent method",
      source: "rotation by 45 degrees and plane stress, by another hand",
    }),
  ),
  ...photoelastic.map(
    ([what, got, expected, digit, source]): TruthRow => ({
      what,
      got,
      expected,
      within: (0.55 * digit) / expected,
      why: "half the last digit given",
      origin: "independent method",
      source,
    }),
  ),
  {
    what: "K11 - K12 over the stress-optic constant, any glass [-]",
    got: () => {
      const glass = { index: 1.5, p11: 0.11, p12: 0.23, youngsModulus: 7e10, poissonRatio: 0.22 };
      const { k11, k12 } = stressOpticPair(glass);
      return (k11 - k12) / stressOpticConstant(glass);
    },
    expected: 1,
    within: 1e-14,
    why: "round-off",
    origin: "exact",
    source: "identity of the two definitions",
  },
];
