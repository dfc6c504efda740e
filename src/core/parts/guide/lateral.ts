/** Lateral average over the mode: where across the diaphragm the strain is read, with what weight. */
import { gaussLegendre } from "../../numerics/legendre.ts";
import type { Guide } from "./guide.ts";

export interface LateralPoint {
  /** [m] from the center of the diaphragm. */
  readonly x: number;
  readonly weight: number;
}

// The tail beyond 3.5 radii holds 1e-12 of a Gaussian; 24 points integrate it to 1e-12 as well.
const reach = 3.5;
const points = 24;

/**
 * Points and weights of the average of a quantity over the guide's intensity.
 *
 *     g(x) = sqrt(2 / pi) / w exp(-2 (x - at)^2 / w^2),   w = width / 2
 *
 * What of the mode lies over the frame sees no strain, so the weights then sum to less than 1.
 * `width` null: one point of weight 1.
 */
export function lateralPoints(guide: Pick<Guide, "at" | "width">, across: number): readonly LateralPoint[] {
  if (guide.width === null || guide.width === 0) return [{ x: guide.at, weight: 1 }];
  const radius = guide.width / 2;
  const from = Math.max(-across / 2, guide.at - reach * radius);
  const to = Math.min(across / 2, guide.at + reach * radius);
  const { nodes, weights } = gaussLegendre(points);
  return Array.from(nodes, (node, i) => {
    const x = (from + to) / 2 + ((to - from) / 2) * node;
    const intensity = (Math.sqrt(2 / Math.PI) / radius) * Math.exp(-2 * ((x - guide.at) / radius) ** 2);
    return { x, weight: weights[i]! * ((to - from) / 2) * intensity };
  });
}
