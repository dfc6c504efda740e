/** Sounds to listen with, made here: a tone, a sweep, a clap, and noise that moves like speech. Full scale is 1. */

import { seededNormal } from "../../numerics/random.ts";
import { cos, sin } from "../../numerics/sine.ts";

export const soundNames = ["tone", "sweep", "clap", "speech-like noise"] as const;
export type SoundName = (typeof soundNames)[number];

/** One of the sounds, `sampling` in Hz; the tone at `frequency` [Hz]. The same seed gives the same noise. */
export function makeSound(
  name: SoundName,
  {
    sampling,
    frequency = 1000,
    seed = 1,
  }: { readonly sampling: number; readonly frequency?: number; readonly seed?: number },
): Float64Array {
  switch (name) {
    case "tone":
      return faded(
        timed(2, sampling, (t) => 0.5 * sin(2 * Math.PI * frequency * t)),
        sampling,
      );
    case "sweep":
      return faded(sweep(sampling), sampling);
    case "clap":
      return clap(sampling, seed);
    case "speech-like noise":
      return faded(speech(sampling, seed), sampling);
  }
}

const timed = (seconds: number, sampling: number, value: (t: number) => number): Float64Array =>
  Float64Array.from({ length: Math.round(seconds * sampling) }, (_, i) => value(i / sampling));

/** Raised cosine over 10 ms at both ends, so that nothing clicks. */
function faded(sound: Float64Array, sampling: number): Float64Array {
  const ramp = Math.round(0.01 * sampling);
  return sound.map((value, i) => {
    const near = Math.min(i, sound.length - 1 - i);
    return near < ramp ? value * (0.5 - 0.5 * cos((Math.PI * near) / ramp)) : value;
  });
}

/** Equal time an octave: sin(2 pi f1 T / ln(f2 / f1) (e^{t ln(f2 / f1) / T} - 1)). */
function sweep(sampling: number): Float64Array {
  const [from, to, seconds] = [50, Math.min(16000, 0.45 * sampling), 4];
  const rate = Math.log(to / from) / seconds;
  return timed(seconds, sampling, (t) => 0.5 * sin(((2 * Math.PI * from) / rate) * (Math.exp(rate * t) - 1)));
}

/** Four bursts of noise that die away, as two hands make them. Times and rates are chosen by ear, not measured. */
function clap(sampling: number, seed: number): Float64Array {
  const normal = seededNormal(seed);
  const bursts = [0.1, 0.108, 0.117, 0.129];
  return timed(0.8, sampling, (t) => {
    const envelope = bursts.reduce((sum, at) => sum + (t < at ? 0 : Math.exp(-(t - at) / 0.004)), 0);
    const room = t < 0.129 ? 0 : 0.2 * Math.exp(-(t - 0.129) / 0.05);
    return 0.12 * (envelope + room) * normal();
  });
}

/**
 * Noise with the long-term slope of speech, level to 500 Hz and falling by about 9 dB an octave above, that swells four times
 * a second. A rough likeness: common practice, not a standard's spectrum.
 */
function speech(sampling: number, seed: number): Float64Array {
  const normal = seededNormal(seed);
  const pole = Math.exp((-2 * Math.PI * 500) / sampling);
  const high = Math.exp((-2 * Math.PI * 100) / sampling);
  let [first, second, slow] = [0, 0, 0];
  const noise = timed(4, sampling, (t) => {
    first = pole * first + (1 - pole) * normal();
    second = pole * second + (1 - pole) * first;
    const mixed = 0.7 * second + 0.3 * first;
    slow = high * slow + (1 - high) * mixed;
    return (mixed - slow) * (0.25 + 0.75 * sin(Math.PI * 4 * t) ** 2);
  });
  const most = noise.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
  return noise.map((value) => (0.5 * value) / most);
}
