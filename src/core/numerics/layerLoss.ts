import { cube, fourth } from "./power.ts";
import { cos, sin } from "./sine.ts";

/**
 * How much a diffusing profile between two walls loses, over that of two walls far apart [-].
 *
 *     L(x) = (sinh x - sin x) / (cosh x + cos x),   x = gap / layer, layer = sqrt(2 nu / omega)
 *
 * of the profile 1 - cosh(k z) / cosh(k gap / 2), k = (1 + i) / layer: layer times the integral of its squared slope over the
 * gap is 2 L. Derivation: docs/theory/losses.md. x -> 0: x^3 / 6, by series where the difference would cancel; x large: 1.
 */
export function layerLoss(x: number): number {
  if (x < 1) {
    const x4 = fourth(x);
    // sinh x - sin x = 2 (x^3 / 3! + x^7 / 7! + x^11 / 11! + ...)
    const difference = 2 * cube(x) * (1 / 6 + x4 * (1 / 5040 + x4 * (1 / 39916800 + x4 / 1307674368000)));
    return difference / (Math.cosh(x) + cos(x));
  }
  const decay = Math.exp(-x);
  return (1 - decay * (decay + 2 * sin(x))) / (1 + decay * (decay + 2 * cos(x)));
}
