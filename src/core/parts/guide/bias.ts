/** The phase at rest over the whole path between the polarizers, and what moves it. */
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
