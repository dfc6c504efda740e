/** Which face of the diaphragm the guide lies in; "front" meets the sound. */
export type Face = "front" | "back";

/** Optical and elastic constants of the material that the guide lies in. */
export interface GuideOptics {
  /** Refractive index at the wavelength in use [-]. */
  readonly index: number;
  /** Elasto-optic (strain-optic) coefficients p11, p12 [-]. */
  readonly p11: number;
  readonly p12: number;
  /** Poisson's ratio of the guide's material [-]. */
  readonly poissonRatio: number;
  /** Young's modulus of the guide's material [Pa]; only the stress route of the phase needs it. */
  readonly youngsModulus: number;
  /** dn/dT [1/K]; absent: not known, counted as 0. */
  readonly indexPerKelvin?: number;
  /** What strain does to the phase where the material is a crystal; absent: glass. */
  readonly weights?: StrainWeights;
}

/**
 * Weights of the strains across and along the guide in the polarimeter's phase [-]:
 * phi = (pi n^3 / lambda) integral (x eps_x + y eps_y) dy, with sigma_z = 0.
 */
export interface StrainWeights {
  readonly x: number;
  readonly y: number;
}

/** What the material around the guide bears at rest, held in the plane by the frame. */
export interface BuiltIn {
  /** Strain that goes with its stress (not the free expansion) [-]. */
  readonly strain: { readonly x: number; readonly y: number };
  /** Its change with temperature [1/K]. */
  readonly strainPerKelvin: { readonly x: number; readonly y: number };
  /** Stress across and along, tension positive [Pa]. */
  readonly stress: { readonly across: number; readonly along: number };
}

/** Where one mode of a guide is, from the mode solver. */
export interface GuideMode {
  /** Effective index [-]. */
  readonly index: number;
  /** Mean depth under the face [m]. */
  readonly depth: number;
  /** Full width at 1/e^2 [m]; null: a line. */
  readonly width: number | null;
}

/** A single-mode channel guide that crosses the diaphragm along y. */
export interface Guide {
  /** Position across the diaphragm, x, from its center [m]. */
  readonly at: number;
  readonly face: Face;
  /** Depth of the mode's mean intensity under its face, d [m]. */
  readonly depth: number;
  /** Width of the mode across: full width at 1/e^2 of a Gaussian intensity [m]; null: a line, no lateral average. */
  readonly width: number | null;
  /** Length between the polarizers [m]; only the bias uses it. */
  readonly length: number;
  /** Factor of this guide's output in the sum [-]. */
  readonly weight: number;
  /** Modal birefringence at rest B = n_TM - n_TE [-]. */
  readonly birefringence: number;
  /** Its change with temperature [1/K]; absent: 0. */
  readonly birefringencePerKelvin?: number;
  /** Free expansion of its material [1/K]; absent: 0. */
  readonly expansion?: number;
  /** Each mode's own place; absent or null: both at `depth`, as wide as `width`. */
  readonly modes?: { readonly te: GuideMode; readonly tm: GuideMode } | null;
  /** The one mode whose phase is read against a reference arm; absent: the difference TM - TE is read. */
  readonly arm?: "TE" | "TM";
  readonly optics: GuideOptics;
  /** Absent: free of stress. */
  readonly builtIn?: BuiltIn;
}
