/** What is said about listening through the microphone. */

import { formatNumber, formatQuantity, thinSpace } from "../../core/quantity/format.ts";
import type { Heard } from "../../core/tasks/listen/listen.ts";

export const soundWords = {
  title: "Sound",
  hint: "what the microphone makes of it",
  show: "listen",
  warning:
    "Turn your volume down before you begin, headphones most of all. Everything is limited to a tenth of full scale, but how loud that is only your amplifier knows; hearing that is hurt does not come back.",
  which: "Sound",
  own: "a recording of yours",
  toneAt: "Tone at",
  choose: "choose a WAV file",
  drop: "or drop it here; the first channel is heard",
  noFile: "No recording yet; needed: a WAV file. Choose one, or drop it here.",
  compute: "compute",
  computing: "the sound behind the microphone",
  asItIs: "play it as it is",
  through: "play it through the microphone",
  stop: "stop",
  level: "Level",
  levelHint: "below the limit",
  noAudio: "This browser plays no sound.",
  origins:
    "Tone, sweep, clap and noise are made here; the noise is only like speech. It can be heard as long as S(f) is linear: the loudest sound is told on Limits.",
} as const;

/** What the microphone does to the level, and how far it was left to ring. */
export function heardSays({ levelChangeDb, reference, sampling, left }: Heard): string {
  const change =
    levelChangeDb === null
      ? "Nothing is left of it."
      : `Level ${levelChangeDb < 0 ? "down" : "up"} by ${formatNumber(Math.abs(levelChangeDb), { digits: 2 })}${thinSpace}dB, re a tone of ${formatQuantity(reference, "frequency", { digits: 3 })}.`;
  const rest =
    left > 1e-3 ? ` At the end ${formatNumber(100 * left, { digits: 2 })}${thinSpace}% were still ringing.` : "";
  return `${change} Sampled at ${formatQuantity(sampling, "frequency", { digits: 4 })}.${rest}`;
}
