/** Which slow pole belongs to the vent. */
import { complex } from "../../numerics/complex.ts";
import { slitImpedance, ventImpedance } from "../../parts/acoustics/tube.ts";
import type { Microphone } from "../microphone.ts";

/** So slow that only friction holds the air of a vent back [Hz]. */
const slowest = 1e-3;

/**
 * Whether a slow pole is the volume behind that empties through vent and leak, 1 / (R C): that one has no partner, however much
 * air it moves. Diaphragm and film add to C, so that the pole may be slower than the volume alone would be.
 */
export function isVentPole({ back, air }: Microphone, rate: number): boolean {
  if (!back?.cavity || !(back.vent || back.leak)) return false;
  const slow = { air, omega: complex(2 * Math.PI * slowest) };
  const conductance =
    (back.vent ? 1 / ventImpedance({ vent: back.vent, ...slow }).re : 0) +
    (back.leak ? 1 / slitImpedance({ ...back.leak, ...slow }).re : 0);
  const own = (conductance * air.pressure) / back.cavity.volume;
  return rate > 0.4 * own && rate < 1.5 * own;
}
