/** The poles of the search and of the engine against the argument principle on the whole system. */

import { createEngine, shapeEntry } from "../../src/core/microphone/engine.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { countPoles } from "../../src/core/microphone/poles/countPoles.ts";
import { ownMotion } from "../../src/core/microphone/poles/ownMotion.ts";
import { wholeModel } from "../../src/core/microphone/poles/poleModel.ts";
import { findPoles } from "../../src/core/microphone/poles/poles.ts";
import { enginePoles } from "../../src/core/microphone/poles/shapePoles.ts";
import { absolute, type Complex, complex, subtract } from "../../src/core/numerics/complex.ts";
import { firstFrequency } from "./judgeEngine.ts";

/** More damping than this lies next to the film's own singularities, where no contour goes. */
export const countedBelow = 0.95;

export interface JudgedPoles {
  /** Oscillating poles with a damping ratio below 0.95: found by the search, and counted on the whole system. */
  readonly found: number;
  readonly counted: number;
  /** Largest relative change of a pole from the search's basis to the whole system [-]. */
  readonly polished: number;
  /** For each of them up to four first resonances, the relative distance of the nearest of the engine's poles [-]. */
  readonly engineOff: readonly number[];
  /** The same of the real poles, polished on the whole system. */
  readonly realOff: readonly number[];
  /** The engine's poles that the search has not, oscillating or real. */
  readonly more: number;
  /** Whether the engine proved their number by its short contour. */
  readonly confirmed: boolean;
}

export function judgePoles(microphone: Microphone): JudgedPoles {
  const engine = createEngine();
  const entry = shapeEntry(engine, microphone);
  const first = firstFrequency(engine, microphone);
  const { oscillating, real, upTo, polished } = findPoles(entry.prepared, microphone);
  // The contour begins at a hundredth of its end.
  const ringing = oscillating.filter(
    ({ dampingRatio, frequency }) => dampingRatio < countedBelow && frequency > upTo / 100 && frequency <= upTo,
  );
  const fast = enginePoles(entry, microphone, { upTo: 0 });
  const engines = [...fast.oscillating.map(({ omega }) => omega), ...fast.real.map(({ rate }) => complex(0, rate))];
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const whole = wholeModel(entry.prepared, lossless);
  const rates = real
    .filter(({ rate }) => rate < 2 * Math.PI * 3.99 * first)
    .map(({ rate }) => ownMotion(whole.form, complex(0, rate), { within: 1e-9 })?.omega ?? complex(0));
  const searched = [...oscillating.map(({ omega }) => omega), ...rates];
  return {
    found: ringing.length,
    // Plus zero: a rounded turn may be -0.
    counted: countPoles(wholeModel(entry.prepared, microphone), { upTo, below: countedBelow }) + 0,
    polished: polished ?? Number.NaN,
    // Those more damped than the contour counts, too.
    engineOff: oscillating
      .filter(({ frequency }) => frequency < 3.99 * first)
      .map(({ omega }) => distanceTo(omega, engines)),
    realOff: rates.map((omega) => distanceTo(omega, engines)),
    more: engines.filter((omega) => absolute(omega) < 2 * Math.PI * 3.99 * first && distanceTo(omega, searched) > 1e-5)
      .length,
    confirmed: fast.confirmed,
  };
}

/** Relative distance of the nearest of some poles [-]. */
const distanceTo = (omega: Complex, others: readonly Complex[]): number =>
  others.reduce(
    (least, other) => Math.min(least, absolute(subtract(other, omega)) / absolute(omega)),
    Number.POSITIVE_INFINITY,
  );

export function polesSummary(judged: readonly JudgedPoles[]): string {
  const counts = judged.map(({ counted }) => counted);
  const off = judged.flatMap(({ engineOff, realOff }) => [...engineOff, ...realOff]);
  return (
    `${judged.length} devices, ${counts.reduce((a, b) => a + b, 0)} poles counted, ${Math.max(...counts)} at most; ` +
    `moved by polishing ${Math.max(...judged.map(({ polished }) => polished)).toExponential(1)} at most; ` +
    `of ${off.length} up to 4 f1 the engine has ${off.filter((value) => value <= 1e-6).length} to 1e-6, ` +
    `${off.filter((value) => value > 1e-2).length} not at all; ` +
    `${judged.filter(({ confirmed }) => !confirmed).length} devices searched ring by ring`
  );
}
