/** Modes of guides: slabs, graded slabs, a square core, a round fiber; effective index, mean depth. */
import { erf, erfc } from "../src/core/numerics/errorFunction.ts";
import type { CrossSection, Polarization } from "../src/core/parts/guide/modes/crossSection.ts";
import { meanDepth } from "../src/core/parts/guide/modes/modeShape.ts";
import { type FieldKind, type Mode, solveModes } from "../src/core/parts/guide/modes/solveModes.ts";
import type { TruthRow } from "./row.ts";

const um = 1e-6;
const both = (index: number) => ({ TE: index, TM: index });

function section(given: {
  index: (x: number, z: number) => number;
  across?: readonly number[];
  depth: readonly number[];
  cover: number;
  low: number;
  high: number;
}): CrossSection {
  return {
    index: given.index,
    across: given.across ?? [],
    depth: given.depth,
    cover: given.cover,
    cutoff: both(given.low),
    highest: both(given.high),
    slab: given.across === undefined,
  };
}

const step = (high: number, low: number, thickness: number, cover: number) =>
  section({ index: (_x, z) => (z < thickness ? high : low), depth: [thickness], cover, low, high });

interface Asked {
  readonly wavelength?: number;
  readonly polarization?: Polarization;
  readonly field?: FieldKind;
  readonly degree?: number;
  readonly order?: number;
}

function mode(of: CrossSection, asked: Asked = {}): Mode {
  const { wavelength = 1.31 * um, polarization = "TE", field = "semivectorial", degree = 8, order = 0 } = asked;
  const found = solveModes(of, { wavelength, polarization, field, odd: false, count: order + 1, degree })[order];
  if (found === undefined) throw new Error("no mode");
  return found;
}

/** Normalized index b = (N^2 - n_low^2) / (n_high^2 - n_low^2) of a slab of normalized thickness V = k t sqrt(...). */
function normalized(of: (thickness: number) => CrossSection, v: number, asked: Asked = {}): number {
  const wavelength = asked.wavelength ?? 1.31 * um;
  const high = of(um).highest.TE;
  const low = of(um).cutoff.TE;
  const thickness = (v * wavelength) / (2 * Math.PI * Math.sqrt(high ** 2 - low ** 2));
  return (mode(of(thickness), asked).index ** 2 - low ** 2) / (high ** 2 - low ** 2);
}

const slab = step(1.52, 1.51, 4 * um, 1);
const asymmetry = (a: number) => Math.sqrt(1.51 ** 2 - a * (1.52 ** 2 - 1.51 ** 2));

const exponentialBase = 1.503583;
const exponential = section({
  index: (_x, z) => Math.sqrt(exponentialBase ** 2 + 2 * exponentialBase * 0.009 * Math.exp(-z / (4 * um))),
  depth: [1, 3, 6, 10, 16, 24, 36, 50].map((z) => z * um),
  cover: 1,
  low: exponentialBase,
  high: Math.sqrt(exponentialBase ** 2 + 2 * exponentialBase * 0.009),
});
const erfcGuide = section({
  index: (_x, z) => exponentialBase + 0.009 * erfc(z / (4 * um)),
  depth: [2, 5, 10].map((z) => z * um),
  cover: 1,
  low: exponentialBase,
  high: exponentialBase + 0.009,
});
const middle = 30 * um;
const sech = (z: number) => 1 / Math.cosh((2 * (z - middle)) / (6 * um));
const sechGuide = section({
  index: (_x, z) => Math.sqrt(exponentialBase ** 2 + 2 * exponentialBase * 0.009 * sech(z) ** 2),
  depth: [15, 21, 25, 28, 30, 32, 35, 39, 45].map((z) => z * um),
  cover: exponentialBase,
  low: exponentialBase,
  high: Math.sqrt(exponentialBase ** 2 + 2 * exponentialBase * 0.009),
});

/** A square core of side t with V = k t sqrt(n1^2 - n2^2), deep in its cladding. */
function square(field: FieldKind, degree: number, v = 3): number {
  const [high, low, wavelength] = [1.46, 1.45, um];
  const t = (v * wavelength) / (2 * Math.PI * Math.sqrt(high ** 2 - low ** 2));
  const core = section({
    index: (x, z) => (x < t / 2 && z > t && z < 2 * t ? high : low),
    across: [t / 2],
    depth: [t, 1.5 * t, 2 * t],
    cover: low,
    low,
    high,
  });
  return (mode(core, { wavelength, field, degree }).index ** 2 - low ** 2) / (high ** 2 - low ** 2);
}

