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
 * Inertance of a round piston in a baffle at low ka, 8 rho0 a / (3 pi S) [kg/m4]; a diaphragm's own shape gives another.
 *
 * Derivation: pistonFunctions to first order in ka, X1 -> 8 ka / (3 pi).
 */
export function pistonInertance({ area, air }: { readonly area: number; readonly air: Air }): number {
  return (8 * air.density * Math.sqrt(area / Math.PI)) / (3 * Math.PI * area);
}

/**
 * Pressure on a small moving face per volume flow [Pa s/m3].
 *
 *     Z = i omega M R / (R + i omega M),   R = 2 pi c M^2 / rho0;   low ka: omega^2 rho0 / (2 pi c) + i omega M
 *
 * Derivation: a mass beside a resistance, chosen so that Z has the resistance of every small source in a baffle. Passive at
 * every complex frequency, so that it adds no growing pole. Holds: ka < 0.5.
 */
export function radiationImpedance({ inertance, air, omega }: Tone & { readonly inertance: number }): Complex {
  const resistance = radiationResistance({ inertance, air });
  const reactance = scale(multiply(complex(0, 1), omega), inertance);
  return divide(scale(reactance, resistance), add(complex(resistance), reactance));
}

/** R beside the mass: what crosses it is sent away [Pa s/m3]. */
export const radiationResistance = ({ inertance, air }: { readonly inertance: number; readonly air: Air }): number =>
  (2 * Math.PI * soundSpeed(air) * inertance * inertance) / air.density;
