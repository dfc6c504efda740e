/** What strain does to the polarimeter's phase, as two weights, for glass and for a cubic crystal. */
import type { CubicStiffness } from "../../material/cubic.ts";
import type { GuideOptics, StrainWeights } from "./guide.ts";

export type { StrainWeights } from "./guide.ts";

/**
 * Weights of glass.
 *
 *     P_x = (p11 - p12) / (1 - nu),   P_y = nu P_x
 *
 * nu is that of the glass in which the light runs: a thin glass layer on another plate takes eps_x and eps_y from that plate
 * and eps_z from its own nu. Derivation: docs/theory/phase.md.
 */
export function glassWeights({
  p11,
  p12,
  poissonRatio,
}: Pick<GuideOptics, "p11" | "p12" | "poissonRatio">): StrainWeights {
  const x = (p11 - p12) / (1 - poissonRatio);
  return { x, y: poissonRatio * x };
}

/** Elasto-optic coefficients of a cubic crystal in its own axes [-]. */
export interface CubicElastoOptic {
  readonly p11: number;
  readonly p12: number;
  readonly p44: number;
}

/**
 * Weights of a guide along <110> in a (001) plate of a cubic crystal.
 *
 *     p11' = (p11 + p12) / 2 + p44,   p12' = (p11 + p12) / 2 - p44,   eps_z = -(c12 / c11) (eps_x + eps_y)
 *     P_x = p11' - p12 + (p11 - p12) c12 / c11,   P_y = p12' - p12 + (p11 - p12) c12 / c11
 *
 * Derivation: turn of the elasto-optic tensor by 45 degrees about <001>, then as for glass; with p44 = (p11 - p12) / 2 it is
 * glass. Holds: optics isotropic at rest (cubic), so both modes see one index n.
 */
export function cubicWeights({
  p11,
  p12,
  p44,
  c11,
  c12,
}: CubicElastoOptic & Pick<CubicStiffness, "c11" | "c12">): StrainWeights {
  const mean = (p11 + p12) / 2;
  const through = ((p11 - p12) * c12) / c11;
  return { x: mean + p44 - p12 + through, y: mean - p44 - p12 + through };
}
