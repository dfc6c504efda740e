/** Phase that a guide has before any sound: from built-in stress over its whole length, and from what bends the window at rest. */
import { builtInPhase } from "../../parts/guide/photoelastic.ts";
import type { Microphone } from "../microphone.ts";
import { readLine } from "../response/staticSensitivity.ts";
import { restingPlate, restOf } from "./rest.ts";

/** Of one guide; TM behind TE positive. What birefringence adds is not in it. */
export interface BiasAtRest {
  /** From the stress that sheet, layer and frame have built in, between the polarizers [rad]. */
  readonly stress: number;
  /** Change of it with temperature, frame and sheet expanding unlike each other [rad/K]. */
  readonly stressPerKelvin: number;
  /** From the static pressure difference and the bow of stressed layers: bending and stretch over the window [rad]. */
  readonly load: number;
}

/** One for each guide, in order. Throws where the diaphragm is buckled. */
export function biasAtRest(microphone: Microphone): readonly BiasAtRest[] {
  const { diaphragm, guides, light } = microphone;
  const resting = restingPlate(microphone, restOf(microphone));
  return guides.map((guide) => ({
    ...builtInPhase(guide, light.wavelength),
    load: resting ? readLine(resting, diaphragm, guide, light.wavelength) : 0,
  }));
}
