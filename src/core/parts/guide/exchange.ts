/** Ion exchange as a process: from the bath to the profile. */
import { elementaryCharge } from "../../quantity/constants.ts";
import { type Diffusion, diffusionAt, diffusionLength } from "./diffusion.ts";
import type { CoreProfile } from "./profile.ts";

export type Salt = "potassium" | "silver";

export interface Exchange {
  /** Bath temperature [K] and time [s]. */
  readonly temperature: number;
  readonly time: number;
  /** Width of the window in the mask [m]. */
  readonly window: number;
  readonly indexChange: number;
  readonly birefringence: number;
  readonly diffusion: Diffusion;
}

/** What is known of a salt; null: the user's own is needed. */
export interface SaltFacts {
  readonly diffusion: Diffusion;
  readonly indexChange: number | null;
  readonly birefringence: number;
  /** Compressive stress of the exchanged face [Pa]; null: none worth counting. */
  readonly stress: number | null;
  readonly source: string;
}

/** One electronvolt [J]: an elementary charge across one volt. */
const electronvolt = elementaryCharge;

export const salts: Readonly<Record<Salt, SaltFacts>> = {
  // Middle of what is remembered: D 1e-16 to 1e-15 m2/s at 370 to 400 degC, 1.0 to 1.3 eV, 0.008 to 0.012.
  potassium: {
    diffusion: { coefficient: 4e-16, at: 658.15, activation: 1.15 * electronvolt },
    indexChange: 0.009,
    birefringence: 0.001,
    stress: 300e6,
    source: "potassium in glass of the BK7 type; [rogozinski-2019], [albert-1987], from memory, to be confirmed",
  },
  silver: {
    diffusion: { coefficient: 0.133e-12 / 60, at: 600, activation: 0 },
    indexChange: null,
    birefringence: 0,
    stress: null,
    source: "dilute silver in soda-lime glass [ramaswamy-1988]; its temperature and activation are not known here",
  },
};

/** erfc in depth, as far across: both with the diffusion length of bath and time. */
export function exchangedProfile(exchange: Exchange): CoreProfile {
  const length = diffusionLength(diffusionAt(exchange.diffusion, exchange.temperature), exchange.time);
  return {
    kind: "erfc",
    indexChange: exchange.indexChange,
    birefringence: exchange.birefringence,
    depth: length,
    below: 0,
    width: exchange.window,
    edge: length,
    cover: 1,
  };
}

/**
 * Force per length of an exchanged face [N/m], compressive: stress times the mean depth of erfc.
 *
 *     integral erfc(z / s) dz = s / sqrt(pi)
 *
 * Holds: stress falls as the concentration does and has not relaxed.
 */
export const exchangedForce = (stress: number, length: number): number => (stress * length) / Math.sqrt(Math.PI);
