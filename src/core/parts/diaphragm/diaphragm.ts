/**
 * How an edge is held against rotation; the deflection is zero on every edge.
 * "clamped": no slope; "supported": no moment; { rotation }: moment per radian and meter of edge, k_r [N].
 */
export type Edge = "clamped" | "supported" | { readonly rotation: number };

/**
 * Plane-stress stiffness of the sheet, axis 1 across the guide (x), axis 2 along it (y) [Pa]:
 * sigma_x = q11 eps_x + q12 eps_y, sigma_y = q12 eps_x + q22 eps_y, tau = q66 gamma.
 */
export interface PlaneStiffness {
  readonly q11: number;
  readonly q12: number;
  readonly q22: number;
  readonly q66: number;
}

/** Membrane stiffness A_ij [N/m]; of one material Q_ij h. */
export interface MembraneStiffness {
  readonly a11: number;
  readonly a12: number;
  readonly a22: number;
  readonly a66: number;
}

/** One layer where it lies in the stack. */
export interface PlacedLayer {
  /** From the middle of the stack, z inward [m]. */
  readonly from: number;
  readonly to: number;
  readonly stiffness: PlaneStiffness;
}

/** What a plate of layers is besides its bending and its mass; z runs inward from the middle of the stack. */
export interface Stack {
  readonly membrane: MembraneStiffness;
  /** Height of the neutral plane for bending across and along [m]. */
  readonly neutral: { readonly across: number; readonly along: number };
  /** From the front. */
  readonly layers: readonly PlacedLayer[];
}

/** A thin rectangular plate that closes a window, |x| <= across / 2, |y| <= along / 2. */
export interface Diaphragm {
  /** Side across the guide, a [m]. */
  readonly across: number;
  /** Side along the guide, b [m]. */
  readonly along: number;
  /** Thickness h [m]. */
  readonly thickness: number;
  /** Of a plate of layers: that of the plate of one material that bends alike, Q_ij = 12 D_ij / h^3. */
  readonly stiffness: PlaneStiffness;
  /** Absent: one material. */
  readonly stack?: Stack;
  /** Density, mass per area over thickness [kg/m3]. */
  readonly density: number;
  /** `sides` are the edges at x = +-a/2, `ends` those at y = +-b/2, which the guide crosses. */
  readonly edges: { readonly sides: Edge; readonly ends: Edge };
  /** In-plane tension from all causes, N_x and N_y, positive in tension [N/m]. */
  readonly tension: { readonly across: number; readonly along: number };
  /** Change of the tension with temperature, frame and sheet expanding unlike each other [N/(m K)]; absent: none. */
  readonly tensionPerKelvin?: { readonly across: number; readonly along: number };
  /**
   * Moment about the neutral plane that stresses built into the layers make while the plate is held flat, M_x and M_y, sum of
   * stress times z dz [N]: it bows a plate whose edges turn. Absent: none.
   */
  readonly moment?: { readonly across: number; readonly along: number };
  /** Structural loss factor eta: bending stiffness times (1 + i eta) [-]. */
  readonly lossFactor: number;
}

/** Whether the stresses of its layers bow it: clamped edges take a moment up without bending. */
export function isBowed({ moment, edges }: Pick<Diaphragm, "moment" | "edges">): boolean {
  if (!moment) return false;
  const turns = (edge: Edge) => edge === "supported" || (typeof edge === "object" && Number.isFinite(edge.rotation));
  return (moment.across !== 0 && turns(edges.sides)) || (moment.along !== 0 && turns(edges.ends));
}

/** A of the plate: of its layers, or Q h of one material [N/m]. */
export function membraneStiffness({
  stack,
  stiffness: q,
  thickness: h,
}: Pick<Diaphragm, "stack" | "stiffness" | "thickness">): MembraneStiffness {
  return stack?.membrane ?? { a11: q.q11 * h, a12: q.q12 * h, a22: q.q22 * h, a66: q.q66 * h };
}
