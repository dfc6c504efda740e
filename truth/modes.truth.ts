/** Modes of guides: slabs, graded slabs, square and parabolic cores, ribs, round fibers; effective index, mean depth, coupling. */
import { erf, erfc } from "../src/core/numerics/errorFunction.ts";
import type { CrossSection, Polarization } from "../src/core/parts/guide/modes/crossSection.ts";
import { gaussianIntoMode, gaussianOverlap, meanDepth } from "../src/core/parts/guide/modes/modeShape.ts";
import { type FieldKind, type Mode, solveModes } from "../src/core/parts/guide/modes/solveModes.ts";
import { sectionOf } from "../src/core/parts/guide/profile.ts";
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

const ribIndex = (index: number) => (index ** 2 - 3.4 ** 2) / (3.44 ** 2 - 3.4 ** 2);

/** Along one axis, half-widths w1 and w2, offset d: (2 w1 w2 / (w1^2 + w2^2)) exp(-2 d^2 / (w1^2 + w2^2)). */
const overlapOf = (w1: number, w2: number, off = 0) =>
  ((2 * w1 * w2) / (w1 ** 2 + w2 ** 2)) * Math.exp((-2 * off ** 2) / (w1 ** 2 + w2 ** 2));

const fiberLimit = (field: FieldKind) => {
  const [wide, narrow] = [fiber(0.5 * um, field), fiber(0.3 * um, field)];
  return narrow + (narrow - wide) / ((0.5 / 0.3) ** 2 - 1);
};

/**
 * A round fiber 1.5 / 1.45, 3 um, at 1.55 um, its edge washed out over delta so that area and second moment of n^2 stay. Then the
 * index errs as a delta + b delta^3: a from the field across the edge (none in TE01), b from the field's curvature there.
 */
function vectorFiber(delta: number, odd: boolean): readonly number[] {
  const key = `${delta} ${odd}`;
  const known = vectorFibers.get(key);
  if (known) return known;
  const [core, cladding, radius] = [1.5, 1.45, 3 * um];
  const reach = radius + 2 * delta;
  const lines = (from: number, to: number) => {
    const count = Math.ceil((to - from) / (0.5 * um + 1.25 * delta));
    return Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 1)) / count);
  };
  const contrast = core ** 2 - cladding ** 2;
  const round = section({
    index: (x, z) => {
      const u = (Math.hypot(x, z - reach) - radius) / delta;
      const inside = 0.5 * erfc(u) - (u * Math.exp(-u * u)) / (2 * Math.sqrt(Math.PI));
      return Math.sqrt(cladding ** 2 + contrast * inside);
    },
    across: lines(0, reach),
    depth: lines(0, 2 * reach),
    cover: cladding,
    low: cladding,
    high: Math.sqrt(cladding ** 2 + 1.05 * contrast),
  });
  const question = { wavelength: 1.55 * um, polarization: "TE", field: "vectorial", count: 2, degree: 4 } as const;
  const found = solveModes(round, { ...question, odd }).map(({ index }) => index);
  vectorFibers.set(key, found);
  return found;
}

const vectorFibers = new Map<string, readonly number[]>();
const exactFiber = { te01: 1.4780708184398, he21: 1.4777987619365, tm01: 1.4777404537187 };
const te01 = (delta: number) => vectorFiber(delta * um, false)[1] ?? Number.NaN;

/** What three washed-out edges leave at delta = 0: y = N + a delta + b delta^3. */
function sharpened(deltas: readonly [number, number, number], values: readonly number[]): number {
  const [p, q, r] = deltas;
  const [y1 = 0, y2 = 0, y3 = 0] = values;
  // Weights that sum to 1 and let delta and delta^3 vanish.
  const weight = (a: number, b: number, c: number) => (b * c * (c * c - b * b)) / determinant(a, b, c);
  return weight(p, q, r) * y1 + weight(q, r, p) * y2 + weight(r, p, q) * y3;
}
const determinant = (a: number, b: number, c: number) =>
  b * c * (c * c - b * b) + c * a * (a * a - c * c) + a * b * (b * b - a * a);

// Wider ones would let TM01 pass HE21.
const washed = [0.7, 0.55, 0.4] as const;
const oddFiber = (order: number) =>
  sharpened(
    washed,
    washed.map((delta) => vectorFiber(delta * um, true)[order] ?? Number.NaN),
  );

/** Ribs of 3.44 on 3.40 under air, 3 um wide, 1 um high in the rib, `slab` um beside it, 1.15 um. */
const rib = (slab: number, field: FieldKind) => {
  const core = { index: 3.44, beside: 1 };
  const top = { ...core, thickness: (1 - slab) * um, width: 3 * um };
  const under = slab > 0 ? [{ ...core, thickness: slab * um, width: null }] : [];
  const profile = { kind: "layered", cover: 1, layers: [top, ...under] } as const;
  return mode(sectionOf(profile, 3.4, 1.15 * um), { wavelength: 1.15 * um, field, degree: 6 });
};

