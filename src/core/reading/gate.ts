/**
 * Free field in a room: the impulse response is cut before the first reflection comes back, as [iec-61094-8] does.
 * What the gate leaves knows nothing below the inverse of its length.
 */

import { inverseFourier, realFourier } from "../numerics/fourier.ts";
import { pow } from "../numerics/power.ts";
import { cos, sin } from "../numerics/sine.ts";
import { crossSpectra } from "../numerics/spectra.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import type { RecordedResponse, RecordPair } from "./recordedResponse.ts";

/** Share of the gate before the arrival, and over which it closes. */
const ahead = 0.1;
const closing = 0.3;

/**
 * Output over reference with everything later than `gate` [s] after the arrival taken off: noise by averaged spectra of
 * stretches eight gates long, a sweep by one transform. The standard uncertainty is that of the impulse response's quiet end.
 *
 * Problems: `columns-unequal`, `gate-wrong`, `too-few-samples`, `silent`. Remark: `gated` (what was taken off).
 */
export function gatedResponse(
  pair: RecordPair,
  { gate, sweep }: { readonly gate: number; readonly sweep: boolean },
): Outcome<RecordedResponse> {
  const { reference, output, sampling } = pair;
  const length = Math.round(gate * sampling);
  if (reference.length !== output.length)
    return refuse({
      code: "columns-unequal",
      path: ["output"],
      message: `The reference has ${reference.length} samples, the output ${output.length}; needed: both at once.`,
    });
  if (!(length >= 16))
    return refuse({
      code: "gate-wrong",
      path: ["gate"],
      message: `A gate of ${gate} s holds ${length} samples; needed: 16 or more, as long as the path of the first reflection allows (1 m of detour is 2.9 ms).`,
    });
  const segment = sweep ? reference.length : pow(2, Math.ceil(Math.log2(8 * length)));
  if (
    reference.length < (sweep ? 8 * length : 2 * segment) ||
    reference.some(Number.isNaN) ||
    output.some(Number.isNaN)
  )
    return refuse({
      code: "too-few-samples",
      path: ["reference"],
      message: `${reference.length} samples; needed for this gate: ${sweep ? 8 * length : 2 * segment} or more without gaps.`,
    });
  const spectra = crossSpectra(reference, output, {
    sampling,
    segment,
    ...(sweep ? { window: "rectangular", overlap: 0 } : { window: "hann", overlap: 0.5 }),
  });
  const band = excitedBand(spectra.x);
  if (band === null)
    return refuse({
      code: "silent",
      path: ["reference"],
      message: "The reference is silent; needed: a record of the excitation.",
    });
  const impulse = impulseOf(spectra, segment, band);
  let arrival = 0;
  for (let i = 1; i < segment; i++) if (Math.abs(impulse[i]!) > Math.abs(impulse[arrival]!)) arrival = i;
  const kept = keptPart(impulse, arrival, length);
  const quiet = quietEnd(impulse, arrival, length);
  const spectrum = realFourier(kept.part);
  const points: number[] = [];
  const spacing = segment / length;
  for (let k = 1; Math.round(k * spacing) <= band.to; k++)
    if (Math.round(k * spacing) >= band.from) points.push(Math.round(k * spacing));
  // The impulse response's noise lies in the excited band alone; of what the gate leaves of it half is in each part.
  const share = (band.to - band.from + 1) / (segment / 2);
  const standard = Math.sqrt((quiet.variance * kept.weight) / share / 2);
  const pick = (of: (bin: number) => number) => Float64Array.from(points, of);
  // Time counts from where it did in the record.
  const shift = arrival - Math.round(ahead * length);
  const turned = (bin: number) => {
    const angle = (-2 * Math.PI * bin * shift) / segment;
    const [c, s] = [cos(angle), sin(angle)];
    return { re: spectrum.re[bin]! * c - spectrum.im[bin]! * s, im: spectrum.re[bin]! * s + spectrum.im[bin]! * c };
  };
  const remark: Problem = {
    code: "gated",
    path: ["gate"],
    message: `The gate of ${(1e3 * gate).toPrecision(3)} ms took off ${(10 * Math.log10(Math.max(quiet.power / kept.power, 1e-12))).toFixed(0)} dB of the energy that it keeps, after the arrival at ${((1e3 * arrival) / sampling).toPrecision(3)} ms. Below ${(1 / gate).toFixed(0)} Hz it knows nothing.`,
  };
  return answer(
    {
      frequency: pick((bin) => (bin * sampling) / segment),
      re: pick((bin) => turned(bin).re),
      im: pick((bin) => turned(bin).im),
      coherence: pick((bin) => {
        const power = spectrum.re[bin]! ** 2 + spectrum.im[bin]! ** 2;
        return power / (power + 2 * standard ** 2 || 1);
      }),
      standard: pick(() => standard + 1e-300),
      averages: spectra.segments,
    },
    [remark],
  );
}

