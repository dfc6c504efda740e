import { pow } from "../../numerics/power.ts";

/**
 * Viscosity that a slit of the given gap seems to have when molecules slip at its walls [Pa s].
 *
 *     mu_eff = mu / (1 + 9.638 Kn^1.159),   Kn = mean free path / gap
 *
 * Source: [veijola-1995]. Holds: Kn from 0 to 880 within 5 % (from memory, to be confirmed); no slip at meanFreePath 0.
 */
export function effectiveViscosity(given: {
  readonly viscosity: number;
  readonly meanFreePath: number;
  readonly gap: number;
}): number {
  const knudsen = given.meanFreePath / given.gap;
  return given.viscosity / (1 + 9.638 * pow(knudsen, 1.159));
}
