/**
 * The engine's quick answer against the plain whole-basis method: 60 devices, 20 shapes with three gaps and guides each, 10 Hz to
 * 2.2 times the first resonance. Here every 12th of 500 frequencies; all of them in tests/deep.
 */
import { afterAll, describe, expect, test } from "vitest";
import { createEngine } from "../../src/core/microphone/engine.ts";
import { engineDevices } from "./engineDevices.ts";
import { type Judged, judgeEngine, summaryOf } from "./judgeEngine.ts";

describe("a quick answer is within 1e-6 of the whole basis at every frequency", () => {
  const engine = createEngine();
  const judged: Judged[] = [];

  afterAll(() => console.log(summaryOf(judged)));

  test.each(engineDevices(60, 3, { perShape: 3, tension: true }))("$says", ({ microphone, says }) => {
    const result = judgeEngine(microphone, judged.length, engine, 12);
    judged.push(result);
    expect(result.curve.converged, says).toBe(true);
    expect(result.worst, `at ${result.at.toFixed(0)} Hz, by the ${result.route} basis`).toBeLessThanOrEqual(1e-6);
  });

  test("and most answers are reduced ones", () => {
    expect(judged.filter(({ route }) => route === "reduced").length).toBeGreaterThan(0.8 * judged.length);
  });
});
