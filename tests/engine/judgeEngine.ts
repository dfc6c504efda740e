/** The engine's response against the plain whole-basis method, frequency by frequency. */

import { type Engine, engineAnswer, floorShare, shapeEntry } from "../../src/core/microphone/engine.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { type Curve, readCurve } from "../../src/core/microphone/response/curve.ts";
import { coupledSystem, responseAt } from "../../src/core/microphone/system/coupled.ts";
import { complex } from "../../src/core/numerics/complex.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { plateScales } from "../../src/core/parts/diaphragm/shape.ts";
import { withGap } from "./engineDevices.ts";

export interface Judged {
  /** Largest |dS| / max(|S|, 1e-3 |S static|) [-], and where [Hz]. */
  readonly worst: number;
  readonly at: number;
  readonly curve: Curve;
  readonly route: "reduced" | "whole";
  readonly fallBacks: number;
  /** Error that the engine's own check found [-]. */
  readonly checked: number | null;
  /** Remainder of the basis that answered, and the error at its building's random points [-]. */
  readonly remainder: number;
  readonly estimate: number;
}

/** From where responses are asked [Hz], and up to which multiple of the first resonance in vacuum. */
const lowest = 10;
const highest = 2.2;

/** 400 places in equal ratios, both ends included, and 100 by chance. */
const spaced = 400;
const chosen = 100;

/**
 * Asks for the shape once with another gap, so that it is known, then for the response in the quick manner, and compares at
 * every frequency, or at every `skip`-th of them and the highest. The engine may know the shape already. Where a reduced basis
 * answers, its next answer is judged, to a gap 10 % aside.
 */
export function judgeEngine(given: Microphone, seed: number, engine: Engine, skip = 1): Judged {
  const fallBacksBefore = engine.count.fallBack;
  shapeEntry(engine, withGap(given, 50e-6));
  const to = highest * firstFrequency(engine, given);
  const question = { from: lowest, to, tolerance: 1e-7, manner: "quick" } as const;
  const first = engineAnswer(engine, given, question);
  // As under a hand: what was checked at one gap is believed at the next, and few functions may answer there.
  const gap = given.film?.gap ?? 0;
  const microphone = first.route === "reduced" ? withGap(given, gap < 50e-6 ? 1.1 * gap : gap / 1.1) : given;
  const answered = first.route === "reduced" ? engineAnswer(engine, microphone, question) : first;
  const uniform = seededUniform(seed);
  // From the highest down, so that it is always among them.
  const all = [
    ...Array.from({ length: spaced }, (_, i) => to * (lowest / to) ** (i / (spaced - 1))),
    ...Array.from({ length: chosen }, () => lowest + (to - lowest) * uniform()),
  ];
  const frequencies = Float64Array.from(all.filter((_, i) => i % skip === 0));
  const fast = readCurve(answered.curve, frequencies);
  const { entry, line } = answered;
  const whole = coupledSystem(entry.prepared, microphone);
  const floor = floorShare * Math.abs(line.static);
  let [worst, at] = [0, 0];
  frequencies.forEach((frequency, i) => {
    const { re, im } = responseAt(whole, line, complex(2 * Math.PI * frequency));
    const error = Math.hypot(fast.re[i]! - re, fast.im[i]! - im) / Math.max(Math.hypot(re, im), floor);
    // Not a number is the worst of all.
    if (!(error <= worst)) [worst, at] = [error, frequency];
  });
  return {
    worst,
    at,
    curve: answered.curve,
    route: answered.route,
    fallBacks: engine.count.fallBack - fallBacksBefore,
    checked: answered.checked,
    remainder: entry.response?.basis.remainder ?? Number.NaN,
    estimate: entry.response?.estimate ?? Number.NaN,
  };
}

/** First resonance in vacuum [Hz]. */
export function firstFrequency(engine: Engine, microphone: Microphone): number {
  const { modes } = shapeEntry(engine, microphone);
  return Math.sqrt((modes[0]?.lambda ?? Number.NaN) / plateScales(microphone.diaphragm).lambda) / (2 * Math.PI);
}

/** What was found, in two lines. */
export function summaryOf(judged: readonly Judged[]): string {
  const errors = judged.map(({ worst }) => worst).sort((a, b) => a - b);
  const reduced = judged.filter(({ route }) => route === "reduced");
  const missed = reduced.map(({ worst, checked }) => worst / Math.max(checked ?? 0, 1e-9));
  return (
    `${judged.length} devices: error median ${errors[errors.length >> 1]!.toExponential(1)}, worst ${errors.at(-1)!.toExponential(1)}; ` +
    `${reduced.length} by the reduced basis, ${judged.reduce((sum, { fallBacks }) => sum + fallBacks, 0)} sent back to the whole one; ` +
    `the worst error is at most ${Math.max(...missed).toFixed(1)} times what the engine's own check said`
  );
}
