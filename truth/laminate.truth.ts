/** Layered plates: closed forms of two layers, and a cross-ply stack reckoned by another program. */
import { type Laminate, type Layer, laminate } from "../src/core/parts/diaphragm/laminate.ts";
import { isotropic } from "./devices.ts";
import type { TruthRow } from "./row.ts";

function stack(layers: readonly Layer[]): Laminate {
  const outcome = laminate(layers);
  if (!outcome.ok) throw new Error(outcome.problems.map((problem) => problem.message).join(" "));
  return outcome.value;
}

const still = { across: 0, along: 0 };
const close = "round-off";

/** Two isotropic layers of one Poisson's ratio; layer 1 in front. */
const two = { modulus1: 72.9e9, modulus2: 169e9, thickness1: 5e-6, thickness2: 22e-6, nu: 0.21 };

const bimetal = (stress1 = 0, stress2 = 0) =>
  stack([
    {
      thickness: two.thickness1,
      stiffness: isotropic(two.modulus1, two.nu),
      density: 2200,
      stress: { across: stress1, along: stress1 },
    },
    {
      thickness: two.thickness2,
      stiffness: isotropic(two.modulus2, two.nu),
      density: 2329,
      stress: { across: stress2, along: stress2 },
    },
  ]);

/** EI per width of a bonded two-layer beam, plane strain moduli: (e1^2 h1^4 + e2^2 h2^4 + 2 e1 e2 h1 h2 (2 h1^2 + 3 h1 h2 + 2 h2^2)) / (12 (e1 h1 + e2 h2)). */
function bimetalStiffness(): number {
  const { thickness1: h1, thickness2: h2, nu } = two;
  const e1 = two.modulus1 / (1 - nu ** 2);
  const e2 = two.modulus2 / (1 - nu ** 2);
  const sum = e1 ** 2 * h1 ** 4 + e2 ** 2 * h2 ** 4 + 2 * e1 * e2 * h1 * h2 * (2 * h1 ** 2 + 3 * h1 * h2 + 2 * h2 ** 2);
  return sum / (12 * (e1 * h1 + e2 * h2));
}

/** Neutral plane from the front face: (e1 h1^2 / 2 + e2 h2 (h1 + h2 / 2)) / (e1 h1 + e2 h2). */
function bimetalNeutral(): number {
  const { modulus1: e1, modulus2: e2, thickness1: h1, thickness2: h2 } = two;
  return ((e1 * h1 ** 2) / 2 + e2 * h2 * (h1 + h2 / 2)) / (e1 * h1 + e2 * h2);
}

/** Curvature of a free two-layer strip for a misfit of strain, 6 misfit (1 + m)^2 / (h (3 (1 + m)^2 + (1 + m n)(m^2 + 1 / (m n)))). */
function bimetalCurvature(misfit: number): number {
  const m = two.thickness1 / two.thickness2;
  const n = two.modulus1 / two.modulus2;
  const h = two.thickness1 + two.thickness2;
  return (6 * misfit * (1 + m) ** 2) / (h * (3 * (1 + m) ** 2 + (1 + m * n) * (m ** 2 + 1 / (m * n))));
}

/** A thin stressed film on a thick substrate bends it to sigma h_f 6 (1 - nu) / (E h_s^2). */
const stoney = { film: 1e-9, substrate: 300e-6, stress: 100e6, modulus: 72.9e9, nu: 0.21 };

/** T300/5208: E1 181 GPa, E2 10.3 GPa, nu12 0.28, G12 7.17 GPa; plies of 125 um. */
function ply(angle: 0 | 90): Layer {
  const [e1, e2, nu12, q66] = [181e9, 10.3e9, 0.28, 7.17e9];
  const held = 1 - (nu12 ** 2 * e2) / e1;
  const [along, over, q12] = [e1 / held, e2 / held, (nu12 * e2) / held];
  const stiffness = angle === 0 ? { q11: along, q12, q22: over, q66 } : { q11: over, q12, q22: along, q66 };
  return { thickness: 125e-6, stiffness, density: 1600, stress: still };
}

const crossPly = () => stack([ply(0), ply(90), ply(90), ply(0)]);
const unbalanced = () => stack([ply(0), ply(90), ply(0), ply(90)]);

const another = "another public program's verification values for the [0/90]s stack of T300/5208, 125 um plies";

