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
const { nodes, weights } = gaussLegendre(24);

/** Guides narrower than this share of the side are read at three points: the curvature is a parabola across them. */
const narrow = 0.02;

/**
 * Points and weights of the average of a quantity over the guide's intensity.
 *
 *     g(x) = sqrt(2 / pi) / w exp(-2 (x - at)^2 / w^2),   w = width / 2
 *
 * A narrow guide off the frame: three points of Gauss-Hermite quadrature, x = at, at -+ sqrt(3) w / 2, weights 2/3, 1/6, 1/6.
 * What of the mode lies over the frame sees no strain, so the weights then sum to less than 1.
 * `width` null: one point of weight 1.
 */
export function lateralPoints(guide: Pick<Guide, "at" | "width">, across: number): readonly LateralPoint[] {
  if (guide.width === null || guide.width === 0) return [{ x: guide.at, weight: 1 }];
  const radius = guide.width / 2;
  const from = Math.max(-across / 2, guide.at - reach * radius);
  const to = Math.min(across / 2, guide.at + reach * radius);
  if (to - from > 1.999 * reach * radius && guide.width < narrow * across) {
    const step = (Math.sqrt(3) * radius) / 2;
    return [
      { x: guide.at - step, weight: 1 / 6 },
      { x: guide.at, weight: 2 / 3 },
      { x: guide.at + step, weight: 1 / 6 },
    ];
  }
  return Array.from(nodes, (node, i) => {
    const x = (from + to) / 2 + ((to - from) / 2) * node;
    const intensity = (Math.sqrt(2 / Math.PI) / radius) * Math.exp(-2 * ((x - guide.at) / radius) ** 2);
    return { x, weight: weights[i]! * ((to - from) / 2) * intensity };
  });
}
