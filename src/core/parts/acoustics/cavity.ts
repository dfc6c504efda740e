import { type Complex, slitFunctions } from "../../numerics/complex.ts";
import type { Cavity, Tone } from "./acoustics.ts";

/**
 * Volume flow into a cavity per pressure, between isothermal and adiabatic [m3/(Pa s)].
 *
 *     Y = (i omega V / (gamma P0)) (1 + (gamma - 1) tanh t / t),   t = (V / wall area) sqrt(i omega rho0 Pr / mu)
 *
 * Derivation: docs/theory/acoustics.md; exact for a slab between two walls, the right heat loss of the boundary layer
 * and the right limits for other shapes, up to 6 % of the compliance off between them (a sphere).
 * Holds: cavity << wavelength; walls keep their temperature.
 */
export function cavityAdmittance({ volume, surface, air, omega }: Tone & Cavity): Complex {
  // i omega, and what it is multiplied with, in plain numbers: this is asked for at every frequency of thousands.
  const [iOmegaRe, iOmegaIm] = [-omega.im, omega.re];
  const depth = volume / surface;
  const diffused = (depth * depth * air.density * air.prandtl) / air.viscosity;
  const { mean } = slitFunctions({ re: diffused * iOmegaRe, im: diffused * iOmegaIm });
  const adiabatic = volume / (air.heatRatio * air.pressure);
  const re = adiabatic * (1 + (air.heatRatio - 1) * mean.re);
  const im = adiabatic * (air.heatRatio - 1) * mean.im;
  return { re: iOmegaRe * re - iOmegaIm * im, im: iOmegaRe * im + iOmegaIm * re };
}
