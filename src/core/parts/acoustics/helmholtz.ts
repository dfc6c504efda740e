import type { Air } from "../../material/air.ts";
import type { Cavity, Hole } from "./acoustics.ts";
import { endCorrections } from "./tube.ts";

/**
 * Resonance of holes and a cavity without losses [Hz]: an estimate to explain a curve, not used in it.
 *
 *     omega^2 = (gamma P0 / (rho0 V)) sum S / (l + 2 delta r)
 *
 * Derivation: mass of the air in the holes against the adiabatic spring of the cavity. Holds: hole radius and cavity wall
 * far above their boundary layers. Null without holes.
 */
export function helmholtzFrequency(given: {
  readonly holes: readonly Pick<Hole, "diameter" | "length" | "ends">[];
  readonly cavity: Pick<Cavity, "volume">;
  readonly air: Air;
}): number | null {
  const { holes, cavity, air } = given;
  if (holes.length === 0) return null;
  const conductance = holes.reduce(
    (sum, { diameter, length, ends }) =>
      sum + (Math.PI * diameter * diameter) / 4 / (length + endCorrections[ends] * diameter),
    0,
  );
  const stiffness = (air.heatRatio * air.pressure) / cavity.volume;
  return Math.sqrt((stiffness * conductance) / air.density) / (2 * Math.PI);
}
