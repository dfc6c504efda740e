/**
 * What a material is to this program: constants at room temperature, each with its source and how sure it is.
 * Glasses scatter by maker and batch; a project overrides any of these.
 */
import { answer, type Outcome, refuse } from "../problem.ts";

/**
 * How sure a value is. "seen": read in the named text. "computed": follows from other values by a formula that the source
 * names. "from memory": remembered from the source, to be confirmed. "given": the user's own.
 */
export type Certainty = "seen" | "computed" | "from memory" | "given";

/** A number in SI with the key of docs/sources.md (in brackets) that it comes from. */
export interface Sourced {
  readonly value: number;
  readonly source: string;
  readonly sure: Certainty;
  /** Lowest and highest value that the sources show, same unit. */
  readonly range?: readonly [number, number];
}

/**
 * Plane-stress stiffness, axis 1 across the guide, axis 2 along it [Pa]:
 * sigma_1 = q11 eps_1 + q12 eps_2, sigma_2 = q12 eps_1 + q22 eps_2, tau = q66 gamma.
 */
export interface PlaneStiffness {
  readonly q11: number;
  readonly q12: number;
  readonly q22: number;
  readonly q66: number;
}

export type Elasticity =
  | {
      readonly kind: "isotropic";
      /** Young's modulus E [Pa]. */
      readonly youngsModulus: Sourced;
      /** Poisson's ratio nu [-]. */
      readonly poissonRatio: Sourced;
    }
  | {
      readonly kind: "orthotropic";
      readonly stiffness: PlaneStiffness;
      readonly source: string;
      readonly sure: Certainty;
    };

export type Index =
  | {
      readonly kind: "fixed";
      readonly index: Sourced;
      /** Vacuum wavelength that the value belongs to [m]; null: the wavelength in use, whatever it is. */
      readonly at: number | null;
    }
  | {
      /** n^2 - 1 = sum b_i L^2 / (L^2 - c_i), L the wavelength. */
      readonly kind: "sellmeier";
      /** [-] */
      readonly b: readonly [number, number, number];
      /** [m^2] */
      readonly c: readonly [number, number, number];
      /** Vacuum wavelengths between which the fit holds [m]. */
      readonly from: number;
      readonly to: number;
      readonly source: string;
      readonly sure: Certainty;
    };

/** Weibull strength of a surface under uniform equibiaxial tension. */
export interface Strength {
  /** Stress at which 63 % of specimens of `area` break [Pa]. */
  readonly scale: number;
  /** Weibull modulus [-]. */
  readonly modulus: number;
  /** Stressed area of those specimens [m^2]. */
  readonly area: number;
  /** Duration of the load in those tests [s]. */
  readonly time: number;
  readonly source: string;
  readonly sure: Certainty;
}

export interface Material {
  /** The name a project uses: "thin-borosilicate". */
  readonly name: string;
  readonly elasticity: Elasticity;
  /** Density [kg/m^3]. */
  readonly density: Sourced;
  /** Refractive index relative to air at 20 degC [-]. */
  readonly index: Index | null;
  /** Shorter vacuum wavelengths than this are absorbed within a few millimeters [m]; absent: not known to be. */
  readonly transparentFrom?: number;
  /** Elasto-optic (strain-optic) coefficients [-]; null where only their difference is known, by `stressOptic`, or nothing. */
  readonly p11: Sourced | null;
  readonly p12: Sourced | null;
  /** Of a cubic crystal whose plate is cut (001) with its edges along <110> [-]; absent for glass. */
  readonly p44?: Sourced;
  /** Stress-optic constant C = n^3 (p12 - p11) (1 + nu) / (2 E), positive for the usual glasses [1/Pa]. */
  readonly stressOptic: Sourced | null;
  /** Linear thermal expansion [1/K]. */
  readonly expansion: Sourced | null;
  /** Change of index with temperature dn/dT [1/K]. */
  readonly indexPerKelvin: Sourced | null;
  readonly strength: Strength | null;
}

/** A number that the user gave. */
export const given = (value: number, source = "the project"): Sourced => ({ value, source, sure: "given" });

/**
 * Plane-stress stiffness of a sheet [Pa]. Isotropic:
 *
 *     q11 = q22 = E / (1 - nu^2)    q12 = nu q11    q66 = E / (2 (1 + nu))
 *
 * Source: Hooke's law with sigma_z = 0.
 */
export function planeStiffness(elasticity: Elasticity): PlaneStiffness {
  if (elasticity.kind === "orthotropic") return elasticity.stiffness;
  const modulus = elasticity.youngsModulus.value;
  const nu = elasticity.poissonRatio.value;
  const q11 = modulus / (1 - nu * nu);
  return { q11, q12: nu * q11, q22: q11, q66: modulus / (2 * (1 + nu)) };
}

/**
 * Young's modulus [Pa] and Poisson's ratio [-] of the material that a guide lies in.
 *
 * Problems: `not-isotropic` where the material has directions: the photoelastic phase here is that of glass.
 */
export function isotropicConstants(material: Material): Outcome<{ youngsModulus: number; poissonRatio: number }> {
  const { elasticity } = material;
  if (elasticity.kind === "orthotropic")
    return refuse({
      code: "not-isotropic",
      path: ["stiffness"],
      message: `"${material.name}" has direction-dependent stiffness; a guide needs a material with youngsModulus and poissonRatio. Name the glass that the guide lies in as guide.material.`,
    });
  return answer({ youngsModulus: elasticity.youngsModulus.value, poissonRatio: elasticity.poissonRatio.value });
}
