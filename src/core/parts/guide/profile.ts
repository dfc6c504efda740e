/** Index profiles of guides, and the cross-section that the mode solver sees. */
import { erf, erfc } from "../../numerics/errorFunction.ts";
import type { CrossSection, Polarization } from "./modes/crossSection.ts";
import { solveModes } from "./modes/solveModes.ts";

/** A core that is deposited, etched or diffused into the material. */
export interface CoreProfile {
  readonly kind: "step" | "erfc" | "gaussian" | "exponential";
  /** Index change at the top of the core for the field along x [-]. */
  readonly indexChange: number;
  /** How much more it is for the field along z [-]. */
  readonly birefringence: number;
  /** Height of a step; distance s of erfc(z / s), exp(-(z / s)^2), exp(-z / s) [m]. */
  readonly depth: number;
  /** Depth at which the core begins [m]. */
  readonly below: number;
  /** Width of core or window [m]. */
  readonly width: number;
  /** Spread s of the edges across, (erf((x + a) / s) - erf((x - a) / s)) / 2; 0 is sharp [m]. */
  readonly edge: number;
  /** Index above the face [-]. */
  readonly cover: number;
}

export interface GuideLayer {
  readonly thickness: number;
  readonly index: number;
  /** Width of the strip [m]; null: everywhere. */
  readonly width: number | null;
  /** Index beside the strip [-]. */
  readonly beside: number;
}

/** Layers from the face inward, on the material of the guide. */
export interface LayeredProfile {
  readonly kind: "layered";
  readonly layers: readonly GuideLayer[];
  readonly cover: number;
}

export type Profile = CoreProfile | LayeredProfile;

/** Share of the index change at a distance u = z / s from the top of the core [-]. */
const shapes = {
  step: (u: number) => (u < 1 ? 1 : 0),
  erfc: (u: number) => erfc(u),
  gaussian: (u: number) => Math.exp(-u * u),
  exponential: (u: number) => Math.exp(-u),
} as const;

/** Where the elements are cut, in units of s: fine where the shape turns. */
const cuts = { step: [1], erfc: [0.6, 1.4, 2.6], gaussian: [0.6, 1.4, 2.6], exponential: [0.5, 1.5, 3.5, 8] } as const;

/** The cross-section of a profile in a material of index `base` [-]. */
export function sectionOf(profile: Profile, base: number, wavelength: number): CrossSection {
  return profile.kind === "layered" ? layeredSection(profile, base, wavelength) : coreSection(profile, base);
}

function coreSection(profile: CoreProfile, base: number): CrossSection {
  const { kind, indexChange, birefringence, depth, below, edge, cover } = profile;
  const half = profile.width / 2;
  const shape = shapes[kind];
  const aside = (x: number) =>
    edge === 0 ? (x < half ? 1 : 0) : (erf((x + half) / edge) - erf((x - half) / edge)) / 2;
  const change = { TE: indexChange, TM: indexChange + birefringence };
  const outside = Math.max(base, cover);
  return {
    index: (x, z, polarization) =>
      z < below ? base : base + change[polarization] * shape((z - below) / depth) * aside(x),
    across: edge === 0 ? [half] : [half, half + 1.2 * edge, half + 2.6 * edge],
    depth: [below, ...cuts[kind].map((u) => below + u * depth)],
    cover,
    cutoff: { TE: outside, TM: outside },
    highest: { TE: base + change.TE * aside(0), TM: base + change.TM * aside(0) },
    slab: false,
  };
}

function layeredSection({ layers, cover }: LayeredProfile, base: number, wavelength: number): CrossSection {
  const ends: number[] = [];
  for (const { thickness } of layers) ends.push((ends.at(-1) ?? 0) + thickness);
  const strips = layers.flatMap(({ width }) => (width === null ? [] : [width / 2])).sort((a, b) => a - b);
  const at = (x: number, z: number) => {
    const layer = layers[ends.findIndex((end) => z < end)];
    if (layer === undefined) return base;
    return layer.width === null || x < layer.width / 2 ? layer.index : layer.beside;
  };
  const highest = layers.reduce((most, { index }) => Math.max(most, index), base);
  // Far aside the layers may guide by themselves: a mode of the strip must lie above that slab's.
  const far = layers.map((layer) => (layer.width === null ? layer.index : layer.beside));
  const outside = Math.max(base, cover);
  const slabIndex = (polarization: Polarization) => {
    const top = far.reduce((most, index) => Math.max(most, index), outside);
    if (top <= outside || strips.length === 0) return outside;
    const slab: CrossSection = {
      index: (_x, z) => at(Number.POSITIVE_INFINITY, z),
      across: [],
      depth: ends,
      cover,
      cutoff: { TE: outside, TM: outside },
      highest: { TE: top, TM: top },
      slab: true,
    };
    const question = { wavelength, polarization, field: "semivectorial", odd: false, count: 1, degree: 5 } as const;
    return solveModes(slab, question)[0]?.index ?? outside;
  };
  return {
    index: at,
    across: strips.filter((width, i) => width !== strips[i - 1]),
    depth: ends,
    cover,
    cutoff: { TE: slabIndex("TE"), TM: slabIndex("TM") },
    highest: { TE: highest, TM: highest },
    slab: strips.length === 0,
  };
}
