/** How many modes a guide holds, counted without solving for any: by the signs of pivots at its cut-off. */
import { factorBand, negativePivots } from "../../../numerics/bandLu.ts";
import type { CrossSection, Polarization } from "./crossSection.ts";
import { ownBlock, unknownsOf } from "./fieldMatrices.ts";
import { decayOf, sampleSection } from "./modeGrid.ts";

/**
 * A mode counts where its normalized index b = (N^2 - N_cutoff^2) / (n_highest^2 - N_cutoff^2) is above this: closer to its cut-off it
 * reaches so far that any bend or face beside it ends it.
 */
export const leastHeld = 0.003;

export interface CountQuestion {
  readonly wavelength: number;
  readonly polarization: Polarization;
  /** Even or odd across. */
  readonly odd: boolean;
  /** Degree of the elements; a lower one finds at most as many modes. */
  readonly degree: number;
}

/**
 * Modes of the main field component, semivectorial, with b above `leastHeld`.
 *
 *     (K + s M - E) u = (s - N^2) M u:   N^2 > s as often as K + s M - E has a negative eigenvalue, s = N_cutoff^2 + b (...)
 *
 * Derivation: docs/theory/modes.md. Holds: the matrix is symmetric up to a positive scaling of its rows, which it is but for jumps
 * of the index (checked against solved modes).
 */
export function countModes(section: CrossSection, question: CountQuestion): number {
  const { polarization, odd, degree, wavelength } = question;
  const [low, high] = [section.cutoff[polarization] ** 2, section.highest[polarization] ** 2];
  if (!(high > low)) return 0;
  const shift = low + leastHeld * (high - low);
  const sampled = sampleSection(section, {
    polarization,
    wavenumber: (2 * Math.PI) / wavelength,
    decay: decayOf(section, polarization, Math.sqrt(shift)),
    degree,
    anyDecay: true,
  });
  const block = ownBlock(sampled, unknownsOf(sampled, polarization === "TE" ? "z" : "x", odd), shift);
  if (!factorBand(block)) throw new Error("modes: a pivot vanished while counting");
  return negativePivots(block);
}
