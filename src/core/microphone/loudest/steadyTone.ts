/**
 * The output under a steady tone with readout, stretched diaphragm and squeezed film at once (harmonicBalance.ts), and the level
 * at which its distortion comes to a share: a second opinion on loudest.ts where its causes come close to each other.
 */

import { absolute, type Complex } from "../../numerics/complex.ts";
import { sin } from "../../numerics/sine.ts";
import { type DistortedGuide, totalDistortion } from "../../parts/readout/distortion.ts";
import { outputCurve } from "../../parts/readout/operating.ts";
import { transferOf } from "../../parts/readout/transfer.ts";
import type { Microphone } from "../microphone.ts";
import { type Balance, type Balanced, balanceTone, packed } from "./harmonicBalance.ts";
import { amplitudeOf, readingsBy } from "./loudest.ts";
import { type GuideReading, phasesUnder } from "./overtones.ts";
import { type LoudestEntry, partsOf, toneAt } from "./tone.ts";

export interface SteadyTone {
  /** Distortion asked for [-], and the level where the simulated output has it, dB re 20 uPa; null: not found. */
  readonly distortion: number;
  readonly level: number | null;
  /** Why the search ended: found; the film closes or nothing balances there; not below 200 dB, or above the share at 40 dB. */
  readonly stopped: "reached" | "no-balance" | "out-of-range";
  /** Multiples of the tone counted, and the last one's share of the forces off the straight line at that level [-]. */
  readonly multiples: number;
  readonly left: number;
}

/** The device made ready for tones of one frequency. */
interface Ready {
  readonly balance: Balance;
  readonly read: readonly GuideReading[];
  readonly guide: readonly Omit<DistortedGuide, "phases" | "shift">[];
}

/** Half the room that a guess is looked for in [dB]. */
const about = 0.5;
/** Multiples at first and at most, and the last one's share of the forces that is small enough. */
const counts = [8, 16] as const;
const small = 1e-3;

/** Levels of the shares asked for; null where a bias is unknown or a readout stands in its null. */
export function steadyTones(
  entry: LoudestEntry,
  microphone: Microphone,
  question: {
    readonly frequency: number;
    readonly distortions: readonly number[];
    readonly bias: readonly (number | null)[];
    /** A guess of each level [dB]: where it lies within half a decibel the way there is short. */
    readonly near?: readonly (number | null)[];
  },
): readonly SteadyTone[] | null {
  const { frequency, distortions, bias, near } = question;
  const made = new Map<number, Ready>();
  const readyFor = (count: number): Ready | null => {
    const known = made.get(count);
    if (known) return known;
    const fresh = ready(entry, microphone, { frequency, bias, count });
    if (fresh) made.set(count, fresh);
    return fresh;
  };
  if (readyFor(counts[0]) === null) return null;
  return distortions.map((distortion, i) => {
    let answer: SteadyTone | null = null;
    for (const count of counts) {
      answer = searchLevel(readyFor(count)!, distortion, { multiples: count, guess: near?.[i] ?? null });
      if (answer.left <= small) break;
    }
    return answer!;
  });
}

function ready(
  entry: LoudestEntry,
  microphone: Microphone,
  { frequency, bias, count }: { frequency: number; bias: readonly (number | null)[]; count: number },
): Ready | null {
  const { amplitude, angle } = outputCurve(transferOf(microphone.readout), microphone.readout.outputs);
  if (amplitude === 0 || bias.some((one) => one === null || Math.abs(sin(one + angle)) < 1e-9)) return null;
  const parts = partsOf(entry, microphone);
  const tone = toneAt(entry, microphone, parts, frequency, count);
  return {
    balance: { multiples: tone.multiples, stiffening: parts.stretch.stiffening, closing: tone.closing },
    read: readingsBy(tone, parts.stretch),
    guide: microphone.guides.map(({ weight }, i) => {
      const rest = (bias[i] ?? 0) + angle;
      return { weight, amplitude, rest, slope: -amplitude * sin(rest) };
    }),
  };
}

/** In steps of 5 dB from 40 dB or about a guess, then by halves to 0.005 dB; each state begins at its neighbor's. */
function searchLevel(
  ready: Ready,
  distortion: number,
  { multiples, guess }: { readonly multiples: number; readonly guess: number | null },
): SteadyTone {
  let near: Balanced | null = null;
  const at = (level: number): { readonly share: number; readonly state: Balanced } | null => {
    const pressure = amplitudeOf(level);
    const state = balanceTone(ready.balance, pressure, near?.forces ?? null);
    if (state === null) return null;
    const { forces, moved } = state;
    const guides = phasesUnder(ready.read, { pressure, forces: packed(forces), moved }).map((phase, g) => ({
      ...ready.guide[g]!,
      ...phase,
    }));
    return { share: totalDistortion(guides) ?? 1, state };
  };
  const done = (level: number | null, stopped: SteadyTone["stopped"]): SteadyTone => ({
    distortion,
    level,
    stopped,
    multiples,
    left: near === null ? 0 : lastShare(near.forces),
  });
  const halved = (from: number, to: number, broke: boolean): SteadyTone => {
    let [low, high, broken] = [from, to, broke];
    while (high - low > 5e-3) {
      const middle = (low + high) / 2;
      const here = at(middle);
      if (here !== null && here.share < distortion) {
        low = middle;
        near = here.state;
      } else {
        high = middle;
        broken = here === null;
      }
    }
    return done((low + high) / 2, broken ? "no-balance" : "reached");
  };
  if (guess !== null) {
    const below = at(guess - about);
    if (below !== null && below.share < distortion) {
      near = below.state;
      const above = at(guess + about);
      if (above === null || above.share >= distortion) return halved(guess - about, guess + about, above === null);
      near = null;
    }
  }
  const begin = at(40);
  if (begin === null || begin.share >= distortion) return done(null, "out-of-range");
  near = begin.state;
  for (let level = 40; level < 200; level += 5) {
    const above = at(level + 5);
    if (above !== null && above.share < distortion) {
      near = above.state;
      continue;
    }
    return halved(level, level + 5, above === null);
  }
  return done(null, "out-of-range");
}

function lastShare(forces: readonly Complex[]): number {
  const most = Math.max(...forces.map(absolute));
  return most === 0 ? 0 : absolute(forces.at(-1)!) / most;
}
