/** Noise of anything that turns energy into heat, at one temperature. */
import type { Complex } from "../numerics/complex.ts";
import { boltzmann } from "./constants.ts";

/**
 * Noise of a resistance, one-sided: [V^2/Hz] of [ohm], [Pa^2/Hz] of [Pa s/m3], [N^2/Hz] of [N s/m].
 *
 *     S = 4 k T R
 *
 * Source: Nyquist 1928 (from memory, to be confirmed). Holds: h f << k T.
 */
export const nyquist = (resistance: number, temperature: number): number => 4 * boltzmann * temperature * resistance;

/**
 * Thermal noise of an output whose compliance to its own conjugate force is known, one-sided [unit of the output^2 / Hz].
 *
 *     S = -(4 k T / omega) Im chi,   e^{+i omega t} makes Im chi negative
 *
 * Source: fluctuation-dissipation theorem, Callen and Welton 1951 (from memory, to be confirmed). Holds: one temperature, h f << k T.
 */
export const fluctuation = (compliance: Complex, omega: number, temperature: number): number =>
  (-4 * boltzmann * temperature * compliance.im) / omega;
