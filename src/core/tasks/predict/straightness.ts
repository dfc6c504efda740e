/** Straightness in the words of sound: the levels at which the phase leaves the line and distorts. */

import { phaseCurve } from "../../microphone/loudest/phaseCurve.ts";
import { straightnessOf } from "../../microphone/loudest/straightness.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import type { Prediction } from "./prediction.ts";

/** Peak of 0 dB [Pa]. */
const reference = 20e-6 * Math.SQRT2;

/**
 * `gain`: pressure across the diaphragm, as a slow one would bend it alike, over that of the sound at `frequency` [-]:
 * |S(f)| / |S static|.
 */
export function straightnessAt(
  microphone: Microphone,
  { frequency, gain }: { readonly frequency: number; readonly gain: number },
): NonNullable<Prediction["straightness"]> {
  const found = straightnessOf(phaseCurve(microphone));
  const level = (pressure: number | null) =>
    pressure === null || !(gain > 0) ? null : 20 * Math.log10(pressure / gain / reference);
  return {
    ...found,
    frequency,
    leavesLineLevel: level(found.leavesLine),
    distortedLevel: found.distorted.map(({ pressure }) => level(pressure)),
  };
}
