import type { BackPlate } from "../acoustics/acoustics.ts";
import type { Relief } from "./relief.ts";

/** Whether air can leave at a pair of edges: "open" (pressure of the volume behind) or "closed" (no flow). */
export type FilmEdge = "open" | "closed";

/** The thin air film between diaphragm and back wall. */
export interface Film {
  /** Gap at rest g, its mean where the diaphragm is bent [m]. */
  readonly gap: number;
  /** How the gap departs from its mean; absent: it is even, or taken so. */
  readonly relief?: Relief;
  /** `sides` are the edges at x = +-a/2, `ends` those at y = +-b/2. */
  readonly edges: { readonly sides: FilmEdge; readonly ends: FilmEdge };
  /** What lets air through the wall behind the film into the volume behind; null: a solid wall. */
  readonly backPlate: BackPlate | null;
}
