/** Plates cut from a cubic crystal: what of three stiffnesses a thin (001) sheet feels. */
import type { PlaneStiffness } from "./material.ts";

/** Stiffness of a cubic crystal in its own axes [Pa]. */
export interface CubicStiffness {
  readonly c11: number;
  readonly c12: number;
  readonly c44: number;
}

/**
 * Plane-stress stiffness of a (001) sheet whose edges run along <100> or along <110> [Pa].
 *
 *     along <110>: C11' = (C11 + C12)/2 + C44    C12' = (C11 + C12)/2 - C44    C66' = (C11 - C12)/2
 *     q_ij = C_ij' - C12^2 / C11                 q66 = C66'
 *
 * Derivation: turn of the stiffness tensor by 45 degrees about <001>, then sigma_z = 0 (C13 = C12, C33 = C11).
 * Trap: the shear stiffness along <110> is (C11 - C12)/2, not E / (2 (1 + nu)).
 */
export function cubicPlate({ c11, c12, c44 }: CubicStiffness, edges: "100" | "110"): PlaneStiffness {
  const mean = (c11 + c12) / 2;
  const along = edges === "100" ? { c11, c12, c66: c44 } : { c11: mean + c44, c12: mean - c44, c66: (c11 - c12) / 2 };
  const relief = (c12 * c12) / c11;
  const q11 = along.c11 - relief;
  return { q11, q12: along.c12 - relief, q22: q11, q66: along.c66 };
}

/**
 * Young's modulus [Pa] and Poisson's ratio [-] of a sheet along its axis 1.
 *
 *     E = q11 - q12^2 / q22    nu = q12 / q22
 */
export function elasticFromPlate({ q11, q12, q22 }: PlaneStiffness): { youngsModulus: number; poissonRatio: number } {
  return { youngsModulus: q11 - (q12 * q12) / q22, poissonRatio: q12 / q22 };
}
