/** The engine against the plain whole-basis method at 400 frequencies in equal ratios and 100 by chance. */
import { afterAll, describe, expect, test } from "vitest";
import { createEngine } from "../../src/core/microphone/engine.ts";
import { engineDevices } from "../engine/engineDevices.ts";
import { type Judged, judgeEngine, summaryOf } from "../engine/judgeEngine.ts";

const draws = [
  { name: "the 60 devices of tests/engine", devices: engineDevices(60, 3, { perShape: 3, tension: true }) },
  { name: "60 devices of a shape each", devices: engineDevices(60, 30, { tension: true }) },
];

describe.each(draws)(
  "a quick answer is within 1e-6 of the whole basis at all 500 frequencies: $name",
  ({ devices }) => {
    const engine = createEngine();
    const judged: Judged[] = [];

    afterAll(() => console.log(summaryOf(judged)));

    test.each(devices)("$says", ({ microphone, says }) => {
      const result = judgeEngine(microphone, judged.length, engine);
      judged.push(result);
      expect(result.curve.converged, says).toBe(true);
      expect(result.worst, `at ${result.at.toFixed(0)} Hz, by the ${result.route} basis`).toBeLessThanOrEqual(1e-6);
    });
  },
);
