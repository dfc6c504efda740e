import { add, type Complex, complex, multiply, scale, slitFunctions } from "../../numerics/complex.ts";
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
  const iOmega = multiply(complex(0, 1), omega);
  const depth = volume / surface;
  const { mean } = slitFunctions(scale(iOmega, (depth * depth * air.density * air.prandtl) / air.viscosity));
  const adiabatic = volume / (air.heatRatio * air.pressure);
  return multiply(scale(iOmega, adiabatic), add(complex(1), scale(mean, air.heatRatio - 1)));
}
