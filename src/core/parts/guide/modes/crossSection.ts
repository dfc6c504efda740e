/** What a mode sees: the refractive index over the cross-section of a channel guide that is symmetric across. */

/** Field along x (in the diaphragm's plane), or along z (its normal). */
export type Polarization = "TE" | "TM";

export interface CrossSection {
  /**
   * Index at x >= 0 across from the guide's middle and z inward from the face; z < 0 is the cover [-]. Smooth between
   * the lines below; asked within each rectangle of them only.
   */
  readonly index: (x: number, z: number, polarization: Polarization) => number;
  /** Lines where the index jumps or its scale changes: x > 0 ascending, and z >= 0 ascending from the face at 0 [m]. */
  readonly across: readonly number[];
  readonly depth: readonly number[];
  /** Index of the cover, for z < 0 [-]. */
  readonly cover: number;
  /** Highest index far from the guide, below which nothing is guided; highest index anywhere [-]. */
  readonly cutoff: Readonly<Record<Polarization, number>>;
  readonly highest: Readonly<Record<Polarization, number>>;
  /** Same at every x: a slab. */
  readonly slab: boolean;
}
