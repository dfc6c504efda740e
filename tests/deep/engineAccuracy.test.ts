/** The engine against the plain whole-basis method at 400 frequencies in equal ratios and 100 by chance. */
import { describe, expect, test } from "vitest";
import { createEngine } from "../../src/core/microphone/engine.ts";
import { type EngineDevice, engineDevices } from "../engine/engineDevices.ts";
import { judgeEngine, summaryOf } from "../engine/judgeEngine.ts";

// Judged before the tests begin: a film of a few microns takes longer than a test may.
function judge(devices: readonly EngineDevice[]) {
  const engine = createEngine();
  const judged = devices.map(({ microphone, says }, i) => ({ says, result: judgeEngine(microphone, i, engine) }));
  console.log(summaryOf(judged.map(({ result }) => result)));
  return judged;
}

const draws = [
  { name: "the 60 devices of tests/engine", judged: judge(engineDevices(60, 3, { perShape: 3, tension: true })) },
  { name: "60 devices of a shape each", judged: judge(engineDevices(60, 30, { tension: true })) },
];

describe.each(draws)("a quick answer is within 1e-6 of the whole basis at all 500 frequencies: $name", ({ judged }) => {
  test.each(judged)("$says", ({ result }) => {
    expect(result.curve.converged).toBe(true);
    expect(result.worst, `at ${result.at.toFixed(0)} Hz, by the ${result.route} basis`).toBeLessThanOrEqual(1e-6);
  });
});