/** n^2 = n1^2 - g^2 r^2: its modes are Gaussians of half-width w = sqrt(2 / (k g)); cut off where they are e^-9. */
const parabola = { peak: 1.5, w: 2 * um, middle: 9 * um };
const slope = 2 / (((2 * Math.PI) / (1.31 * um)) * parabola.w ** 2);
const parabolic = section({
  index: (x, z) => {
    const r = Math.min(Math.hypot(x, z - parabola.middle), 3 * parabola.w);
    return Math.sqrt(parabola.peak ** 2 - (slope * r) ** 2);
  },
  across: [2, 4, 6].map((x) => x * um),
  depth: [3, 5, 7, 9, 11, 13, 15].map((z) => z * um),
  cover: Math.sqrt(parabola.peak ** 2 - (slope * 3 * parabola.w) ** 2),
  low: Math.sqrt(parabola.peak ** 2 - (slope * 3 * parabola.w) ** 2),
  high: parabola.peak,
});
let solved: Mode | null = null;
function gaussian(): Mode {
  solved ??= mode(parabolic, { field: "scalar", degree: 5 });
  return solved;
}

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
  exact(
    "parabolic core, w = 2 um, 1.31 um, weak guidance, N^2 = n1^2 - 2 g / k: N [-]",
    () => gaussian().index,
    Math.sqrt(parabola.peak ** 2 - (2 * slope * 1.31 * um) / (2 * Math.PI)),
    1e-8,
    "cut off at e^-9 of the field",
  ),
  ...(
    [
      [4, 0],
      [5, 0],
      [3.2, 0.7],
    ] as const
  ).map(([diameter, off]) =>
    exact(
      `its mode from a fiber's of ${diameter} um, ${off} um too deep: share of the power [-]`,
      () => gaussianIntoMode(gaussian(), diameter * um, parabola.middle + off * um),
      overlapOf(diameter / 2, 2) * overlapOf(diameter / 2, 2, off),
      1e-6,
      "cut off at e^-9 of the field",
    ),
  ),
  {
    what: "two Gaussian modes of 5.2 um, 1 um apart: loss [dB]",
    got: () => -10 * Math.log10(gaussianOverlap(5.2, 5.2, 1)),
    expected: 0.16061,
    within: 5e-6 / 0.16061,
    why: "half the last digit given",
    origin: "exact",
    source: "exp(-2 d^2 / (w1^2 + w2^2)), by another hand",
  },
  ...(
    [
      [0, 3.412022],
      [0.2, 3.412279],
      [0.5, 3.413132],
      [0.7, 3.4141],
    ] as const
  ).map(
    ([slab, expected]): TruthRow => ({
      what: `rib of 3.44 on 3.40 under air, ${slab} um beside it, 1.15 um: b of its TE mode, main component alone [-]`,
      got: () => ribIndex(rib(slab, "semivectorial").index),
      expected: ribIndex(expected),
      within: 2.5e-5 / 0.04 / ribIndex(expected),
      why: "2.5e-5 in the index: corners at degree 6 (1.2e-5), the other component (1.4e-5); printed to 3e-6",
      origin: "published",
      source: "[hadley-2002]",
    }),
  ),
  {
    what: "the same, 0.2 um beside it, both components: N [-]",
    got: () => rib(0.2, "vectorial").index,
    expected: 3.412279,
    within: 1e-5 / 3.412279,
    why: "corners at degree 6 (7e-6); printed to 3e-6",
    origin: "published",
    source: "[hadley-2002]",
  },
  exact(
    "round fiber 1.5 / 1.45, 3 um, 1.55 um, TE01, both components, edges washed out over 0.8 and 0.4 um extrapolated [-]",
    () => (8 * te01(0.4) - te01(0.8)) / 7,
    exactFiber.te01,
    2e-6 / 1.478,
    "delta^3 taken out; 2e-6 in the index",
  ),
  exact(
    "the same: power of delta by which the error falls [-]",
    () => Math.log2((exactFiber.te01 - te01(0.8)) / (exactFiber.te01 - te01(0.4))),
    3,
    0.05,
    "the next power of delta",
  ),
  exact(
    "the same fiber, HE21, from three washed-out edges [-]",
    () => oddFiber(0),
    exactFiber.he21,
    8e-6 / 1.478,
    "delta and delta^3 taken out; 8e-6 in the index, a 34th of the distance to TE01",
  ),
  exact(
    "the same fiber, TM01 [-]",
    () => oddFiber(1),
    exactFiber.tm01,
    8e-6 / 1.478,
    "delta and delta^3 taken out; 8e-6 in the index, a 41st of the distance to TE01",
  ),
];
