/** Bending stress at the faces of the diaphragm under a uniform pressure. */
import type { Diaphragm } from "./diaphragm.ts";
import { staticPlate } from "./statics.ts";

/** Stress at one point of a face, per pressure [Pa/Pa]; tension positive. */
export interface FaceStress {
  readonly x: number;
  readonly y: number;
}

export interface BendingStress {
  /** x, y [m] from the center. */
  at(x: number, y: number, face: "front" | "back"): FaceStress;
}

export interface LargestStress {
  /** Largest tension along x or y, per pressure [Pa/Pa]. */
  readonly stress: number;
  readonly face: "front" | "back";
  /** Where [m] from the center; by symmetry at -x, -y too. */
  readonly x: number;
  readonly y: number;
  readonly axis: "across" | "along";
}

/**
 * Stress field from the static plate.
 *
 *     sigma_x = -(q11 z_x w_xx + q12 z_y w_yy),   z = -h/2 at the front face, +h/2 at the back, less the neutral plane's height
 *     one material: +-6 M_x / h^2
 *
 * Holds: deflection well below the thickness; `functions` polynomials a direction: 20 give the edge stress of a
 * clamped square to 1e-5. Throws where the diaphragm is buckled.
 */
export function bendingStress(diaphragm: Diaphragm, options: { functions: number }): BendingStress {
  const plate = staticPlate(diaphragm, options);
  const faces = { front: faceOf(diaphragm, "front"), back: faceOf(diaphragm, "back") };
  return {
    at: (x, y, face) => stressAt(faces[face], plate.curvature(x, y)),
  };
}

function stressAt(
  { q, across, along }: ReturnType<typeof faceOf>,
  { xx, yy }: { readonly xx: number; readonly yy: number },
): FaceStress {
  const [epsX, epsY] = [-across * xx, -along * yy];
  return { x: q.q11 * epsX + q.q12 * epsY, y: q.q12 * epsX + q.q22 * epsY };
}

/** The material at a face and its height over the neutral plane; in a stack the outermost layer is looked at, no inner face. */
function faceOf({ stiffness, thickness, stack }: Diaphragm, face: "front" | "back") {
  const z = face === "front" ? -thickness / 2 : thickness / 2;
  const layer = stack?.layers.at(face === "front" ? 0 : -1);
  const { across = 0, along = 0 } = stack?.neutral ?? {};
  return { q: layer?.stiffness ?? stiffness, across: z - across, along: z - along };
}

/**
 * Stress at both faces on a table of places, shares of the half sides from the middle to the edges, the same for both
 * directions [Pa/Pa]: (i, j) are indices across and along. What `bendingStress` gives one by one, in two passes for all.
 */
export function stressTable(
  diaphragm: Diaphragm,
  { at, functions }: { readonly at: readonly number[]; readonly functions: number },
): (i: number, j: number) => { readonly front: FaceStress; readonly back: FaceStress } {
  const curvature = staticPlate(diaphragm, { functions }).curvatures(at);
  const [front, back] = [faceOf(diaphragm, "front"), faceOf(diaphragm, "back")];
  return (i, j) => {
    const there = curvature(i, j);
    return { front: stressAt(front, there), back: stressAt(back, there) };
  };
}

/** Points of the first search, half a side apart from center to edge. */
const coarse = 12;

/**
 * The largest tension along x or y at either face, and where: searched on a grid of a quarter of the plate, edges included, then
 * in ever smaller steps around the best point. Pressure of the other sign swaps the faces. On the edges and axes of symmetry
 * these are the principal stresses; twisting near the corners of a supported plate is not looked at.
 */
export function largestBendingStress(diaphragm: Diaphragm, options: { functions: number }): LargestStress {
  const field = bendingStress(diaphragm, options);
  const [across, along] = [diaphragm.across / 2, diaphragm.along / 2];
  const look = (u: number, v: number) => {
    const [x, y] = [u * across, v * along];
    const back = field.at(x, y, "back");
    const axis = Math.abs(back.x) >= Math.abs(back.y) ? "across" : "along";
    const value = axis === "across" ? back.x : back.y;
    return { stress: Math.abs(value), face: value >= 0 ? "back" : "front", x, y, axis, u, v } as const;
  };
  let best = look(0, 0);
  const take = (u: number, v: number) => {
    const there = look(Math.min(1, Math.max(0, u)), Math.min(1, Math.max(0, v)));
    if (there.stress > best.stress) best = there;
  };
  for (let i = 0; i <= coarse; i++) for (let j = 0; j <= coarse; j++) take(i / coarse, j / coarse);
  for (let step = 0.5 / coarse; step > 1e-6; step /= 2) {
    const { u, v } = best;
    for (const du of [-step, 0, step]) for (const dv of [-step, 0, step]) take(u + du, v + dv);
  }
  const { stress, face, x, y, axis } = best;
  return { stress, face, x, y, axis };
}
