/**
 * Choose a gap for a damping ratio of 0.707: the film is the damper of this microphone, its gap the knob.
 *
 *     npx tsx examples/chooseGap.ts
 */
import { fileURLToPath } from "node:url";
import { formatNumber, formatQuantity, predict } from "../src/core/index.ts";
import { answerOf, withValue, workedPlate } from "./workedPlate.ts";

export interface ChosenGap {
  /** [m] */
  readonly gap: number;
  readonly dampingRatio: number;
  /** Of the resonance [Hz]. */
  readonly frequency: number;
}

const wanted = Math.SQRT1_2;

export function chooseGap(say: (line: string) => void = console.log): ChosenGap {
  const project = workedPlate();
  const tried = (gap: number): ChosenGap => {
    const { resonance } = answerOf(predict(withValue(project, "microphone.film.gap", `${gap} m`)));
    if (resonance.dampingRatio === null || resonance.frequency === null)
      throw new Error(`Nothing rings at a gap of ${gap} m.`);
    say(
      `gap ${formatQuantity(gap, "length", { digits: 5 })}: damping ratio ${formatNumber(resonance.dampingRatio, { digits: 4 })}`,
    );
    return { gap, dampingRatio: resonance.dampingRatio, frequency: resonance.frequency };
  };
  // Damping goes roughly with a power of the gap, so a straight line in logarithms needs few tries.
  let before = tried(100e-6);
  let here = tried(50e-6);
  for (let tries = 0; tries < 10 && Math.abs(here.dampingRatio / wanted - 1) > 1e-4; tries++) {
    const power = Math.log(here.dampingRatio / before.dampingRatio) / Math.log(here.gap / before.gap);
    const next = here.gap * (wanted / here.dampingRatio) ** (1 / power);
    before = here;
    here = tried(next);
  }
  say(
    `Take a gap of ${formatQuantity(here.gap, "length", { digits: 4 })}; the resonance lies at ${formatQuantity(here.frequency, "frequency", { digits: 3 })}.`,
  );
  return here;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) chooseGap();
