/** Plates cut from a cubic crystal: what of three stiffnesses a thin (001) sheet feels. */
import { answer, type Outcome, refuse } from "../problem.ts";
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

/**
 * The same turned round: the crystal that a (001) sheet was cut from.
 *
 *     d = c11 - c12 = 2 q66 (edges along <110>), q11 - q12 (along <100>);   c11 = 2 d / (3 - (q11 + q12) / d),   c12 = c11 - d
 *
 * Derivation: q11 + q12 = c11 + c12 - 2 c12^2 / c11 in both cuts.
 * Problems: `not-cubic` where no cubic crystal has that sheet.
 */
export function cubicFromPlate({ q11, q12, q22, q66 }: PlaneStiffness, edges: "100" | "110"): Outcome<CubicStiffness> {
  const d = edges === "110" ? 2 * q66 : q11 - q12;
  const c44 = edges === "110" ? (q11 - q12) / 2 : q66;
  const rest = 3 - (q11 + q12) / d;
  const c11 = (2 * d) / rest;
  if (Math.abs(q11 - q22) > 1e-6 * q11 || !(rest > 0) || !(c44 > 0) || !(3 * c11 > 2 * d))
    return refuse({
      code: "not-cubic",
      path: ["stiffness"],
      message: `The material has p44, as a cubic crystal, but no cubic crystal gives a sheet of q11 ${q11.toPrecision(5)}, q12 ${q12.toPrecision(5)}, q22 ${q22.toPrecision(5)}, q66 ${q66.toPrecision(5)} Pa with its edges along <${edges}>. Needed: q11 = q22 and (q11 + q12) / ${edges === "110" ? "(2 q66)" : "(q11 - q12)"} < 3.`,
    });
  return answer({ c11, c12: c11 - d, c44 });
}
