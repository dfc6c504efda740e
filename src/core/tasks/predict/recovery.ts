/** How long the output needs after a tone that was too loud. */

import type { Microphone } from "../../microphone/microphone.ts";
import { forcesUnder } from "../../microphone/steadyTone.ts";
import type { LoudestEntry } from "../../microphone/tone.ts";
import { pow } from "../../numerics/power.ts";
import type { Prediction } from "./prediction.ts";

/** After a tone `above` the loudest sound [dB] stops: until the output is back below that sound, and until all is noise [s]. */
export interface Recovery {
  readonly above: number;
  readonly toLoudest: number;
  readonly toNoise: number | null;
  /** What the forces off the straight line add to the pressure that was there, simulated [-]; null: no steady state was found. */
  readonly forces: number | null;
}

/** How far above the loudest sound the overload lies [dB], unless the diaphragm meets the wall before; and how far before. */
const overload = 20;
const beforeWall = 1;

/**
 * What is left falls as the poles that carry a share: (1 + forces) sum |share| exp(-rate t). An upper estimate, because the parts
 * are added by size and the forces off the straight line as if all of them had moved what the slowest pole moves. Null: no
 * linear output, nothing that decays, or the wall within 3 dB above the loudest sound.
 */
export function recoveryOf(
  entry: LoudestEntry,
  microphone: Microphone,
  known: Pick<Prediction, "loudest" | "noise" | "resonances" | "decays"> & {
    readonly bias: readonly (number | null)[];
  },
): Recovery | null {
  const { loudest, noise, resonances, decays, bias } = known;
  const { level, contact, frequency } = loudest;
  if (level === null) return null;
  const above = contact === null ? overload : Math.min(overload, Math.floor(contact - level - beforeWall));
  const parts = [
    ...resonances.map(({ frequency, dampingRatio, share }) => ({
      rate: 2 * Math.PI * frequency * dampingRatio,
      share: Math.abs(share),
    })),
    ...decays.map(({ rate, share }) => ({ rate, share: Math.abs(share) })),
  ].filter(({ share, rate }) => share > 1e-9 && rate > 0);
  if (parts.length === 0 || above < 3) return null;
  const forces = forcesUnder(entry, microphone, { frequency, bias, level: level + above });
  const left = (time: number) =>
    (1 + (forces ?? 0)) * parts.reduce((sum, { rate, share }) => sum + share * Math.exp(-rate * time), 0);
  const until = (decibel: number) => {
    const wanted = pow(10, -decibel / 20);
    let high = 1e-6;
    while (left(high) > wanted && high < 1e6) high *= 2;
    let low = 0;
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2;
      if (left(middle) > wanted) low = middle;
      else high = middle;
    }
    return high;
  };
  return {
    above,
    toLoudest: until(above),
    toNoise: noise.levelA === null ? null : until(above + level - noise.levelA),
    forces,
  };
}
