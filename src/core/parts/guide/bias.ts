/** The phase at rest over the whole path between the polarizers, and what moves it. */
import { cube } from "../../numerics/power.ts";
import type { Guide } from "./guide.ts";
import { builtInPhase, stressOpticConstant } from "./photoelastic.ts";

export interface Bias {
  /** [rad], not reduced to one turn. */
  readonly atRest: number;
  /** Of it the guide's own birefringence and the built-in stress [rad]. */
  readonly birefringence: number;
  readonly stress: number;
  /** [rad/K] */
  readonly perKelvin: number;
  /** [rad/m] of wavelength; the dispersion of the birefringence is left out. */
  readonly perWavelength: number;
  /** Stress across the guide all along it, as a mount or a bond makes it [rad/Pa]. */
  readonly perStress: number;
}

/**
 *     phi_0 = (2 pi / lambda) B L + (pi n^3 / lambda) (P_x eps_x + P_y eps_y) L
 *     d phi_0 / dT = (2 pi / lambda) (dB/dT + B alpha) L + the same with d eps / dT
 *
 * eps is the strain that the frame holds the diaphragm's material to; it acts over the frame as over the window; alpha is
 * how much longer the guide gets, held as it is. Derivation: docs/theory/readout.md.
 */
export function biasOf(guide: Guide, wavelength: number): Bias {
  const { optics, length, birefringence, builtIn, expansion = 0, birefringencePerKelvin = 0 } = guide;
  const turns = (2 * Math.PI) / wavelength;
  const { stress, stressPerKelvin } = builtInPhase(guide, wavelength);
  const own = turns * birefringence * length;
  // Free expansion and what the frame adds to it.
  const longer = expansion + (builtIn?.strainPerKelvin.y ?? 0);
  return {
    atRest: own + stress,
    birefringence: own,
    stress,
    perKelvin: turns * (birefringencePerKelvin + birefringence * longer) * length + stressPerKelvin,
    perWavelength: -(own + stress) / wavelength,
    perStress: turns * stressOpticConstant(optics) * length,
  };
}

/**
 * The same for one mode against a reference arm of the same glass beside it, `difference` [m] the optical path by which the guide's arm is
 * longer. Only that difference drifts; stress across the guide all along it acts on the guide's arm alone.
 *
 *     phi_0 = (2 pi / lambda) D + what the readout adds,   d phi_0 / dT = (2 pi / lambda) D (alpha + (dn/dT) / n)
 *     d phi_0 / d sigma = (2 pi / lambda) L (dn / d sigma - nu n / E)
 *
 * Derivation: docs/theory/readout.md. Holds: glass, both arms at one temperature.
 */
export function armBias(guide: Guide, wavelength: number, difference: number): Bias {
  const { optics, length, arm = "TE", expansion = 0 } = guide;
  const { index, p11, p12, poissonRatio: nu, youngsModulus, indexPerKelvin = 0 } = optics;
  const turns = (2 * Math.PI) / wavelength;
  const own = turns * difference;
  const weight = arm === "TE" ? p11 - 2 * nu * p12 : p12 - nu * (p11 + p12);
  return {
    atRest: own,
    birefringence: 0,
    stress: 0,
    perKelvin: own * (expansion + indexPerKelvin / index),
    perWavelength: -own / wavelength,
    perStress: (turns * length * (-(cube(index) / 2) * weight - nu * index)) / youngsModulus,
  };
}

/** The phase at rest of a guide as its readout sees it: a polarimeter's, or one arm's. */
export const phaseAtRest = (guide: Guide, wavelength: number, pathDifference: number): Bias =>
  guide.arm === undefined ? biasOf(guide, wavelength) : armBias(guide, wavelength, pathDifference);
