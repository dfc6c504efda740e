/**
 * The thin-layer thermoviscous film ("low reduced frequency"): flow and compression of the air in a gap.
 *
 *     Psi lap p - chi p = -i omega w
 *     Psi = g (1 - tanh k / k) / (i omega rho0),                          k = (g / 2) sqrt(i omega rho0 / mu)
 *     chi = (i omega g / (gamma P0)) (1 + (gamma - 1) tanh kT / kT),      kT = k sqrt(Pr)
 *
 * Source: [zwikker-kosten-1949], [tijdeman-1975], [beltman-1999] (from memory, to be confirmed); limits checked in truth/.
 * Holds: gap << side, gap << wavelength; from the squeeze-film limit to gaps of many boundary layers.
 * Slip lowers the viscosity in k; the thermal jump at the walls is left out (docs/notModeled.md).
 */
import type { Air } from "../../material/air.ts";
import { add, type Complex, complex, multiply, scale, slitFunctions } from "../../numerics/complex.ts";
import { effectiveViscosity } from "./slip.ts";

export interface FilmCoefficients {
  /** Psi: volume flow per width and pressure gradient [m3/(Pa s)]. */
  readonly psi: Complex;
  /** chi: volume taken up per area, time and pressure [m/(Pa s)]. */
  readonly chi: Complex;
}

/** `omega` may be complex (poles): e^{i omega t}. */
export function filmCoefficients(given: { gap: number; air: Air; omega: Complex }): FilmCoefficients {
  const { gap, air, omega } = given;
  const viscosity = effectiveViscosity({ viscosity: air.viscosity, meanFreePath: air.meanFreePath, gap });
  const iOmega = multiply(complex(0, 1), omega);
  const perViscosity = (gap * gap) / (4 * viscosity);
  const viscous = slitFunctions(scale(iOmega, perViscosity * air.density));
  // The heat in the air diffuses at Pr times the true viscosity, slip or not.
  const thermal = slitFunctions(scale(iOmega, ((gap * gap) / (4 * air.viscosity)) * air.density * air.prandtl));
  return {
    psi: scale(viscous.flow, gap * perViscosity),
    chi: multiply(
      scale(iOmega, gap / (air.heatRatio * air.pressure)),
      add(complex(1), scale(thermal.mean, air.heatRatio - 1)),
    ),
  };
}
