/** The built-in materials: a table. Room temperature, SI; keys in brackets lead to docs/sources.md. */
import { cubicPlate } from "./cubic.ts";
import type { Certainty, Elasticity, Index, Material, Sourced } from "./material.ts";

const from = (source: string, sure: Certainty) => {
  return (value: number, range?: readonly [number, number]): Sourced =>
    range ? { value, source, sure, range } : { value, source, sure };
};

const silica = from("[silica-pages]", "seen");
const crown = from("[bk7-catalogue]", "seen");
const crownMemory = from("[bk7-catalogue]", "from memory");
const crownStress = from("[bk7-stress]: from K11 and K12 with E 82 GPa, nu 0.206, n 1.5151", "computed");
const dixon = from("[dixon-1967]: bulk, 633 nm", "from memory");
const thin = from("[sheet-makers]", "from memory");
const boro33 = from("[boro33-page]", "seen");
const float = from("[en-572]", "seen");
const floatStress = from("[en-572]", "from memory");
const alkali = from("[sheet-makers]: generic, middle of the range", "from memory");
const film = from("[vlassak-1992]: film, low-pressure deposition", "seen");
const filmMemory = from("[vlassak-1992]: generic film values", "from memory");
const wafer = from("[johnson-1995]", "seen");
const waferMemory = from("[hall-1967]", "from memory");
const waferStrain = from("[biegelsen-1974]: at 3.39 um, the light that silicon passes", "from memory");

/** Helium d line, where catalogs give n_d [m]. */
const dLine = 587.5618e-9;

const isotropic = (youngsModulus: Sourced, poissonRatio: Sourced): Elasticity => ({
  kind: "isotropic",
  youngsModulus,
  poissonRatio,
});
const indexAtLine = (index: Sourced, at = dLine): Index => ({ kind: "fixed", index, at });

const none = { p11: null, p12: null, stressOptic: null, indexPerKelvin: null, strength: null };

export type BuiltInName =
  | "fused-silica"
  | "borosilicate-crown"
  | "thin-borosilicate"
  | "borosilicate-3.3"
  | "soda-lime"
  | "aluminosilicate"
  | "silicon-100-110"
  | "silicon-nitride";

export const builtInMaterials: Readonly<Record<BuiltInName, Material>> = {
  "fused-silica": {
    ...none,
    name: "fused-silica",
    elasticity: isotropic(silica(73e9, [72e9, 73e9]), silica(0.17)),
    density: silica(2203),
    index: {
      kind: "sellmeier",
      b: [0.6961663, 0.4079426, 0.8974794],
      c: [0.0684043e-6 ** 2, 0.1162414e-6 ** 2, 9.896161e-6 ** 2],
      from: 0.21e-6,
      to: 3.71e-6,
      source: "[malitson-1965]",
      sure: "seen",
    },
    // A fiber core's pair, 0.113 and 0.252 [bertholds-1988], gives 7 % less phase: carry at least that as uncertainty.
    p11: dixon(0.121, [0.113, 0.121]),
    p12: dixon(0.27, [0.252, 0.27]),
    expansion: silica(0.55e-6, [0.52e-6, 0.55e-6]),
    indexPerKelvin: from("[silica-pages]: near 1 um", "from memory")(1.0e-5, [1.0e-5, 1.19e-5]),
  },
  "borosilicate-crown": {
    ...none,
    name: "borosilicate-crown",
    elasticity: isotropic(crownMemory(82e9), crownMemory(0.206)),
    density: crown(2510),
    index: {
      kind: "sellmeier",
      b: [1.03961212, 0.231792344, 1.01046945],
      c: [0.00600069867e-12, 0.0200179144e-12, 103.560653e-12],
      from: 0.3e-6,
      to: 2.5e-6,
      source: "[bk7-catalogue]",
      sure: "seen",
    },
    p11: crownStress(0.1168),
    p12: crownStress(0.2263),
    expansion: crown(7.1e-6, [7.1e-6, 8.3e-6]),
    indexPerKelvin: crownMemory(2.4e-6),
  },
  "thin-borosilicate": {
    ...none,
    name: "thin-borosilicate",
    elasticity: isotropic(thin(72.9e9), thin(0.208)),
    density: thin(2510),
    index: indexAtLine(thin(1.523)),
    stressOptic: thin(3.5e-12),
    expansion: thin(7.2e-6),
  },
  "borosilicate-3.3": {
    ...none,
    name: "borosilicate-3.3",
    elasticity: isotropic(boro33(63.5e9, [63e9, 64e9]), boro33(0.2)),
    density: boro33(2230),
    index: indexAtLine(boro33(1.473)),
    stressOptic: boro33(4.0e-12),
    expansion: boro33(3.3e-6),
  },
  "soda-lime": {
    ...none,
    name: "soda-lime",
    // Design values; measured Poisson's ratios lie near 0.23.
    elasticity: isotropic(float(70e9), float(0.2, [0.2, 0.23])),
    density: float(2500),
    index: indexAtLine(float(1.52)),
    stressOptic: floatStress(2.6e-12, [2.5e-12, 2.7e-12]),
    expansion: float(9.0e-6),
  },
  aluminosilicate: {
    ...none,
    name: "aluminosilicate",
    elasticity: isotropic(alkali(72e9, [71e9, 73e9]), alkali(0.215, [0.21, 0.22])),
    density: alkali(2435, [2420, 2450]),
    index: indexAtLine(alkali(1.505, [1.5, 1.51])),
    stressOptic: alkali(3.05e-12, [2.9e-12, 3.2e-12]),
    expansion: alkali(8.0e-6, [7.5e-6, 8.5e-6]),
  },
  "silicon-100-110": {
    ...none,
    name: "silicon-100-110",
    elasticity: {
      kind: "orthotropic",
      stiffness: cubicPlate({ c11: 165.64e9, c12: 63.94e9, c44: 79.51e9 }, "110"),
      source: "[hall-1967], turned by 45 degrees; rounded values seen in [johnson-1995]",
      sure: "computed",
    },
    density: wafer(2329),
    index: indexAtLine(waferMemory(3.48), 1550e-9),
    transparentFrom: 1.1e-6,
    p11: waferStrain(-0.094),
    p12: waferStrain(0.017),
    p44: waferStrain(-0.051),
    expansion: wafer(2.6e-6),
  },
  "silicon-nitride": {
    ...none,
    name: "silicon-nitride",
    elasticity: isotropic(film(222e9, [219e9, 225e9]), film(0.28, [0.23, 0.33])),
    density: filmMemory(3050, [3000, 3100]),
    index: indexAtLine(filmMemory(2.0)),
    expansion: filmMemory(2.3e-6),
  },
};

/** The built-in material of that name; null: none. */
export function builtInMaterial(name: string): Material | null {
  return Object.hasOwn(builtInMaterials, name) ? builtInMaterials[name as BuiltInName] : null;
}
