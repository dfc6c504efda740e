/** What one should know about a prediction: where it leaves the range of its formulas. */

import type { Microphone } from "../../microphone/microphone.ts";
import type { Curve } from "../../microphone/response/curve.ts";
import type { Problem } from "../../problem.ts";
import { formatNumber, formatQuantity } from "../../quantity/format.ts";
import type { Prediction } from "./prediction.ts";

/** Beyond so many decibels one damping ratio no longer stands for the response. */
const farFromOne = 3;

/** What it means that the front has no hole. */
function sealedMeans(back: Microphone["back"]): string {
  const open = 'Add a hole, or write "front": null for an open front.';
  if (back?.vent?.exposed)
    return `The front cavity has no hole: sound reaches the diaphragm through the vent alone, from behind. ${open}`;
  if (back && !back.vent && !back.leak)
    return `The front has no hole and the back no vent: the device is sealed. No sound gets in, nor the weather; what moves the diaphragm is the temperature of the air that was shut in. ${open}`;
  return `The front cavity has no hole: no sound reaches the diaphragm. ${open}`;
}

export function remarksOn(
  microphone: Microphone,
  known: Pick<Prediction, "film" | "resonance" | "resonances" | "decays" | "sensitivity" | "resolution" | "parts">,
  curve: Curve,
): readonly Problem[] {
  const { diaphragm, film, guides } = microphone;
  const found: Problem[] = [];
  const say = (code: string, path: readonly (string | number)[], message: string) =>
    found.push({ code, path, message });
  if (known.film && known.film.knudsen > 0.1) {
    say(
      "rarefied-film",
      ["microphone", "film", "gap"],
      `Knudsen number ${formatNumber(known.film.knudsen, { digits: 2 })}: the gap is not wide against the mean free path; the slip fit [veijola-1995] covers the flow, the thermal jump is left out.`,
    );
  }
  if (known.resonance.overdamped) {
    const rate = known.decays[0]?.rate;
    say(
      "overdamped",
      ["microphone", "film"],
      `The film overdamps the diaphragm: no damping ratio of an oscillating pole describes it${rate === undefined ? "" : `; the slowest decay is ${formatNumber(rate, { digits: 3 })} 1/s`}. Read the response itself.`,
    );
  }
  const off = known.parts?.secondOrder;
  if (off && off.decibels > farFromOne && !known.resonance.overdamped) {
    const others = known.resonances.filter(
      ({ frequency, share }) => frequency !== known.resonance.frequency && Math.abs(share) >= 0.01,
    );
    const also =
      others.length === 0
        ? ""
        : ` Heard beside it: ${others
            .slice(0, 3)
            .map(({ frequency }) => formatQuantity(frequency, "frequency", { digits: 3 }))
            .join(", ")}.`;
    say(
      "not-one-resonance",
      ["resonance"],
      `One resonance of that frequency and damping ratio is up to ${formatNumber(off.decibels, { digits: 2 })} dB off the response up to ${formatQuantity(off.upTo, "frequency", { digits: 3 })}: one damping ratio does not describe it.${also} Read the response itself.`,
    );
  }
  const { front, back } = microphone;
  if (front && front.holes.length === 0) {
    say("sealed", ["microphone", "front", "holes"], sealedMeans(back));
  }
  if (back?.cavity && !back.vent && !back.leak) {
    say(
      "no-vent",
      ["microphone", "back", "vent"],
      "The volume behind has no vent: the response goes down to zero frequency, and every change of the barometer or of temperature bends the diaphragm.",
    );
  }
  if (!film && diaphragm.lossFactor === 0 && !front && !back) {
    say(
      "no-damping",
      ["microphone"],
      "Nothing damps this diaphragm: no film, no loss factor. Its response at a resonance is not finite.",
    );
  }
  guides.forEach((guide, i) => {
    const lossy = diaphragm.across / 2 - Math.abs(guide.at);
    if (guide.width !== null && lossy < guide.width / 2) {
      say(
        "guide-over-frame",
        guides.length > 1 ? ["microphone", "guide", i, "at"] : ["microphone", "guide", "at"],
        `The guide is ${formatQuantity(lossy, "length", { digits: 2 })} from the side and ${formatQuantity(guide.width, "length", { digits: 2 })} wide: the part of its light over the frame sees no strain.`,
      );
    }
  });
  if (known.resolution.change > 1e-3) {
    say(
      "not-resolved",
      ["microphone", "diaphragm"],
      `With fewer functions the response changes by ${formatNumber(known.resolution.change, { digits: 1 })}: this shape or film has features finer than the model resolves (a side ratio above about 10, a gap of molecules). Take the numbers for orders of magnitude.`,
    );
  }
  if (!curve.converged) {
    say(
      "curve-not-converged",
      ["response"],
      `After ${curve.samples} samples the response between them is good to ${formatNumber(curve.error, { digits: 1 })} only; frequencies that are asked for are solved one by one.`,
    );
  }
  return found;
}