/**
 * A round fiber whose edge is washed out as an error function of length delta in n^2; the error falls as delta^2, so two of them
 * give the sharp one.
 */
function fiber(delta: number, field: FieldKind): number {
  const [core, cladding, radius] = [1.4504, 1.4447, 4.1 * um];
  const reach = radius + 2 * delta;
  const center = reach + delta;
  const lines = (from: number, to: number) => {
    const count = Math.ceil((to - from) / (0.9 * um));
    return Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 1)) / count);
  };
  const round = section({
    index: (x, z) => {
      const inside = 0.5 * (1 - erf((Math.hypot(x, z - center) - radius) / delta));
      return Math.sqrt(cladding ** 2 + (core ** 2 - cladding ** 2) * inside);
    },
    across: lines(0, reach),
    depth: [delta, ...lines(delta, center + reach)],
    cover: cladding,
    low: cladding,
    high: core,
  });
  return mode(round, { wavelength: 1.55 * um, field, degree: 5 }).index;
}

const fiberLimit = (field: FieldKind) => {
  const [wide, narrow] = [fiber(0.5 * um, field), fiber(0.3 * um, field)];
  return narrow + (narrow - wide) / ((0.5 / 0.3) ** 2 - 1);
};

const exact = (what: string, got: () => number, expected: number, within: number, why: string): TruthRow => ({
  what,
  got,
  expected,
  within,
  why,
  origin: "exact",
  source: "transcendental equation of the layered or graded guide, solved by another hand",
});

export const rows: readonly TruthRow[] = [
  exact(
    "slab 1.52 on 1.51 under air, 4 um, 1.31 um, TE0 [-]",
    () => mode(slab).index,
    1.5153299367755,
    1e-9,
    "grid of degree 8",
  ),
  exact("the same, TM0 [-]", () => mode(slab, { polarization: "TM" }).index, 1.5151408399285, 1e-9, "grid of degree 8"),
  exact(
    "symmetric slab, TE0, V = 2, b [-]",
    () => normalized((t) => step(1.52, 1.51, t, 1.51), 2),
    0.45375316586,
    1e-8,
    "grid of degree 8",
  ),
  exact(
    "symmetric slab, TE0, V = 4, b [-]",
    () => normalized((t) => step(1.52, 1.51, t, 1.51), 4),
    0.73484373295,
    1e-8,
    "grid of degree 8",
  ),
  exact(
    "asymmetric slab, a = 10, TE0, V = 4, b [-]",
    () => normalized((t) => step(1.52, 1.51, t, asymmetry(10)), 4),
    0.65790154692,
    1e-8,
    "grid of degree 8",
  ),
  exact(
    "exponential profile under air, 4 um, 1.31 um, TE0 [-]",
    () => mode(exponential, { order: 0 }).index,
    1.505703147904,
    1e-9,
    "grid of degree 8",
  ),
  exact(
    "the same, TE1, just above its cut-off [-]",
    () => mode(exponential, { order: 1 }).index,
    1.503669481563,
    1e-8,
    "grid of degree 8, slow decay",
  ),
  exact(
    "erfc profile under air, 4 um, 1.31 um, TE0 [-]",
    () => mode(erfcGuide).index,
    1.5042350158,
    1e-9,
    "digits given",
  ),
  exact("the same, TM0 [-]", () => mode(erfcGuide, { polarization: "TM" }).index, 1.5041297649, 1e-9, "digits given"),
  exact("the same, mean depth of E^2 of TE0 [m]", () => meanDepth(mode(erfcGuide)), 4.286376e-6, 1e-6, "digits given"),
  exact(
    "sech^2 profile, 6 um, 1.31 um, m = 0 [-]",
    () => mode(sechGuide).index,
    1.50948857851,
    1e-9,
    "grid of degree 8",
  ),
  exact(
    "square core, weak guidance, V = 3, b [-]",
    () => square("scalar", 6),
    0.29933642,
    1e-5,
    "corners: 1e-6 at degree 6, falls with the degree",
  ),
  exact(
    "round fiber 1.4504 / 1.4447, 4.1 um, 1.55 um, HE11, main component alone [-]",
    () => fiberLimit("semivectorial"),
    1.4473080423733,
    2e-6 / 1.4473,
    "two washed-out edges extrapolated; 2e-6 in the index",
  ),
];
