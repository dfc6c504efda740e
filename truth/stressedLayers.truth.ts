/** A plate that the stresses of its layers bow: edge moments on supported plates, strips on springs, under tension, far bent. */
import type { Diaphragm, Edge } from "../src/core/parts/diaphragm/diaphragm.ts";
import { laminate, layeredSheet } from "../src/core/parts/diaphragm/laminate.ts";
import { type LoadedPlate, largeDeflection } from "../src/core/parts/diaphragm/largeDeflection.ts";
import { isotropic, unitPlate } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const supported = { sides: "supported", ends: "supported" } as const;
/** Bows by a ten-thousandth of the thickness: stretch is of no account. */
const slight = 1e-6;

const bowed = (diaphragm: Diaphragm, moment: Diaphragm["moment"], functions = 8): LoadedPlate =>
  largeDeflection({ ...diaphragm, ...(moment && { moment }) }, { functions }).at(0);

/** D = 1, a = 1, supported all round, nu 0.3, under a moment of the layers of size one on the axes named. */
function atCenter(along: number, axes: { across: number; along: number }) {
  const moment = { across: slight * axes.across, along: slight * axes.along };
  const plate = bowed(unitPlate({ along, edges: supported }), moment);
  const { xx, yy } = plate.curvature(0, 0);
  return {
    deflection: plate.deflection(0, 0) / slight,
    // What bending alone answers: the layers' moment is not in it.
    x: (xx + 0.3 * yy) / slight,
    y: (yy + 0.3 * xx) / slight,
  };
}

/** Depth of lap w = 1 in the middle of a rectangle 1 x b with w = 0 around it: 1/8 - (4 / pi^3) sum (-1)^k / (m^3 cosh(m pi b / 2)). */
function dish(b: number): number {
  let sum = 1 / 8;
  for (let k = 0; k < 12; k++) {
    const m = 2 * k + 1;
    sum -= ((4 / Math.PI ** 3) * (-1) ** k) / (m ** 3 * Math.cosh((m * Math.PI * b) / 2));
  }
  return sum;
}

const both = { across: 1, along: 1 };
const table = "[timoshenko-1959] section 43: equal moments along all edges make a dish of constant sum of moments";

const onAllEdges = [
  [1, 0.0736, 1e-4 / 0.0736],
  [1.5, dish(1.5), 2e-6],
  [2, dish(2), 2e-6],
  [1, dish(1), 2e-6],
] as const;

/** A strip across: 8 times as long as wide, so that its middle does not know of the ends. */
const strip = (sides: Edge, more: { tension?: Diaphragm["tension"] } = {}) =>
  unitPlate({ along: 8, edges: { sides, ends: "supported" }, ...more });
const middle = (diaphragm: Diaphragm, size = slight) =>
  bowed(diaphragm, { across: size, along: 0 }, 10).deflection(0, 0) / size;
const ends = "the ends of a strip 8 times as long as wide";

/** Tension of the strip that a large moment bends between edges that give nothing: N = A <w'^2> / 2, by bisection. */
function farBent(moment: number, membrane: number): number {
  const stretched = (force: number) => {
    const k = Math.sqrt(force);
    const slope = moment / (k * Math.cosh(k / 2));
    return (membrane * slope ** 2 * (Math.sinh(k) / k - 1)) / 4;
  };
  let [low, high] = [1e-6, 1e6];
  for (let step = 0; step < 200; step++) {
    const force = Math.sqrt(low * high);
    if (stretched(force) > force) low = force;
    else high = force;
  }
  return (moment / low) * (1 / Math.cosh(Math.sqrt(low) / 2) - 1);
}

/** Layer 1 in front, 5 um of E 72.9 GPa, on 22 um of 169 GPa, both nu 0.21; layer 1 would be longer by the misfit. */
const pair = { modulus1: 72.9e9, modulus2: 169e9, thickness1: 5e-6, thickness2: 22e-6, nu: 0.21, misfit: 1e-6 };

function bimetalStrip(): Diaphragm {
  const { modulus1, modulus2, thickness1, thickness2, nu, misfit } = pair;
  const stress = (-modulus1 / (1 - nu)) * misfit;
  const layers = [
    {
      thickness: thickness1,
      stiffness: isotropic(modulus1, nu),
      density: 2200,
      stress: { across: stress, along: stress },
    },
    { thickness: thickness2, stiffness: isotropic(modulus2, nu), density: 2329, stress: { across: 0, along: 0 } },
  ];
  const made = laminate(layers);
  if (!made.ok) throw new Error("two sound layers");
  return {
    ...layeredSheet(layers, made.value),
    across: 1e-3,
    along: 8e-3,
    edges: supported,
    // The force in the plane is left out: the strip of the formula is free to slide.
    tension: { across: 0, along: 0 },
    moment: made.value.moment,
    lossFactor: 0,
  };
}

