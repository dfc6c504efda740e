/** Where spectra are narrow, so that integrals over frequency look there. */
import type { Microphone } from "../../microphone/microphone.ts";
import type { Peak } from "../../quantity/frequencyRule.ts";
import type { Prediction } from "./prediction.ts";

/** Broader than this the plain rule sees a resonance [-]. */
const broad = 0.1;
/** No resonance is taken for narrower than this [-]. */
const narrowest = 1e-5;

/** Oscillating poles, and of a device without film the modes odd across the guide, which only its loss factor damps. */
export function narrowPeaks(
  resonances: Prediction["resonances"],
  modes: Prediction["modes"],
  { film, diaphragm }: Microphone,
): readonly Peak[] {
  const odd = film ? [] : modes.filter(({ parity }) => parity === "oe");
  return [...resonances, ...odd.map(({ frequency }) => ({ frequency, dampingRatio: diaphragm.lossFactor / 2 }))]
    .filter(({ dampingRatio }) => dampingRatio < broad)
    .map(({ frequency, dampingRatio }) => ({ at: frequency, half: frequency * Math.max(dampingRatio, narrowest) }));
}
