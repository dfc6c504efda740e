/** From strain or stress in the guide to the phase between its TM-like and TE-like modes. */
import { cube } from "../../numerics/power.ts";
import type { Diaphragm } from "../diaphragm/diaphragm.ts";
import { glassWeights } from "./cubic.ts";
import type { Guide, GuideOptics } from "./guide.ts";

/**
 * Polarimetric phase of a uniformly strained length [rad], TM behind TE positive.
 *
 *     phi = (pi n^3 / lambda) (P_x eps_x + P_y eps_y) L
 *     glass: (p11 - p12) (eps_x - eps_z),   eps_z = -nu / (1 - nu) (eps_x + eps_y)
 *
 * Derivation: docs/theory/phase.md, from dB_i = p_ij eps_j and dn = -(n^3 / 2) dB. Holds: plane stress, weak guidance.
 */
export function phasePerStrain(given: {
  readonly optics: GuideOptics;
  readonly wavelength: number;
  readonly strain: { readonly x: number; readonly y: number };
  readonly length: number;
}): number {
  const { x, y } = given.strain;
  const weights = given.optics.weights ?? glassWeights(given.optics);
  return ((Math.PI * cube(given.optics.index)) / given.wavelength) * (weights.x * x + weights.y * y) * given.length;
}

/**
 * Relative stress-optic constant of the polarimeter [1/Pa], negative for glass with p12 > p11.
 *
 *     C = n^3 (p11 - p12) (1 + nu) / (2 E)
 */
export function stressOpticConstant({ index, p11, p12, poissonRatio, youngsModulus }: GuideOptics): number {
  return (cube(index) * (p11 - p12) * (1 + poissonRatio)) / (2 * youngsModulus);
}

/**
 * The same phase from the stress across the guide [rad]; sigma_y does not enter.
 *
 *     phi = (2 pi / lambda) C sigma_x L
 *
 * Derivation: docs/theory/phase.md; must agree with `phasePerStrain`, because eps_x - eps_z = (1 + nu) sigma_x / E.
 */
export function phasePerStress(given: {
  readonly optics: GuideOptics;
  readonly wavelength: number;
  /** sigma_x [Pa] */
  readonly stress: number;
  readonly length: number;
}): number {
  return ((2 * Math.PI) / given.wavelength) * stressOpticConstant(given.optics) * given.stress * given.length;
}

/**
 * Height of the guide's mean intensity over the neutral plane, z inward [m]; negative in the front face. In a plate of one
 * material the neutral plane is the middle, and both numbers are the same.
 */
export function guideHeight(
  { face, depth }: Pick<Guide, "face" | "depth">,
  { thickness, stack }: Pick<Diaphragm, "thickness" | "stack">,
): Height {
  const z = face === "front" ? -(thickness / 2 - depth) : thickness / 2 - depth;
  return { across: z - (stack?.neutral.across ?? 0), along: z - (stack?.neutral.along ?? 0) };
}

/** Height over the neutral plane for bending across and along, z inward [m]: eps_x = -across w_xx, eps_y = -along w_yy. */
export interface Height {
  readonly across: number;
  readonly along: number;
}

/**
 * What strain over the window does to the phase: phi = x <eps_x> + y <eps_y> [rad], averages along the strained part. The
 * elongation also stretches the birefringence at rest: (2 pi / lambda) B integral eps_y dy.
 */
export function strainPhase(given: {
  readonly guide: Pick<Guide, "optics" | "birefringence">;
  readonly wavelength: number;
  readonly diaphragm: Pick<Diaphragm, "along">;
}): { readonly x: number; readonly y: number } {
  const { guide, wavelength, diaphragm } = given;
  // Only the part over the window is strained.
  const length = diaphragm.along;
  const per = (strain: { x: number; y: number }) =>
    phasePerStrain({ optics: guide.optics, wavelength, strain, length });
  const stretched = ((2 * Math.PI) / wavelength) * guide.birefringence * length;
  return { x: per({ x: 1, y: 0 }), y: per({ x: 0, y: 1 }) + stretched };
}

/**
 * What bending does to the phase: phi = xx <w_xx> + yy <w_yy> [rad m], averages along the strained part.
 *
 *     eps_x = -z w_xx,  eps_y = -z w_yy
 *
 * Between clamped ends <w_yy> vanishes.
 */
export function bendingPhase(given: {
  readonly guide: Guide;
  readonly wavelength: number;
  readonly diaphragm: Pick<Diaphragm, "thickness" | "along" | "stack">;
}): { readonly xx: number; readonly yy: number } {
  const { x, y } = strainPhase(given);
  const z = guideHeight(given.guide, given.diaphragm);
  return { xx: -z.across * x, yy: -z.along * y };
}

/**
 * Static phase of a guide from the stress around it, over the whole length between the polarizers [rad], and its change with
 * temperature [rad/K].
 *
 *     phi_0 = (pi n^3 / lambda) (P_x eps_x + P_y eps_y) L      glass: (2 pi / lambda) C sigma_x L, sigma_y does not enter
 *
 * Derivation: docs/theory/photoelasticPhase.md. Holds: the sheet is held alike over window and frame, the whole length.
 */
export function builtInPhase(
  { builtIn, optics, length }: Pick<Guide, "builtIn" | "optics" | "length">,
  wavelength: number,
): { readonly stress: number; readonly stressPerKelvin: number } {
  if (!builtIn) return { stress: 0, stressPerKelvin: 0 };
  const of = (strain: { readonly x: number; readonly y: number }) =>
    phasePerStrain({ optics, wavelength, strain, length });
  return { stress: of(builtIn.strain), stressPerKelvin: of(builtIn.strainPerKelvin) };
}
