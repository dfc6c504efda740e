/** How long the output needs after a tone that was too loud, stepped in time (overload.ts). */

import { type Carrier, type Overloaded, type OverloadedDevice, overload } from "../../microphone/loudest/overload.ts";
import { centerAtRest, type LoudestEntry, partsOf, toneAt } from "../../microphone/loudest/tone.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { fitMotion } from "../../microphone/poles/fitMotion.ts";
import { type Complex, complex } from "../../numerics/complex.ts";
import { outputCurve } from "../../parts/readout/operating.ts";
import { transferOf } from "../../parts/readout/transfer.ts";
import type { Prediction } from "./prediction.ts";

/** One overload: a tone at the brief's frequency that stops where its pressure is largest. */
export interface Overload {
  /** Level of the tone, dB re 20 uPa, and why it was taken: the brief asks for it, or so far above the loudest sound [dB]. */
  readonly level: number;
  readonly above: number | null;
  /** Whether it stood for ever, in balance; else the number of periods from rest before it stops. */
  readonly balanced: boolean;
  readonly periods: number;
  /** Difference of two periods before the stop, over the motion [-]. */
  readonly unsteady: number;
  /** Largest share of the room to the wall that the center used [-]; null: no wall. */
  readonly used: number | null;
  /** How it ended: the output fell; the diaphragm met the wall, after which nothing is said; no step in time could follow it. */
  readonly ended: Overloaded["ended"];
  /** Whether the steps ended before the forces off the straight line were gone: the rest counts as linear. */
  readonly cut: boolean;
  /** Until the output stays below the loudest sound, below a hundredth of a pascal's, below the noise [s]. */
  readonly until: Falls;
  /** The same estimated from above: the poles' parts added by size. */
  readonly bySize: Falls;
  /** What is left when it falls below the faintest of these; null: it does not. */
  readonly last: Carrier | null;
  /** Time after the stop [s], and the largest output from then on as a level, dB re 20 uPa. */
  readonly left: { readonly time: readonly number[]; readonly level: readonly number[] };
}

/** Times [s]; null: not reached, or no such level. */
export interface Falls {
  readonly loudest: number | null;
  readonly small: number | null;
  readonly noise: number | null;
}

export interface Recovery {
  /** Frequency of the tone [Hz]. */
  readonly frequency: number;
  /** Levels that the output falls below, dB re 20 uPa: the loudest sound, a hundredth of 1 Pa, the noise. */
  readonly loudest: number;
  readonly small: number;
  readonly noise: number | null;
  /** Poles of the fitted device, and its largest error [-]. */
  readonly poles: number;
  readonly error: number;
  readonly overloads: readonly Overload[];
}

/** How far above the loudest sound [dB]. */
const aboves = [10, 20] as const;
/** A hundredth of 1 Pa. */
const smallLevel = 54;
/** Steps a period of the tone, and of the first resonance in vacuum, at least. */
const perPeriod = { tone: 128, resonance: 24 } as const;

/** Null: no linear output, or the sound does not move the diaphragm. */
export function recoveryOf(
  entry: LoudestEntry,
  microphone: Microphone,
  known: Pick<Prediction, "loudest" | "noise" | "resonances" | "decays" | "modes"> & {
    readonly bias: readonly (number | null)[];
    readonly asked: number | null;
  },
): Recovery | null {
  const { loudest, noise, resonances, decays, modes, bias, asked } = known;
  const { level, frequency } = loudest;
  if (level === null || loudest.moved === 0) return null;
  const { angle, amplitude } = outputCurve(transferOf(microphone.readout), microphone.readout.outputs);
  const first = Math.max(...modes.slice(0, 1).map((mode) => mode.frequency), frequency);
  const poles = [
    ...resonances.map(({ frequency: at, dampingRatio }) => poleOf(2 * Math.PI * at, dampingRatio)),
    ...decays.map(({ rate }) => complex(-rate)),
  ];
  const slowest = Math.min(2 * Math.PI, ...poles.map(({ re, im }) => (im > 0 ? im : -re))) / (2 * Math.PI);
  const fitted = fitMotion(entry, microphone, {
    from: slowest / 30,
    to: Math.max(8 * frequency, 4 * first),
    known: poles,
  });
  const parts = partsOf(entry, microphone);
  const tone = toneAt(entry, microphone, parts, frequency);
  const device: OverloadedDevice = {
    model: fitted.model,
    offTheLine: { stiffening: parts.stretch.stiffening, closing: tone.closing },
    guides: microphone.guides.map(({ weight }, i) => ({ weight, amplitude, rest: (bias[i] ?? 0) + angle })),
    ...centerAtRest(entry, microphone),
    frequency,
    step: 1 / (frequency * Math.ceil(Math.max(perPeriod.tone, (perPeriod.resonance * first) / frequency))),
  };
  const faintest = Math.min(smallLevel, noise.levelA ?? smallLevel);
  const levels = [
    ...(asked === null ? [] : [{ level: asked, above: null }]),
    ...aboves.map((above) => ({ level: level + above, above })),
  ];
  return {
    frequency,
    loudest: level,
    small: smallLevel,
    noise: noise.levelA,
    poles: fitted.model.poles.length,
    error: fitted.error,
    overloads: levels.map(({ level: loud, above }): Overload => {
      const { balanced, standing, unsteady, used, ended, cut, left, below, bySize, carrier } = overload(
        device,
        loud,
        faintest,
      );
      const falls = (by: (asked: number) => number | null): Falls => ({
        loudest: by(level),
        small: by(smallLevel),
        noise: noise.levelA === null ? null : by(noise.levelA),
      });
      const until = falls(below);
      const latest = Math.max(until.small ?? 0, until.noise ?? 0);
      return {
        level: loud,
        above,
        balanced,
        periods: standing,
        unsteady,
        used,
        ended,
        cut,
        until,
        bySize: falls(bySize),
        last: carrier(latest),
        left,
      };
    }),
  };
}

const poleOf = (omega: number, dampingRatio: number): Complex => ({
  re: -omega * dampingRatio,
  im: omega * Math.sqrt(Math.max(0, 1 - dampingRatio ** 2)),
});
