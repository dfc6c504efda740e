/** How well two delayed fields still interfere, and what a fiber's wrong axis does to their phase. */
import { lightSpeed } from "../../quantity/constants.ts";

/**
 * Length over which the light keeps its phase [m].
 *
 *     L_c = c / (pi linewidth)     a Lorentzian line of full width at half its height
 */
export const coherenceLength = (linewidth: number): number => lightSpeed / (Math.PI * linewidth);

/** Contrast left after an optical path difference [-]: exp(-|difference| / L_c). */
export const coherentContrast = (linewidth: number, pathDifference: number): number =>
  linewidth === 0 ? 1 : Math.exp(-Math.abs(pathDifference) / coherenceLength(linewidth));

/**
 * How far the light in a fiber's wrong axis can move the phase [rad], plus or minus, as the fiber is bent or warmed.
 *
 *     2 sqrt(x e)     x: crosstalk of the fiber, e: leak of the polarizer that follows, in power
 *
 * Each mode gets the share sqrt(x e) of the other's field with any phase. Holds: small shares, equal modes. An ideal polarizer on
 * the chip leaves none: only the power changes then. Derivation: docs/theory/readout.md.
 */
export const crosstalkPhase = (crosstalk: number, leak: number): number => 2 * Math.sqrt(crosstalk * leak);
