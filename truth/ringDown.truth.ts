/**
 * What a one-mode fit in volts reads of records with a true damping ratio of 0.0176 at 18.65 kHz, effect by effect: the figures
 * of docs/theory/ringDown.md, computed by another program. Here the records are simulated and read by ours.
 */
import type { Outcome } from "../src/core/problem.ts";
import { fitRingDown, type RingDown } from "../src/core/reading/ringDown.ts";
import type { RingDownQuestion } from "../src/core/reading/ringDownPart.ts";
import { type RingDownPlan, simulateRingDown } from "../src/core/reading/simulateRingDown.ts";
import type { TruthRow } from "./row.ts";

const frequency = 18650;
const dampingRatio = 0.0176;
const decayTime = 1 / (dampingRatio * 2 * Math.PI * frequency);
const mode = { frequency, dampingRatio, amplitude: 1 };

function valueFrom(outcome: Outcome<RingDown>): number {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value.values.dampingRatio.value;
}

/** One mode and an offset, nothing taken in: what a plain fit does. */
const plain = { from: 0, modes: 1, drift: false, hum: null, tone: null } as const satisfies Partial<RingDownQuestion>;

const record = (change: Partial<RingDownPlan>, decays: number) =>
  simulateRingDown({ modes: [mode], sampling: 2e6, duration: decays * decayTime, seed: 1, ...change });

function read(change: Partial<RingDownPlan>, decays: number): number {
  const { output, step } = record(change, decays);
  return valueFrom(fitRingDown({ y: output, step, ...plain }));
}

const inVolts = (amplitude: number, decays: number) =>
  read({ modes: [{ ...mode, amplitude }], readout: { bias: 0, half: 1 } }, decays);

/** Crossed without bias: sin^2(phi / 2), whose line is at twice the frequency. */
function crossed(decays: number): number {
  const { output, step } = record({ modes: [{ ...mode, amplitude: 0.5 }] }, decays);
  return valueFrom(
    fitRingDown({ y: output.map((phase) => Math.sin(phase / 2) ** 2), step, near: 2 * frequency, ...plain }),
  );
}

/** Mean of records whose resonance scatters by a standard deviation, over its normal distribution. */
function averaged(scatter: number, decays: number): number {
  const points = Array.from({ length: 61 }, (_, i) => (i - 30) / 8);
  const weights = points.map((x) => Math.exp((-x * x) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const records = points.map((x) => record({ modes: [{ ...mode, frequency: frequency * (1 + scatter * x) }] }, decays));
  const mean = records[0]!.output.map((_, i) =>
    records.reduce((sum, { output }, k) => sum + (weights[k]! / total) * output[i]!, 0),
  );
  return valueFrom(fitRingDown({ y: mean, step: records[0]!.step, ...plain }));
}

const row = (what: string, got: () => number, expected: number, within = 0.00006 / expected): TruthRow => ({
  what: `damping ratio read of a true 0.0176: ${what}`,
  got,
  expected,
  within,
  why: "digits given; samples, window and the slow-amplitude picture of the source are those of ours",
  origin: "independent method",
  source: "docs/theory/ringDown.md, figures of another program",
});

export const rows: readonly TruthRow[] = [
  row("nothing wrong", () => read({}, 3), 0.0176, 1e-9),
  row("quadrature, 0.5 rad at the start, 3 decay times", () => inVolts(0.5, 3), 0.0173),
  row("quadrature, 1 rad, 3 decay times", () => inVolts(1, 3), 0.0165),
  row("quadrature, 2 rad, 3 decay times", () => inVolts(2, 3), 0.0134, 0.02),
  row("quadrature, 0.5 rad, 1 decay time", () => inVolts(0.5, 1), 0.0171),
  row("quadrature, 1 rad, 1 decay time", () => inVolts(1, 1), 0.0156),
  row("crossed without bias, by its own frequency, 3 decay times", () => crossed(3), 0.0182, 0.02),
  row("source dies at 6000 1/s, 3 decay times", () => read({ sourceRate: 6000 }, 3), 0.0143, 0.01),
  row("source dies at 3000 1/s", () => read({ sourceRate: 3000 }, 3), 0.011, 0.01),
  row("source dies at 1500 1/s", () => read({ sourceRate: 1500 }, 3), 0.0072, 0.02),
  row(
    "a tone of 15 % stays, in phase, 3 decay times",
    () => read({ remaining: { share: 0.15, phase: 0 } }, 3),
    0.012,
    0.04,
  ),
  row(
    "a tone of 15 % stays, against, 3 decay times",
    () => read({ remaining: { share: 0.15, phase: Math.PI } }, 3),
    0.028,
    0.04,
  ),
  row("mean of records whose resonance scatters by 1 %, 1 decay time", () => averaged(0.01, 1), 0.02, 0.025),
  row("mean of records whose resonance scatters by 2 %, 1 decay time", () => averaged(0.02, 1), 0.027, 0.02),
];
