/** What one should know about noise, loudest sound and strength before trusting their verdicts. */
import type { Problem } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { formatQuantity } from "../../quantity/format.ts";
import type { Prediction } from "./prediction.ts";

/** Remarks: `noise-unknown`, `converter-full`, `strength-assumed`; only where the brief asks. */
export function limitRemarks(
  { noise, loudest, strength }: Pick<Prediction, "noise" | "loudest" | "strength">,
  brief: Pick<Brief, "noise" | "loudest" | "strength">,
): readonly Problem[] {
  const found: Problem[] = [];
  if (brief.noise && noise.withoutLight === "no-launched-power")
    found.push({
      code: "noise-unknown",
      path: ["microphone", "light", "launched"],
      message:
        "The launched power is not given, so the light's noise is not known and the brief's noise not judged. Give microphone.light.launched.",
    });
  const asked = brief.loudest?.atLeastDb ?? null;
  if (asked !== null && loudest.converter !== null && loudest.converter < asked)
    found.push({
      code: "converter-full",
      path: ["microphone", "readout", "receiver", "fullScale"],
      message: `A port's voltage fills the converter at ${formatQuantity(loudest.converter, "decibel", { digits: 4 })}, below the loudest sound asked for; that is not counted in its verdict. Lower the load resistor or widen the full scale.`,
    });
  if (brief.strength && strength?.assumed)
    found.push({
      code: "strength-assumed",
      path: ["microphone", "diaphragm", "material"],
      message: `The sheet's strength is not given; assumed: ${strength.tested?.source ?? "none"}. Give the material's "strength" from tests of your own sheet.`,
    });
  return found;
}
