/** Noise of a photocurrent, a converter and of light itself, one-sided power spectral densities; that of a resistor is `nyquist`. */
import { pow } from "../../numerics/power.ts";
import { elementaryCharge, lightSpeed, planck } from "../../quantity/constants.ts";

/**
 * Shot noise of a current [A^2/Hz].
 *
 *     S_I = 2 e I
 *
 * Source: Schottky 1918 (from memory, to be confirmed). Holds: independent electrons; light without noise of its own.
 */
export const shotCurrent = (current: number): number => 2 * elementaryCharge * current;

/**
 * Relative intensity noise of light that has shot noise only [1/Hz].
 *
 *     RIN = 2 h nu / P,   nu = c / wavelength
 */
export const intensityNoiseOfShot = (power: number, wavelength: number): number =>
  (2 * planck * lightSpeed) / (wavelength * power);

/**
 * Rounding noise of a converter [V^2/Hz]: a step's mean square spread evenly to half the sampling rate.
 *
 *     S_V = q^2 / 12 / (f_s / 2),   q = full scale / 2^bits
 *
 * Source: Bennett 1948 (from memory, to be confirmed). Holds: a signal and noise of more than a step; an ideal converter. A
 * converter's data sheet states fewer effective bits: give those.
 */
export const quantizationDensity = (given: {
  /** Lowest to highest voltage [V]. */
  readonly fullScale: number;
  readonly bits: number;
  /** [Hz] */
  readonly sampling: number;
}): number => (given.fullScale / pow(2, given.bits)) ** 2 / 12 / (given.sampling / 2);
