/** Ion exchange: how far ions come in a time, and the index that they leave. */
import { erf, erfc } from "../../numerics/errorFunction.ts";
import { boltzmann } from "../../quantity/constants.ts";

/** Diffusion of the exchanged ion in the glass. */
export interface Diffusion {
  /** D at the temperature `at` [m^2/s]. */
  readonly coefficient: number;
  /** [K] */
  readonly at: number;
  /** Activation energy [J]; 0: the same at every temperature. */
  readonly activation: number;
}

/**
 * Diffusion coefficient at a bath's temperature [m^2/s].
 *
 *     D(T) = D(T_0) exp(-(E / k) (1 / T - 1 / T_0))
 *
 * Source: Arrhenius' law. Holds: one ion, low concentration.
 */
export function diffusionAt({ coefficient, at, activation }: Diffusion, temperature: number): number {
  return coefficient * Math.exp((-activation / boltzmann) * (1 / temperature - 1 / at));
}

/** Length of the profile [m]: 2 sqrt(D t). */
export const diffusionLength = (coefficient: number, time: number): number => 2 * Math.sqrt(coefficient * time);

/**
 * Share of the surface's index change at (x, z) under a window |x| < a [-].
 *
 *     erfc(z / s) (erf((x + a) / s) - erf((x - a) / s)) / 2,   s = 2 sqrt(D t)
 *
 * In depth the exact answer to a constant concentration at the face; across, the spread of a stripe of that width: the product is
 * the usual approximation where the window is wider than s / 2 or so. Source: [ramaswamy-1988] (erfc profile).
 */
export function exchangedIndex(given: {
  readonly x: number;
  readonly z: number;
  readonly length: number;
  readonly halfWindow: number;
}): number {
  const { x, z, length, halfWindow } = given;
  return (erfc(z / length) * (erf((x + halfWindow) / length) - erf((x - halfWindow) / length))) / 2;
}
