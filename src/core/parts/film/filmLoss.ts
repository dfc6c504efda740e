/** What the air in a gap turns into heat, from the profiles of velocity and temperature across it. */
import type { Air } from "../../material/air.ts";
import { layerLoss } from "../../numerics/layerLoss.ts";
import { effectiveViscosity } from "./slip.ts";

export interface FilmLoss {
  /** By friction, per area and squared pressure gradient [W/m2 per (Pa/m)^2], of amplitudes. */
  readonly viscous: number;
  /** By heat that flows to the walls and back, per area and squared pressure [W/m2 per Pa^2], of amplitudes. */
  readonly thermal: number;
}

/**
 * Mean power lost at a real frequency.
 *
 *     viscous = (mu / 2) integral |dv/dz|^2 dz,           v = (i / (omega rho0)) p' (1 - cosh(k z) / cosh(k g / 2))
 *     thermal = (kappa / (2 T0)) integral |dT/dz|^2 dz,   T = p / (rho0 cp) (1 - cosh(kT z) / cosh(kT g / 2))
 *
 * Derivation: docs/theory/losses.md; of a perfect gas, with kappa / (T0 (rho0 cp)^2) = a (gamma - 1) / (gamma P0), a = mu / (rho0 Pr).
 * Holds: as coefficients.ts; slip as the viscosity that it uses.
 */
export function filmLoss({
  gap,
  air,
  omega,
}: {
  readonly gap: number;
  readonly air: Air;
  readonly omega: number;
}): FilmLoss {
  const viscosity = effectiveViscosity({ viscosity: air.viscosity, meanFreePath: air.meanFreePath, gap });
  const diffusivity = air.viscosity / (air.density * air.prandtl);
  const layer = Math.sqrt((2 * viscosity) / (air.density * omega));
  const heatLayer = Math.sqrt((2 * diffusivity) / omega);
  const perPressure = (diffusivity * (air.heatRatio - 1)) / (air.heatRatio * air.pressure);
  return {
    viscous: ((viscosity / layer) * layerLoss(gap / layer)) / (omega * air.density) ** 2,
    thermal: (perPressure / heatLayer) * layerLoss(gap / heatLayer),
  };
}
