/** An edge that an adhesive line holds: how far it gives way when the diaphragm turns it. */
import type { Diaphragm } from "./diaphragm.ts";
import { bendingStiffness } from "./shape.ts";

export interface Adhesive {
  /** Stiffness of the line when pulled through its thickness, E_bond [Pa]; of a wide thin line nearer E (1 - nu) / ((1 + nu) (1 - 2 nu)). */
  readonly modulus: number;
  /** Thickness t of the line [m]. */
  readonly thickness: number;
}

export interface BondedEdge {
  /** Moment per radian and meter of edge, k_r [N]: what `Edge` takes as `rotation`. */
  readonly rotation: number;
  /** Length 1 / beta over which the bond feels the edge [m]; the formula holds for overlaps of 3 of these and more. */
  readonly reach: number;
}

/**
 * Rotational stiffness of an edge glued over a long overlap.
 *
 *     beta = (k' / (4 D))^(1/4),   k' = E_bond / t,   k_r = D beta,   k_r a / D = a (k' / (4 D))^(1/4)
 *
 * The overlap is a semi-infinite beam on an elastic foundation; an end moment M turns its end by M / (beta D).
 * Derivation: docs/theory/bond.md; [hetenyi-1946]. Holds: overlap longer than 3 / beta; the edge's own sinking, M / (2 beta^2 D),
 * is not counted, so the true edge is a little softer; frame much stiffer than the bond. D across the edge: of a plate that bends
 * across x, D11.
 */
export function bondRotation(
  plate: Pick<Diaphragm, "stiffness" | "thickness">,
  { modulus, thickness }: Adhesive,
  edge: "sides" | "ends" = "sides",
): BondedEdge {
  const { d11, d22 } = bendingStiffness(plate);
  const d = edge === "sides" ? d11 : d22;
  const beta = Math.sqrt(Math.sqrt(modulus / thickness / (4 * d)));
  return { rotation: d * beta, reach: 1 / beta };
}
