/** Share of simulated records whose interval holds the truth: devices from a seed, damping ratios from 0.002 to 0.5. */
import { seededUniform } from "../src/core/numerics/random.ts";
import type { Outcome } from "../src/core/problem.ts";
import type { ReadValue } from "../src/core/reading/reading.ts";
import { fitResponse } from "../src/core/reading/response.ts";
import { fitRingDown } from "../src/core/reading/ringDown.ts";
import { simulateResponse } from "../src/core/reading/simulateResponse.ts";
import { simulateRingDown } from "../src/core/reading/simulateRingDown.ts";

export interface Coverage {
  readonly dampingRatio: number;
  readonly frequency: number;
  /** Records that gave no answer. */
  readonly refused: number;
}

type Values = { readonly dampingRatio: ReadValue; readonly frequency: ReadValue };

function counted(
  count: number,
  one: (i: number) => {
    readonly truth: { readonly dampingRatio: number; readonly frequency: number };
    readonly read: Outcome<{ readonly values: Values }>;
  },
): Coverage {
  let [damping, frequency, refused] = [0, 0, 0];
  const holds = ({ low, high }: ReadValue, truth: number) =>
    low !== null && high !== null && low <= truth && truth <= high;
  for (let i = 0; i < count; i++) {
    const { truth, read } = one(i);
    if (!read.ok) refused += 1;
    else {
      if (holds(read.value.values.dampingRatio, truth.dampingRatio)) damping += 1;
      if (holds(read.value.values.frequency, truth.frequency)) frequency += 1;
    }
  }
  return { dampingRatio: damping / count, frequency: frequency / count, refused };
}

export function ringDownCoverage(seed: number, count: number): Coverage {
  const random = seededUniform(seed);
  return counted(count, (i) => {
    const dampingRatio = 0.002 * 250 ** random();
    const frequency = 2000 + 20_000 * random();
    const perPeriod = 16 + 24 * random();
    const sampling = frequency * perPeriod;
    // Two to five decay times, never fewer than three periods.
    const decays = 2 + 3 * random();
    const duration = Math.min(
      600 / sampling,
      Math.max(3 / frequency, decays / (dampingRatio * 2 * Math.PI * frequency)),
    );
    const { output, step } = simulateRingDown({
      modes: [{ frequency, dampingRatio, amplitude: 1, phase: 2 * Math.PI * random() }],
      sampling,
      duration,
      noise: 0.005 + 0.02 * random(),
      offset: random() - 0.5,
      seed: seed * 100_003 + i,
    });
    return { truth: { dampingRatio, frequency }, read: fitRingDown({ y: output, step }) };
  });
}

/** Complex responses and magnitudes by turns. */
export function responseCoverage(seed: number, count: number): Coverage {
  const random = seededUniform(seed);
  return counted(count, (i) => {
    const dampingRatio = 0.002 * 250 ** random();
    const frequency = 2000 + 20_000 * random();
    const half = Math.min(0.9, (3 + 5 * random()) * dampingRatio);
    const points = 40 + Math.floor(60 * random());
    const at = Float64Array.from({ length: points }, (_, k) => frequency * (1 + half * ((2 * k) / (points - 1) - 1)));
    const peak = 1 / (2 * dampingRatio);
    const { re, im } = simulateResponse({
      sections: [{ frequency, dampingRatio, gain: 1 }],
      frequency: at,
      noise: peak * (0.003 + 0.015 * random()),
      seed: seed * 100_003 + i,
    });
    const read =
      i % 2 === 0
        ? fitResponse({ frequency: at, re, im })
        : fitResponse({ frequency: at, re: re.map((value, k) => Math.hypot(value, im[k]!)) });
    return { truth: { dampingRatio, frequency }, read };
  });
}