/** Curvature of the free strip of [timoshenko-1925]. */
function bimetalCurvature(): number {
  const { modulus1, modulus2, thickness1, thickness2, misfit } = pair;
  const [m, n, h] = [thickness1 / thickness2, modulus1 / modulus2, thickness1 + thickness2];
  return (6 * misfit * (1 + m) ** 2) / (h * (3 * (1 + m) ** 2 + (1 + m * n) * (m ** 2 + 1 / (m * n))));
}

export const rows: readonly TruthRow[] = [
  ...onAllEdges.map(
    ([b, expected, within]): TruthRow => ({
      what: `supported plate b/a = ${b}, moments on all edges, center deflection D / (M a^2) [-]`,
      got: () => -atCenter(b, both).deflection,
      expected,
      within,
      why:
        within > 1e-4
          ? "the print is twice 0.0368, whose last digit is rounded"
          : "series of the same dish; resolution of 8 functions",
      origin: within > 1e-4 ? "published" : "exact",
      source: within > 1e-4 ? `${table} (printed value from memory)` : table,
    }),
  ),
  {
    what: "supported square, moments on all edges: bending moment in the middle over M [-]",
    got: () => atCenter(1, both).x,
    expected: 0.65,
    within: 1e-5,
    why: "exact: M_x + M_y = (1 + nu) M everywhere, alike in the middle; resolution",
    origin: "exact",
    source: table,
  },
  ...(
    [
      ["center deflection D / (M a^2)", (plate: ReturnType<typeof atCenter>) => -plate.deflection, 0.0368],
      [
        "bending moment across from the one edge to the other, in the middle, over M",
        (plate: ReturnType<typeof atCenter>) => plate.x,
        0.256,
      ],
      [
        "bending moment along those edges, in the middle, over M",
        (plate: ReturnType<typeof atCenter>) => plate.y,
        0.394,
      ],
    ] as const
  ).map(
    ([what, got, expected]): TruthRow => ({
      what: `supported square, moments on one pair of edges: ${what} [-]`,
      got: () => got(atCenter(1, { across: 1, along: 0 })),
      expected,
      within: expected < 0.1 ? 5e-5 / expected : 5e-4 / expected,
      why: "digits printed",
      origin: "published",
      source:
        "[timoshenko-1959] table of the square plate under moments along two opposite edges, nu 0.3 (from memory; Levy's series reckoned again in another program gives 0.036836, 0.39381, 0.25619)",
    }),
  ),
  {
    what: "clamped plate: no bow from any moment of its layers [-]",
    got: () => bowed(unitPlate({}), { across: 1, along: -0.3 }).deflection(0, 0),
    expected: 0,
    within: 1e-30,
    why: "exact",
    origin: "exact",
    source: "the mean of w_xx is the difference of slopes at the edges",
  },
  ...[3, 50].map(
    (spring): TruthRow => ({
      what: `strip whose edges turn on springs k a / D = ${spring}: depth D / (M a^2) [-]`,
      got: () => middle(strip({ rotation: spring })),
      expected: -1 / (8 * (1 + spring / 2)),
      within: 5e-4,
      why: `${ends}, in 10 functions`,
      origin: "exact",
      source: "moment of the layers less that of the springs, k a w_xx / 2, bends a strip evenly",
    }),
  ),
  ...[40, -2].map(
    (force): TruthRow => ({
      what: `supported strip under N a^2 / D = ${force}: depth D / (M a^2) [-]`,
      got: () => middle(strip("supported", { tension: { across: force, along: 0 } })),
      expected: (1 / (force > 0 ? Math.cosh(Math.sqrt(force) / 2) : Math.cos(Math.sqrt(-force) / 2)) - 1) / force,
      within: 1e-3,
      why: ends,
      origin: "exact",
      source: "D w'''' = N w'' with w = 0 and D w'' = M at both edges",
    }),
  ),
  {
    what: "supported strip bowed by its thickness between edges that give nothing: depth over thickness [-]",
    got: () => 1e3 * middle(strip("supported"), 0.02) * 0.02,
    expected: 1e3 * farBent(0.02, 12e6),
    within: 2e-3,
    why: `${ends}; bending and stretch together`,
    origin: "exact",
    source: "the same strip with the tension that its own stretch makes, N = A <w'^2> / 2",
  },
  {
    what: "bimetal strip of a plate supported along its sides: depth [m]",
    got: () => Math.abs(largeDeflection(bimetalStrip(), { functions: 10 }).at(0).deflection(0, 0)),
    // A plate so long bends about one axis only: (1 + nu) times the curvature of one free to bend about both.
    expected: ((1 + pair.nu) * bimetalCurvature() * 1e-3 ** 2) / 8,
    within: 1e-3,
    why: ends,
    origin: "published",
    source: "[timoshenko-1925] curvature of the bimetal strip, depth = curvature times side^2 / 8",
  },
];
