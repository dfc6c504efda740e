/** The phase at rest over the whole path between the polarizers, and what moves it. */
import type { Guide } from "./guide.ts";
import { phasePerStrain, stressOpticConstant } from "./photoelastic.ts";

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
 * eps is the strain that the frame holds the diaphragm's material to; it acts over the frame as over the window.
 * `expansion` alpha lengthens the guide [1/K]. Derivation: docs/theory/readout.md.
 */
export function biasOf(guide: Guide, wavelength: number, expansion = 0): Bias {
  const { optics, length, birefringence, builtIn } = guide;
  const turns = (2 * Math.PI) / wavelength;
  const strained = (strain: { readonly x: number; readonly y: number } | undefined) =>
    strain ? phasePerStrain({ optics, wavelength, strain, length }) : 0;
  const own = turns * birefringence * length;
  const stress = strained(builtIn?.strain);
  const perKelvin = guide.birefringencePerKelvin ?? 0;
  return {
    atRest: own + stress,
    birefringence: own,
    stress,
    perKelvin: turns * (perKelvin + birefringence * expansion) * length + strained(builtIn?.strainPerKelvin),
    perWavelength: -(own + stress) / wavelength,
    perStress: turns * stressOpticConstant(optics) * length,
  };
}
