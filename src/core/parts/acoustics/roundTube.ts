/** Air in a round tube with viscosity and heat lost to its wall, per length and per area of its cross section. */

import { roundFunctions } from "../../numerics/besselRatio.ts";
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import type { Tone } from "./acoustics.ts";

export interface TubeLine {
  /** Pressure drop per length and mean velocity [Pa s/m2]. */
  readonly series: Complex;
  /** Mean velocity lost per length and pressure [1/(Pa s)]. */
  readonly shunt: Complex;
}

/**
 *     series = i omega rho0 / (1 - F(x)),                        F(x) = 2 J1(x) / (x J0(x))
 *     shunt  = (i omega / (gamma P0)) (1 + (gamma - 1) F(x sqrt(Pr))),   x = r sqrt(-i omega rho0 / mu)
 *
 * Series is computed as (mu / r^2) / flow, which is 8 mu / r^2 at omega = 0 without cancellation.
 * Source: [stinson-1991], [zwikker-kosten-1949] (from memory, to be confirmed); numbers in truth/.
 * Holds: radius << wavelength; no slip at the wall (radius >> mean free path).
 */
export function roundTube(given: Tone & { readonly diameter: number }): TubeLine {
  const { diameter, air, omega } = given;
  const iOmega = multiply(complex(0, 1), omega);
  const thermal = roundFunctions(
    scale(iOmega, (diameter * diameter * air.density * air.prandtl) / (4 * air.viscosity)),
  );
  return {
    series: tubeSeries(given),
    shunt: multiply(
      scale(iOmega, 1 / (air.heatRatio * air.pressure)),
      add(complex(1), scale(thermal.mean, air.heatRatio - 1)),
    ),
  };
}

/** The series part alone, all that a short hole needs [Pa s/m2]. */
export function tubeSeries({ diameter, air, omega }: Tone & { readonly diameter: number }): Complex {
  const perViscosity = (diameter * diameter) / (4 * air.viscosity);
  const diffused = perViscosity * air.density;
  const { flow } = roundFunctions({ re: -diffused * omega.im, im: diffused * omega.re });
  return divide(complex(1 / perViscosity), flow);
}
