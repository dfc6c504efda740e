/**
 * What a microphone makes of a sound: the sound's spectrum times the predicted complex response, and back.
 *
 *     y = F^-1 [ F[x] S(f) / |S(reference)| ],   zeros behind x so that what rings on does not come round to the beginning
 *
 * The response keeps its phase, so what is heard is delayed and rings as the device does. At the reference frequency a tone keeps
 * its size. Below `lowest` nothing is heard and nothing is computed.
 */

import { createEngine, engineAnswer } from "../../microphone/engine.ts";
import { readCurve } from "../../microphone/response/curve.ts";
import { notBuckled } from "../../microphone/rest/buckling.ts";
import { complex } from "../../numerics/complex.ts";
import { fourier, inverseFourier } from "../../numerics/fourier.ts";
import { pow } from "../../numerics/power.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";
import { readBrief } from "../../project/brief.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";

export interface Heard {
  /** What went in, full scale 1. */
  readonly sound: Float64Array;
  /** What the light's phase does, in units in which a tone at `reference` keeps its size; as long as the sound and what rings on. */
  readonly heard: Float64Array;
  /** [Hz] */
  readonly sampling: number;
  readonly reference: number;
  /** Level of what is heard over that of the sound, by mean square [dB]; null: silence. */
  readonly levelChangeDb: number | null;
  /** Size at the very end over the largest: what had not died away [-]. */
  readonly left: number;
}

/** Below this nothing is computed [Hz]. */
export const lowest = 5;
/** What rings on is kept for so long [s]. */
const ringing = 0.25;
/** A minute at 48 kHz. */
const longest = 2_880_000;
const samplingRange = { least: 4000, most: 384_000 } as const;

/**
 * Problems: those of `describe`, `buckled`, `no-sound` (nothing to hear, too long, or not finite), `sampling-out-of-range`, `deaf` (no
 * response at the reference frequency).
 */
export function listen(
  project: Project,
  { sound, sampling }: { readonly sound: Float64Array; readonly sampling: number },
): Outcome<Heard> {
  const described = describe(project);
  if (!described.ok) return described;
  const flat = notBuckled(described.value.diaphragm);
  if (!flat.ok) return flat;
  if (!(sampling >= samplingRange.least && sampling <= samplingRange.most))
    return refuse({
      code: "sampling-out-of-range",
      path: ["sampling"],
      message: `Sampling is ${sampling} Hz; needed: ${samplingRange.least} to ${samplingRange.most} Hz.`,
    });
  if (sound.length === 0 || sound.length > longest || !sound.every(Number.isFinite))
    return refuse({
      code: "no-sound",
      path: ["sound"],
      message: `The sound has ${sound.length} samples; needed: 1 to ${longest}, each a finite number. Cut it shorter.`,
    });
  const { reference } = readBrief(project);
  const spectrum = transferred(sound, sampling);
  const found = engineAnswer(createEngine(), described.value, {
    from: lowest,
    to: sampling / 2,
    tolerance: 1e-6,
    manner: "exact",
  });
  const there = found.respond(complex(2 * Math.PI * reference));
  const size = Math.hypot(there.re, there.im);
  if (!(size > 0))
    return refuse({
      code: "deaf",
      path: ["microphone", "guide"],
      message: `The response at ${reference} Hz is zero, so nothing can be set in relation to it. Move the guide off its blind place.`,
    });
  const { re, im, count } = spectrum;
  const first = Math.ceil((lowest * count) / sampling);
  const half = count / 2;
  const frequencies = Float64Array.from({ length: half - first + 1 }, (_, i) => ((first + i) * sampling) / count);
  const response = readCurve(found.curve, frequencies);
  for (let k = 0; k <= half; k++) {
    const at = k - first;
    const [a, b] = at < 0 ? [0, 0] : [response.re[at]! / size, response.im[at]! / size];
    // The last bin is its own mirror: only a real value fits there.
    const [x, y] = [re[k]! * a - im[k]! * b, k === half ? 0 : re[k]! * b + im[k]! * a];
    [re[k], im[k]] = [x, y];
    if (k > 0 && k < half) [re[count - k], im[count - k]] = [x, -y];
  }
  const whole = inverseFourier({ re, im }).re;
  const heard = whole.slice(0, Math.min(count, sound.length + Math.round(ringing * sampling)));
  return answer(
    {
      sound,
      heard,
      sampling,
      reference,
      levelChangeDb: levelChange(sound, heard),
      left: Math.abs(heard.at(-1) ?? 0) / largest(heard),
    },
    described.remarks,
  );
}

/** Spectrum of the sound with room behind it, a power of two long. */
function transferred(sound: Float64Array, sampling: number) {
  const count = pow(2, Math.ceil(Math.log2(sound.length + 2 * ringing * sampling)));
  const padded = new Float64Array(count);
  padded.set(sound);
  return { ...fourier(padded), count };
}

function levelChange(sound: Float64Array, heard: Float64Array): number | null {
  const energy = (of: Float64Array) => of.reduce((sum, value) => sum + value * value, 0);
  const [before, after] = [energy(sound), energy(heard)];
  return before > 0 && after > 0 ? 10 * Math.log10(after / before) : null;
}

const largest = (of: Float64Array): number => of.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-300);

/** Largest peak and mean square that leave for an ear: half and a tenth of full scale. Common practice in listening tests, not a safe level. */
export const earLimit = { peak: 0.5, rms: 0.1 } as const;

/** Factor, at most 1, that brings all of these sounds under `earLimit`; the same for all, so that they can be compared. */
export function earGain(...sounds: readonly Float64Array[]): number {
  return sounds.reduce((gain, sound) => {
    const square = sound.reduce((sum, value) => sum + value * value, 0) / Math.max(1, sound.length);
    return Math.min(gain, earLimit.peak / largest(sound), earLimit.rms / Math.max(Math.sqrt(square), 1e-300));
  }, 1);
}