const crossPlyValues: readonly (readonly [string, (plate: Laminate) => number, number])[] = [
  ["D11 [N m]", (plate) => plate.bending.s11, 1.67060433677],
  ["D22 [N m]", (plate) => plate.bending.s22, 0.331034179627],
  ["D12 [N m]", (plate) => plate.bending.s12, 0.0301762962953],
  ["D66 [N m]", (plate) => plate.bending.s66, 0.0746875],
  ["A11 [N/m]", (plate) => plate.a.s11, 48039324.3936],
  ["A22 [N/m]", (plate) => plate.a.s22, 48039324.3936],
  ["A12 [N/m]", (plate) => plate.a.s12, 1448462.22217],
  ["A66 [N/m]", (plate) => plate.a.s66, 3585000],
];

export const rows: readonly TruthRow[] = [
  ...crossPlyValues.map(
    ([what, got, expected]): TruthRow => ({
      what: `cross-ply [0/90]s, ${what}`,
      got: () => got(crossPly()),
      expected,
      within: 1e-11,
      why: "twelve digits given",
      origin: "independent method",
      source: another,
    }),
  ),
  {
    what: "cross-ply [0/90/0/90], size of the coupling B11 [N]",
    got: () => Math.abs(unbalanced().b.s11),
    expected: 2679.14031429,
    within: 1e-11,
    why: "twelve digits given",
    origin: "independent method",
    source: another,
  },
  {
    what: "cross-ply [0/90/0/90], B11 + B22 [N]: equal and opposite",
    got: () => unbalanced().b.s11 + unbalanced().b.s22,
    expected: 0,
    within: 1e-9,
    why: close,
    origin: "exact",
    source: "the stack turned by 90 degrees and over is itself",
  },
  {
    what: "two layers of one Poisson's ratio, effective D [N m]",
    got: () => bimetal().bending.s11,
    expected: bimetalStiffness(),
    within: 1e-12,
    why: close,
    origin: "exact",
    source: "transformed section of a two-layer beam",
  },
  {
    what: "two layers of one Poisson's ratio, effective D12 / D11 [-]",
    got: () => bimetal().bending.s12 / bimetal().bending.s11,
    expected: 0.21,
    within: 1e-12,
    why: close,
    origin: "exact",
    source: "nu of both layers",
  },
  {
    what: "two layers, neutral plane from the front face [m]",
    got: () => bimetal().neutral.across + bimetal().thickness / 2,
    expected: bimetalNeutral(),
    within: 1e-12,
    why: close,
    origin: "exact",
    source: "center of stiffness of a two-layer beam",
  },
  {
    what: "two layers, mass per area [kg/m2]",
    got: () => bimetal().massPerArea,
    expected: 2200 * 5e-6 + 2329 * 22e-6,
    within: 1e-14,
    why: close,
    origin: "exact",
    source: "sum of density times thickness",
  },
  {
    what: "two layers with misfit strain 1e-4, curvature when free [1/m]",
    got: () => {
      // Layer 1 would be longer by the misfit: held flat, it is under -E / (1 - nu) misfit on both axes.
      const plate = bimetal((-two.modulus1 / (1 - two.nu)) * 1e-4, 0);
      return Math.abs(plate.moment.across / (plate.bending.s11 + plate.bending.s12));
    },
    expected: bimetalCurvature(1e-4),
    within: 1e-12,
    why: "round-off; both axes alike, so E / (1 - nu) takes the place of E in both layers",
    origin: "published",
    source: "[timoshenko-1925] equation of the bimetal strip (from memory; derived again in docs/theory/laminate.md)",
  },
  {
    what: "stressed film on a thick substrate, curvature when free [1/m]",
    got: () => {
      const { film, substrate, stress, modulus, nu } = stoney;
      const plate = stack([
        {
          thickness: film,
          stiffness: isotropic(modulus, nu),
          density: 2200,
          stress: { across: stress, along: stress },
        },
        { thickness: substrate, stiffness: isotropic(modulus, nu), density: 2200, stress: still },
      ]);
      return Math.abs(plate.moment.across / (plate.bending.s11 + plate.bending.s12));
    },
    expected: (6 * stoney.stress * stoney.film * (1 - stoney.nu)) / (stoney.modulus * stoney.substrate ** 2),
    within: 2e-5,
    why: "exact in the limit of a thin film; 3 film / substrate is 1e-5",
    origin: "exact",
    source: "Stoney's formula",
  },
  {
    what: "one layer cut in three, effective D against the whole [-]",
    got: () => {
      const part = (thickness: number): Layer => ({
        thickness,
        stiffness: isotropic(72.9e9, 0.21),
        density: 2510,
        stress: still,
      });
      return stack([part(7e-6), part(11e-6), part(12e-6)]).bending.s11 / stack([part(30e-6)]).bending.s11;
    },
    expected: 1,
    within: 1e-12,
    why: close,
    origin: "exact",
    source: "cutting a plate in thought changes nothing",
  },
];
