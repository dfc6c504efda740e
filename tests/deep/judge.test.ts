/** Quick verdicts of random projects against their whole predictions, in the span of specimens around them and alone. */
import { describe, expect, test } from "vitest";
import { demoText } from "../../src/core/index.ts";
import { measures } from "../../src/core/tasks/predict/judge.ts";
import { anyDevice } from "../whole/anyDevice.ts";
import { agreements, wholeBrief, within } from "../whole/judgeAgreement.ts";

const demo = JSON.parse(demoText);
const projects = Array.from({ length: 40 }, (_, i) => {
  const file = JSON.parse(anyDevice(770_000 + i).text);
  const microphone = { ...file.microphone, light: demo.microphone.light, readout: demo.microphone.readout };
  return {
    i,
    text: JSON.stringify({ ...file, brief: wholeBrief, microphone }),
  };
});

describe("a quick verdict", () => {
  test.each(projects)("agrees with the whole prediction: project $i", ({ text }) => {
    for (const { route, differences, heard } of agreements(text, 2)) {
      // Nothing is heard of a sealed device, or next to a null: numbers of nothing.
      if (!heard) continue;
      for (const measure of measures) {
        expect(differences[measure] ?? 0, `${measure}, ${route}, ${text}`).toBeLessThan(within[measure]);
      }
    }
  });
});
