/** The poles of the search and of the engine against the argument principle on the whole system. */
import { countPoles } from "../../src/core/microphone/countPoles.ts";
import { createEngine, shapeEntry } from "../../src/core/microphone/engine.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { wholeModel } from "../../src/core/microphone/poleModel.ts";
import { findPoles } from "../../src/core/microphone/poles.ts";
import { enginePoles } from "../../src/core/microphone/shapePoles.ts";
import { absolute, subtract } from "../../src/core/numerics/complex.ts";
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
}

export function judgePoles(microphone: Microphone): JudgedPoles {
  const engine = createEngine();
  const entry = shapeEntry(engine, microphone);
  const first = firstFrequency(engine, microphone);
  const { oscillating, upTo, polished } = findPoles(entry.prepared, microphone);
  // The contour begins at a hundredth of its end.
  const ringing = oscillating.filter(
    ({ dampingRatio, frequency }) => dampingRatio < countedBelow && frequency > upTo / 100 && frequency <= upTo,
  );
  const fast = enginePoles(entry, microphone, { upTo: 0 }).oscillating;
  return {
    found: ringing.length,
    // Plus zero: a rounded turn may be -0.
    counted: countPoles(wholeModel(entry.prepared, microphone), { upTo, below: countedBelow }) + 0,
    polished: polished ?? Number.NaN,
    engineOff: ringing
      .filter(({ frequency }) => frequency < 3.99 * first)
      .map(({ omega }) =>
        fast.reduce(
          (least, other) => Math.min(least, absolute(subtract(other.omega, omega)) / absolute(omega)),
          Number.POSITIVE_INFINITY,
        ),
      ),
  };
}

export function polesSummary(judged: readonly JudgedPoles[]): string {
  const counts = judged.map(({ counted }) => counted);
  const off = judged.flatMap(({ engineOff }) => engineOff);
  return (
    `${judged.length} devices, ${counts.reduce((a, b) => a + b, 0)} poles counted, ${Math.max(...counts)} at most; ` +
    `moved by polishing ${Math.max(...judged.map(({ polished }) => polished)).toExponential(1)} at most; ` +
    `of ${off.length} up to 4 f1 the engine has ${off.filter((value) => value <= 1e-6).length} to 1e-6, ` +
    `${off.filter((value) => value > 1e-2).length} not at all`
  );
}
