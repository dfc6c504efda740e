/** The load of the open air on a moving face. */
import type { Air } from "../../material/air.ts";
import { besselValues } from "../../numerics/bessel.ts";
import { struveH1 } from "../../numerics/besselStruve.ts";
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import type { Tone } from "./acoustics.ts";

/** Speed of sound without losses, sqrt(gamma P0 / rho0) [m/s]. */
export const soundSpeed = (air: Air): number => Math.sqrt((air.heatRatio * air.pressure) / air.density);

/**
 * Resistance R1 and reactance X1 of a round piston in a wide baffle, over rho0 c times its area [-].
 *
 *     R1 = 1 - 2 J1(x) / x,   X1 = 2 H1(x) / x,   x = 2 k a
 *
 * Source: [rayleigh-1896] section 302 (from memory, to be confirmed); table in truth/. R1 as J2 + 2 (J4 + J6 + ...), which
 * keeps its digits at small x.
 */
export function pistonFunctions(x: number): { readonly resistance: number; readonly reactance: number } {
  if (x === 0) return { resistance: 0, reactance: 0 };
  if (x >= 30) return { resistance: 1 - (2 * besselValues(2, x)[1]!) / x, reactance: (2 * struveH1(x)) / x };
  const values = besselValues(Math.ceil(1.5 * x) + 30, x);
  let resistance = values[2]!;
  for (let n = 4; n < values.length; n += 2) resistance += 2 * values[n]!;
  return { resistance, reactance: (2 * struveH1(x)) / x };
}

/**
 * Air moved by a bare plate of area S in a baffle, as a mass beside a resistance.
 *
 *     M = 8 rho0 a / (3 pi S) [kg/m4],   R = (128 / (9 pi^2)) rho0 c / S [Pa s/m3],   a = sqrt(S / pi)
 *
 * Derivation: pistonFunctions to first order in ka each: X1 -> 8 ka / (3 pi), R1 -> (ka)^2 / 2; R is chosen so that
 * M parallel to R has both. Holds: ka < 0.5; a square taken as round has 1.2 % too much mass (16 / (3 sqrt(pi)) against 2.9732,
 * the mean of 1 / distance over a unit square).
 */
export function plateRadiation({ area, air }: { readonly area: number; readonly air: Air }): {
  readonly mass: number;
  readonly resistance: number;
} {
  const radius = Math.sqrt(area / Math.PI);
  return {
    mass: (8 * air.density * radius) / (3 * Math.PI * area),
    resistance: ((128 / (9 * Math.PI ** 2)) * air.density * soundSpeed(air)) / area,
  };
}

/**
 * Pressure on the plate per volume flow [Pa s/m3]: Z = i omega M R / (R + i omega M), passive at every frequency, so that
 * it adds no growing pole; low ka: omega^2 rho0 / (2 pi c) + i omega M.
 */
export function radiationImpedance({ area, air, omega }: Tone & { readonly area: number }): Complex {
  const { mass, resistance } = plateRadiation({ area, air });
  const reactance = scale(multiply(complex(0, 1), omega), mass);
  return divide(scale(reactance, resistance), add(complex(resistance), reactance));
}
