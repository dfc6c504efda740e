import { describe, expect, test } from "vitest";
import { seededNormal } from "../numerics/random.ts";
import { fitRingDown } from "./ringDown.ts";
import type { RingDownQuestion } from "./ringDownPart.ts";
import { type RingDownPlan, simulateRingDown } from "./simulateRingDown.ts";

const mode = { frequency: 18650, dampingRatio: 0.0176, amplitude: 1 };
const plan = (change: Partial<RingDownPlan> = {}): RingDownPlan => ({
  modes: [mode],
  sampling: 5e5,
  duration: 3e-3,
  noise: 0.005,
  seed: 4,
  ...change,
});

function read(change: Partial<RingDownPlan> = {}, question: Partial<RingDownQuestion> = {}) {
  const { output, step, time } = simulateRingDown(plan(change));
  const outcome = fitRingDown({ y: output, step, start: time[0]!, ...question });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return { ...outcome.value, codes: outcome.remarks.map(({ code }) => code) };
}

const holds = ({ low, high }: { readonly low: number | null; readonly high: number | null }, truth: number) =>
  low! <= truth && truth <= high!;

describe("a ring-down", () => {
  test("gives the damping ratio of the pole, with offset, drift, hum and the tone before it", () => {
    const found = read({
      before: 2e-3,
      offset: 0.4,
      drift: 0.1,
      hum: { frequency: 50, amplitude: 0.3 },
      duration: 8e-3,
    });
    expect(holds(found.values.dampingRatio, 0.0176)).toBe(true);
    expect(found.values.frequency.value).toBeCloseTo(18650, -1);
    expect(found.used.from).toBeGreaterThan(-1e-4);
    expect(found.used.from).toBeLessThan(3e-4);
    expect(found.stopped).toBe("converged");
    expect(found.included.length).toBeGreaterThan(0);
  });

  test("the decrement agrees where nothing else is in the record", () => {
    const { secondOpinion } = read();
    expect(secondOpinion.value).toBeCloseTo(0.0176, 3);
  });

  test("two modes that beat are told apart", () => {
    const second = { frequency: 19400, dampingRatio: 0.012, amplitude: 0.5, phase: 1 };
    const found = read({ modes: [mode, second] });
    expect(found.codes).toContain("second-mode");
    expect(found.modes.map(({ frequency }) => Math.round(frequency.value / 10))).toEqual([1865, 1940]);
    expect(holds(found.modes[1]!.dampingRatio, 0.012)).toBe(true);
  });

  test("five degrees from the crossed state the doubled line is told from the tone", () => {
    const { output, step, time } = simulateRingDown(plan({ noise: 0 }));
    const noise = seededNormal(8);
    const y = output.map((phase) => Math.sin(phase / 2 + (5 * Math.PI) / 180) ** 2 + 0.002 * noise());
    const found = fitRingDown({ y, step, start: time[0]! });
    expect(found.ok && found.remarks.map(({ code }) => code)).toContain("line-doubled");
  });

  test("a tone that stays is found and taken out", () => {
    const found = read({ remaining: { share: 0.15, phase: Math.PI }, duration: 6e-3 });
    expect(found.codes).toContain("tone-remains");
    expect(Math.abs(found.values.dampingRatio.value - 0.0176)).toBeLessThan(5e-4);
  });

  test("the readout's curve shows as a third harmonic, and as the phase amplitude behind it", () => {
    const found = read({ modes: [{ ...mode, amplitude: 1 }], readout: { bias: 0, half: 1 }, noise: 0.001 });
    expect(found.codes).toContain("readout-harmonics");
    expect(found.signs.phaseAmplitude).toBeGreaterThan(0.7);
    expect(found.signs.phaseAmplitude).toBeLessThan(1.2);
  });

  test("a bias off quadrature shows as a second harmonic", () => {
    const found = read({ modes: [{ ...mode, amplitude: 0.3 }], readout: { bias: 0.5, half: 1 }, noise: 0.0005 });
    expect(found.codes).toContain("readout-harmonics");
    expect(found.signs.secondHarmonic).toBeGreaterThan(0.01);
  });

  test("a source that dies slowly is seen as a second decay or a bent envelope", () => {
    const found = read({ sourceRate: 3000, duration: 3e-3, noise: 0.002 });
    expect(found.codes.some((code) => code === "second-decay" || code === "envelope-bends")).toBe(true);
  });

  test("nothing is seen in a clean record", () => {
    expect(read().codes).toEqual([]);
  });

  test("a short record says that it is short", () => {
    expect(read({ duration: 1e-4 }, { from: 0 }).codes).toContain("too-short");
  });

  test("missing samples count for nothing", () => {
    const { output, step } = simulateRingDown(plan());
    const holed = output.map((value, i) => (i % 7 === 3 || (i > 200 && i < 240) ? Number.NaN : value));
    const outcome = fitRingDown({ y: holed, step });
    if (!outcome.ok) throw new Error(outcome.problems[0]?.message);
    const { value, standardUncertainty } = outcome.value.values.dampingRatio;
    expect(Math.abs(value - 0.0176)).toBeLessThan(3 * standardUncertainty!);
  });

  test("a clipped beginning is left out", () => {
    const { output, step } = simulateRingDown(plan({ clip: { low: -0.7, high: 0.7 } }));
    const last = output.findLastIndex((value) => Math.abs(value) >= 0.7);
    const outcome = fitRingDown({ y: output, step, clippedUntil: last });
    expect(outcome.ok && holds(outcome.value.values.dampingRatio, 0.0176)).toBe(true);
    expect(outcome.ok && outcome.value.used.first).toBeGreaterThan(last);
  });

  test("a source decay, colored noise and a million samples do not stop it", () => {
    const normal = seededNormal(2);
    let kept = 0;
    const { output, step } = simulateRingDown(plan());
    const colored = output.map((value) => {
      kept = 0.9 * kept + 0.01 * normal();
      return value + kept;
    });
    const outcome = fitRingDown({ y: colored, step });
    expect(outcome.ok && outcome.remarks.map(({ code }) => code)).toContain("residuals-not-white");
  });

  test.each([
    ["too-few-samples", { y: new Float64Array(5), step: 1e-5 }],
    ["silent", { y: new Float64Array(500), step: 1e-5 }],
    ["silent", { y: new Float64Array(500).fill(3), step: 1e-5 }],
    ["wrong-step", { y: new Float64Array(500), step: 0 }],
    ["part-outside", { y: Float64Array.from({ length: 500 }, (_, i) => Math.sin(i)), step: 1e-5, from: 1 }],
    ["no-decay", { y: Float64Array.from({ length: 500 }, (_, i) => Math.sin(i / 4) * Math.exp(i / 100)), step: 1e-5 }],
  ])("%s is refused", (code, question) => {
    const outcome = fitRingDown(question);
    expect(outcome.ok ? [] : outcome.problems.map((problem) => problem.code)).toEqual([code]);
  });
});
