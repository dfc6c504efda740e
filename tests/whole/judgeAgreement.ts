/** A quick verdict against the whole prediction, of one project and specimens around it. */
import { loadProject } from "../../src/core/index.ts";
import { drain } from "../../src/core/numerics/progress.ts";
import { lowDiscrepancy } from "../../src/core/numerics/sobolSequence.ts";
import { readBrief } from "../../src/core/project/brief.ts";
import { vary } from "../../src/core/project/paths.ts";
import { judge, type Measure } from "../../src/core/tasks/predict/judge.ts";
import { prepareJudging, tellingOf } from "../../src/core/tasks/predict/judgeBatch.ts";
import { predictMicrophone } from "../../src/core/tasks/predict/predict.ts";

/** Everything that a brief may ask. */
export const wholeBrief = {
  band: { from: "50 Hz", to: "7 kHz", within: "3 dB" },
  sensitivity: { atLeast: "0.1 mrad/Pa", at: "1 kHz" },
  damping: { atLeast: 0.3 },
  noise: { atMost: "60 dB" },
  loudest: { atLeast: "130 dB", at: "1 kHz" },
  vibration: { atMost: "90 dB" },
  strength: { atLeast: 2 },
  site: { staticOverpressure: "2 kPa", rise: "10 s" },
};

/** Largest differences: relative, of levels [dB]; null: one has no number. */
export type Differences = Readonly<Record<Measure, number | null>>;

export interface Agreement {
  readonly route: "span" | "alone";
  readonly differences: Differences;
  readonly estimate: number;
  /** Whether its sensitivity is more than a ten thousandth of a common one. */
  readonly heard: boolean;
}

const paths = ["microphone.diaphragm.across", "microphone.diaphragm.thickness", "air.pressure"];

/** Largest differences that are said: docs/theory/engine.md. */
export const within: Readonly<Record<Measure, number>> = {
  sensitivity: 1e-4,
  resonance: 1e-3,
  damping: 1e-3,
  bandFrom: 1e-3,
  bandTo: 1e-3,
  noise: 0.05,
  loudest: 0.01,
  vibration: 0.01,
  strength: 1e-3,
};

/** Specimens that differ in side, thickness and barometer by some per cent, in the span of others, and the first one alone. */
export function agreements(text: string, count: number): readonly Agreement[] {
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const brief = readBrief(loaded.value);
  const variation = vary(loaded.value, paths);
  if (!variation.ok) throw new Error(JSON.stringify(variation.problems));
  const points = lowDiscrepancy({ dimensions: paths.length, seed: 1 });
  const placed = (i: number) => {
    const point = points(i);
    const values = variation.value.start.map((value, k) => (value ?? 1) * (1 + 0.1 * (point[k]! - 0.5)));
    const described = variation.value.at(values);
    return described.ok ? [{ values, microphone: described.value }] : [];
  };
  const others = Array.from({ length: 24 }, (_, i) => placed(i)).flat();
  const [first] = others;
  if (first === undefined) throw new Error("No specimen can be described.");
  const batch = drain(prepareJudging(tellingOf(first, others), brief));
  const specimens = Array.from({ length: count }, (_, i) => placed(100 + i)).flat();
  const ask = [
    ...specimens.map((one) => ({ ...one, batch })),
    ...specimens.slice(0, 1).map((one) => ({ ...one, batch: null })),
  ];
  return ask.flatMap(({ microphone, values, batch: known }) => {
    const judged = judge(microphone, brief, { batch: known, values });
    if (!judged.ok) return [];
    const exact = predictMicrophone(microphone, brief, { frequencies: [brief.reference] }, []);
    const { measures, verdict } = judged.value;
    const { dampingRatio } = exact.resonance;
    // What creeps has no line to draw, but the damping ratio of its two poles all the same.
    const damping = verdict.find(({ requirement }) => requirement === "brief.damping.atLeast")?.got ?? measures.damping;
    // Two poles that are about to meet move with the square root of any error; where the shares of all listed poles are far from
    // the whole output the exact list ends before the pole that carries it.
    const shares = [...exact.resonances, ...exact.decays].reduce((sum, { share }) => sum + share, 0);
    const named = Math.abs(shares - 1) < 0.3 && (dampingRatio === null || Math.abs(dampingRatio - 1) > 1e-3);
    const ratio = (a: number | null, b: number | null | undefined) =>
      a === null || b === null || b === undefined ? null : Math.abs(a / b - 1);
    const apart = (a: number | null, b: number | null | undefined) =>
      a === null || b === null || b === undefined ? null : Math.abs(a - b);
    const differences: Differences = {
      sensitivity: ratio(measures.sensitivity, exact.sensitivity.magnitude),
      resonance: named ? ratio(measures.resonance, exact.resonance.frequency) : null,
      damping: !named
        ? null
        : dampingRatio !== null && dampingRatio > 1
          ? ratio(damping, dampingRatio)
          : apart(damping, dampingRatio),
      bandFrom: exact.band.from === null ? null : ratio(measures.bandFrom, exact.band.from),
      bandTo: exact.band.to === null ? null : ratio(measures.bandTo, exact.band.to),
      noise: apart(measures.noise, exact.noise.levelA),
      loudest: apart(measures.loudest, exact.loudest.level),
      vibration: apart(measures.vibration, exact.vibration.worst?.level),
      strength: ratio(measures.strength, exact.strength?.factor),
    };
    const heard = exact.sensitivity.magnitude > 1e-7;
    return [{ route: judged.value.route, differences, estimate: judged.value.estimate, heard }];
  });
}
