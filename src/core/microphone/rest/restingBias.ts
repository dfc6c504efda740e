/** The readout's retardation at rest: as the project gives it, or from birefringence, built-in stress and static load. */
import { biasOf } from "../../parts/guide/bias.ts";
import type { Microphone } from "../microphone.ts";
import { biasAtRest } from "./biasAtRest.ts";

/** One for each guide [rad]; null: an interferometer whose bias is not given. Throws where the diaphragm is buckled. */
export function restingBias(microphone: Microphone): readonly (number | null)[] {
  const { readout, guides, light } = microphone;
  if (readout.bias !== null) return guides.map(() => readout.bias);
  if (readout.kind !== "polarimetric") return guides.map(() => null);
  const loads = biasAtRest(microphone);
  return guides.map((guide, i) => biasOf(guide, light.wavelength).atRest + (loads[i]?.load ?? 0));
}
