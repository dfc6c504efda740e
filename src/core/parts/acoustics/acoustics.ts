/** The air around diaphragm and film as lumped parts: holes, cavities, vent, leak, back plate, body. */
import type { Air } from "../../material/air.ts";
import type { Complex } from "../../numerics/complex.ts";

/**
 * What the air at both ends of a hole adds to its length: "piston" 8 r / (3 pi) each (even flow in a wide flange),
 * "flanged" 0.8216 r each (exact flow in a wide flange), "free" 0.6133 r each (thin-walled tube), "none".
 */
export type HoleEnds = "piston" | "flanged" | "free" | "none";

/** A round hole through a wall. */
export interface Hole {
  /** Diameter [m]. */
  readonly diameter: number;
  /** Length, the wall's thickness [m]. */
  readonly length: number;
  /** Center, x and y from the center of the diaphragm [m]. */
  readonly at: readonly [number, number];
  readonly ends: HoleEnds;
}

/** A volume of air small against the wavelength. */
export interface Cavity {
  /** Volume V [m3]. */
  readonly volume: number;
  /** Wall area that takes up heat [m2]. */
  readonly surface: number;
}

/** The passage that equalizes the volume behind. `exposed`: sound reaches its outer end. */
export type Vent =
  | { readonly shape: "round"; readonly diameter: number; readonly length: number; readonly exposed: boolean }
  | {
      readonly shape: "slit";
      readonly height: number;
      readonly width: number;
      readonly length: number;
      readonly exposed: boolean;
    };

/** A slit through the bond between diaphragm and frame; all in m. `from`: where its other end lies. */
export interface Leak {
  readonly height: number;
  readonly width: number;
  readonly length: number;
  readonly from: "front" | "outside";
}

/** What lies between the sound and the diaphragm. No holes: sealed. */
export interface FrontPart {
  readonly holes: readonly Hole[];
  readonly cavity: Cavity | null;
}

/** What lies behind the film. */
export interface BackPart {
  readonly cavity: Cavity | null;
  readonly vent: Vent | null;
  readonly leak: Leak | null;
}

/** Many equal holes in a square array. */
export interface HoleArray {
  /** Diameter [m]. */
  readonly diameter: number;
  /** Distance between centers [m]. */
  readonly pitch: number;
  /** Length, the plate's thickness [m]. */
  readonly length: number;
  readonly ends: HoleEnds;
}

/** What lets air through the wall behind the film: many holes, one hole, or a given velocity per pressure [m/(Pa s)]. */
export type BackPlate =
  | { readonly kind: "holes"; readonly holes: HoleArray }
  | { readonly kind: "hole"; readonly hole: Hole }
  | { readonly kind: "admittance"; readonly admittance: number };

/** The body that the sound meets. `length` only of a cylinder: null is long against the wavelength. */
export interface Body {
  readonly shape: "sphere" | "cylinder";
  /** Diameter [m]. */
  readonly diameter: number;
  readonly length: number | null;
}

/** What every lumped part is asked with. */
export interface Tone {
  readonly air: Air;
  /** Angular frequency of e^{i omega t} [rad/s]; complex for poles. */
  readonly omega: Complex;
}