interface Band {
  readonly from: number;
  readonly to: number;
}

/** Bins between the first and the last whose power, taken over neighbors, is a thousandth of the strongest or more. */
function excitedBand(power: Float64Array): Band | null {
  const width = Math.max(1, Math.round(power.length / 400));
  const near = power.map((_, k) => {
    let sum = 0;
    for (let i = Math.max(0, k - width); i <= Math.min(power.length - 1, k + width); i++) sum += power[i]!;
    return sum;
  });
  const least = 1e-3 * near.reduce((top, value) => Math.max(top, value), 0);
  if (!(least > 0)) return null;
  const from = Math.max(
    1,
    near.findIndex((value) => value >= least),
  );
  let to = power.length - 2;
  while (to > from && !(near[to]! >= least)) to -= 1;
  return to > from + 4 ? { from, to } : null;
}

/** The response in the band, nothing outside it, back to time. */
function impulseOf(
  { x, crossRe, crossIm }: ReturnType<typeof crossSpectra>,
  segment: number,
  { from, to }: Band,
): Float64Array {
  const [re, im] = [new Float64Array(segment), new Float64Array(segment)];
  for (let k = from; k <= to; k++) {
    if (!(x[k]! > 0)) continue;
    [re[k], im[k]] = [crossRe[k]! / x[k]!, crossIm[k]! / x[k]!];
    [re[segment - k], im[segment - k]] = [re[k]!, -im[k]!];
  }
  return inverseFourier({ re, im }).re;
}

function keptPart(impulse: Float64Array, arrival: number, length: number) {
  const count = impulse.length;
  const part = new Float64Array(count);
  const before = Math.round(ahead * length);
  const close = Math.round(closing * length);
  let [weight, power] = [0, 0];
  for (let i = 0; i < before + length; i++) {
    const left = before + length - i;
    const w =
      i < before
        ? 0.5 - 0.5 * cos((Math.PI * (i + 0.5)) / before)
        : left <= close
          ? 0.5 - 0.5 * cos((Math.PI * (left - 0.5)) / close)
          : 1;
    const value = impulse[(((arrival - before + i) % count) + count) % count]!;
    part[i] = w * value;
    weight += w * w;
    power += part[i]! ** 2;
  }
  return { part, weight, power };
}

/** Variance of a sample over the last third of the time before the arrival comes round again; power of all that was cut. */
function quietEnd(impulse: Float64Array, arrival: number, length: number) {
  const count = impulse.length;
  const before = Math.round(ahead * length);
  const rest = count - before - length;
  const third = Math.max(1, Math.floor(rest / 3));
  let [quiet, power] = [0, 0];
  for (let i = 0; i < rest; i++) {
    const value = impulse[(arrival + length + i) % count]!;
    power += value * value;
    if (i >= rest - third) quiet += value * value;
  }
  return { variance: quiet / third, power };
}
