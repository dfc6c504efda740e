/** Phase of a guide whose plate bends and stretches at once, in the polarimeter and in one arm of an interferometer. */
import { cube } from "../../numerics/power.ts";
import type { GuideOptics } from "./guide.ts";
import { type Height, phasePerStrain } from "./photoelastic.ts";

/** Averages along the strained part of the guide. */
export interface LineStrain {
  /** <w_xx>, <w_yy> [1/m]. */
  readonly xx: number;
  readonly yy: number;
  /** Strain of the neutral plane, <eps_x0>, <eps_y0> [-]. */
  readonly stretchX: number;
  readonly stretchY: number;
}

interface StrainedGuide {
  readonly optics: GuideOptics;
  readonly wavelength: number;
  readonly height: Height;
  /** Length that is strained: the diaphragm along the guide [m]. */
  readonly length: number;
  readonly line: LineStrain;
}

/** eps_x = <eps_x0> - z <w_xx>, eps_y = <eps_y0> - z <w_yy> in the guide [-]. */
function guideStrain(height: Height, line: LineStrain): { readonly x: number; readonly y: number } {
  return { x: line.stretchX - height.across * line.xx, y: line.stretchY - height.along * line.yy };
}

/**
 * Polarimetric phase [rad], TM behind TE positive.
 *
 *     phi = (pi n^3 / lambda) b (P_x eps_x + P_y eps_y) + (2 pi / lambda) B b eps_y
 *
 * which for glass is (pi n^3 (p11 - p12) b / (lambda (1 - nu))) [-z (<w_xx> + nu <w_yy>) + <eps_x0> + nu <eps_y0>] and the
 * birefringence at rest B, stretched. The stretch is even in the deflection, the bending odd: it makes the second harmonic.
 * Derivation: docs/theory/largeDeflection.md.
 */
export function stretchedPhase(given: StrainedGuide & { readonly birefringence: number }): number {
  const strain = guideStrain(given.height, given.line);
  const elongated = ((2 * Math.PI) / given.wavelength) * given.birefringence * strain.y * given.length;
  return phasePerStrain({ ...given, strain }) + elongated;
}

/**
 * Phase of one mode alone, as an interferometer's arm sees it [rad]; delay positive.
 *
 *     phi = (2 pi / lambda) b (dn + n eps_y)
 *     dn_TE = -(n^3 / 2) (p11 eps_x + p12 eps_y + p12 eps_z),   dn_TM = -(n^3 / 2) (p12 eps_x + p12 eps_y + p11 eps_z)
 *
 * `modeIndex` is the mode's effective index, for its elongation. Glass only. Derivation: docs/theory/phase.md.
 */
export function armPhase(given: StrainedGuide & { readonly mode: "TE" | "TM"; readonly modeIndex: number }): number {
  const { index, p11, p12, poissonRatio: nu } = given.optics;
  const { x, y } = guideStrain(given.height, given.line);
  const z = (-nu / (1 - nu)) * (x + y);
  const change = given.mode === "TE" ? p11 * x + p12 * y + p12 * z : p12 * x + p12 * y + p11 * z;
  const dn = (-cube(index) / 2) * change;
  return ((2 * Math.PI) / given.wavelength) * given.length * (dn + given.modeIndex * y);
}
