/** Elasto-optic coefficients and stress-optic constants: one and the same thing, in two languages. */
import { cube } from "../numerics/power.ts";
import { answer, type Outcome, refuse } from "../problem.ts";
import type { Material } from "./material.ts";

/** An isotropic elasto-optic solid. */
export interface PhotoelasticSolid {
  /** Refractive index n [-]. */
  readonly index: number;
  /** Strain-optic coefficients [-]. */
  readonly p11: number;
  readonly p12: number;
  /** Young's modulus E [Pa]. */
  readonly youngsModulus: number;
  /** Poisson's ratio nu [-]. */
  readonly poissonRatio: number;
}

/**
 * Stress-optic constant of a glass, positive where tension along x makes n_x > n_z [1/Pa].
 *
 *     C = n^3 (p12 - p11) (1 + nu) / (2 E) = K11 - K12
 *
 * Derivation: dB_i = p_ij eps_j, dn = -(n^3 / 2) dB, Hooke's law for uniaxial stress. docs/theory/photoelasticPhase.md
 * counts the constant of TM less TE, which is -C.
 */
export function stressOpticConstant({ index, p11, p12, youngsModulus, poissonRatio }: PhotoelasticSolid): number {
  return (cube(index) * (p12 - p11) * (1 + poissonRatio)) / (2 * youngsModulus);
}

/**
 * Single stress-optic coefficients, dn parallel and across to a uniaxial stress over that stress [1/Pa].
 *
 *     K11 = -(n^3 / 2E) (p11 - 2 nu p12)    K12 = -(n^3 / 2E) (p12 - nu (p11 + p12))
 */
export function stressOpticPair({ index, p11, p12, youngsModulus, poissonRatio: nu }: PhotoelasticSolid) {
  const factor = -cube(index) / (2 * youngsModulus);
  return { k11: factor * (p11 - 2 * nu * p12), k12: factor * (p12 - nu * (p11 + p12)) };
}

/**
 * The same turned round: strain-optic coefficients from K11 and K12 [-].
 *
 *     p11 = -(2E / n^3) ((1 - nu) K11 + 2 nu K12) / (1 - nu - 2 nu^2)
 *     p12 = -(2E / n^3) (nu K11 + K12) / (1 - nu - 2 nu^2)
 */
export function photoelasticFromStressOptic(solid: {
  readonly index: number;
  readonly youngsModulus: number;
  readonly poissonRatio: number;
  readonly k11: number;
  readonly k12: number;
}): { p11: number; p12: number } {
  const { index, youngsModulus, poissonRatio: nu, k11, k12 } = solid;
  const factor = (-2 * youngsModulus) / (cube(index) * (1 - nu - 2 * nu * nu));
  return { p11: factor * ((1 - nu) * k11 + 2 * nu * k12), p12: factor * (nu * k11 + k12) };
}

/**
 * p11 - p12 [-], all that the polarimetric phase needs; null where the material says nothing about it.
 *
 *     p11 - p12 = -2 E C / (n^3 (1 + nu))    where only C is known
 */
export function photoelasticDifference(material: Material, index: number): number | null {
  if (material.p11 !== null && material.p12 !== null) return material.p11.value - material.p12.value;
  if (material.stressOptic === null || material.elasticity.kind !== "isotropic") return null;
  const { youngsModulus, poissonRatio } = material.elasticity;
  return (-2 * youngsModulus.value * material.stressOptic.value) / (cube(index) * (1 + poissonRatio.value));
}

/** p11 of bulk silica at 633 nm [dixon-1967] (from memory, to be confirmed) [-]. */
const silicaP11 = 0.121;

/**
 * p11 and p12 [-] of a material at refractive index `index`.
 *
 * Where only the stress-optic constant is known it fixes the difference; p11 is then taken to be silica's, with the remark
 * `photoelastic-split-assumed`: the polarimetric phase needs the difference only, a single mode's phase needs both.
 * Problems: `missing-photoelastic`.
 */
export function photoelasticPair(material: Material, index: number): Outcome<{ p11: number; p12: number }> {
  if (material.p11 !== null && material.p12 !== null)
    return answer({ p11: material.p11.value, p12: material.p12.value });
  const difference = photoelasticDifference(material, index);
  if (difference === null || material.stressOptic === null)
    return refuse({
      code: "missing-photoelastic",
      path: [material.p11 === null ? "p11" : "p12"],
      message: `"${material.name}" has no photoelastic coefficients; a guide in it needs p11 and p12 (or the stress-optic constant of a glass). Give them in "materials", or name the glass that the guide lies in as guide.material.`,
    });
  const p12 = silicaP11 - difference;
  return answer({ p11: silicaP11, p12 }, [
    {
      code: "photoelastic-split-assumed",
      path: ["p11"],
      message: `Of "${material.name}" only the stress-optic constant is known, ${(material.stressOptic.value * 1e12).toPrecision(3)}e-12 1/Pa (${material.stressOptic.source}, ${material.stressOptic.sure}): it gives p12 - p11 = ${(-difference).toPrecision(4)}. p11 = ${silicaP11} is that of silica [dixon-1967]; the polarimetric phase needs the difference only.`,
    },
  ]);
}
