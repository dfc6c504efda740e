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

/** A thin rectangular plate that closes a window, |x| <= across / 2, |y| <= along / 2. */
export interface Diaphragm {
  /** Side across the guide, a [m]. */
  readonly across: number;
  /** Side along the guide, b [m]. */
  readonly along: number;
  /** Thickness h [m]. */
  readonly thickness: number;
  readonly stiffness: PlaneStiffness;
  /** Density [kg/m3]. */
  readonly density: number;
  /** `sides` are the edges at x = +-a/2, `ends` those at y = +-b/2, which the guide crosses. */
  readonly edges: { readonly sides: Edge; readonly ends: Edge };
  /** In-plane tension from all causes, N_x and N_y, positive in tension [N/m]. */
  readonly tension: { readonly across: number; readonly along: number };
  /** Structural loss factor eta: bending stiffness times (1 + i eta) [-]. */
  readonly lossFactor: number;
}
