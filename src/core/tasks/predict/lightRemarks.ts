/** What one should know about the light: no linear signal, a bias that drifts off, a servo in the band, a magnet, a line too wide. */
import type { Microphone } from "../../microphone/microphone.ts";
import type { Problem } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { formatNumber, formatQuantity } from "../../quantity/format.ts";
import type { LightAnswer } from "./light.ts";

/** Verdet constant of silica at 633 nm [rad/(T m)]. From memory, to be confirmed; it falls as the square of the wavelength. */
const verdet = 4;
const verdetWavelength = 633e-9;

/** Remarks: `bias-in-null`, `bias-drifts`, `servo-in-band`, `strong-magnet`, `incoherent`, `fiber-crosstalk`. */
export function lightRemarks(
  { readout, guides, light }: Microphone,
  brief: Pick<Brief, "site" | "band">,
  answer: LightAnswer,
): readonly Problem[] {
  const remarks: Problem[] = [];
  const say = (code: string, path: readonly string[], message: string) => remarks.push({ code, path, message });
  const angle = (value: number) => formatQuantity(value, "angle", { digits: 3 });
  if (answer.quadrature < 0.01 || answer.visibility === 0)
    say(
      "bias-in-null",
      ["microphone", "readout", "bias"],
      `At a bias of ${angle(answer.bias)} this readout has no linear signal${answer.visibility === 0 ? ": its two fields do not interfere" : ": it answers with the square of the phase, at twice the frequency"}. The slope is largest at ${angle(answer.choose.bias)}.`,
    );
  const { site } = answer.drift;
  if (site && !site.held && site.leastSlopeDb < -1)
    say(
      "bias-drifts",
      ["brief", "site", "temperature"],
      `Over the site's temperatures the bias goes from ${angle(site.bias[0])} to ${angle(site.bias[1])}, and the slope ${site.leastSlopeDb < -60 ? "passes through its null" : `falls by up to ${formatNumber(-site.leastSlopeDb, { digits: 2 })} dB`}. Hold the bias by a servo, or lower what moves it: birefringence with temperature, unlike expansion of sheet and frame, length.`,
    );
  const lowest = brief.band?.from ?? null;
  if (readout.servo && lowest !== null && readout.servo.corner > lowest)
    say(
      "servo-in-band",
      ["microphone", "readout", "servo", "corner"],
      `The servo follows up to ${formatQuantity(readout.servo.corner, "frequency")} and takes the sound from ${formatQuantity(lowest, "frequency")} up with the drift: its corner belongs below the band.`,
    );
  if (brief.site.precautions.includes("strong-magnet"))
    say("strong-magnet", ["brief", "site", "precautions"], faraday(guides[0].birefringence, light.wavelength));
  if (answer.coherence && answer.coherence.contrast < 0.99)
    say(
      "incoherent",
      ["microphone", "light", "linewidth"],
      `The two fields are ${formatQuantity(Math.abs(answer.pathDifference), "length", { digits: 3 })} apart and the light stays coherent over ${formatQuantity(answer.coherence.length ?? 0, "length", { digits: 3 })}: ${formatNumber(100 * answer.coherence.contrast, { digits: 3 })} % of the contrast is left. That is not in the visibility here: give it in readout.visibility, or take a narrower line.`,
    );
  const { crosstalk } = answer.drift;
  if (crosstalk !== null && crosstalk > 0.01)
    say(
      "fiber-crosstalk",
      ["microphone", "light", "fiber", "crosstalk"],
      `Light in the fiber's wrong axis moves the bias by up to ±${angle(crosstalk)} as the fiber is bent or warmed. A better polarizer on the chip takes it away.`,
    );
  return remarks;
}

function faraday(birefringence: number, wavelength: number): string {
  const rotation = verdet * (verdetWavelength / wavelength) ** 2;
  const beat = (2 * Math.PI * Math.abs(birefringence)) / wavelength;
  const share =
    beat === 0
      ? "with no birefringence it turns the light freely"
      : `the guide's birefringence, ${formatNumber(beat, { digits: 2 })} rad/m, holds it to ${formatNumber((2 * rotation) / beat, { digits: 1 })} a tesla`;
  return `A strong magnet turns polarization by about ${formatNumber(rotation, { digits: 2 })} rad a tesla and meter in glass (silica, from memory). In the guide ${share}; in plain fiber between guide and analyzer it is an error as large as itself: put both polarizers on the chip. Keep people with implants and loose iron away, and follow the site's rules for the field.`;
}
