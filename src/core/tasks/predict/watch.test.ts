import { expect, test } from "vitest";
import { createEngine } from "../../microphone/engine.ts";
import { demoText } from "../../project/demo.ts";
import { loadProject } from "../../project/load.ts";
import { predict, watch } from "./predict.ts";

test("what a hand watches is what predict answers there, without what waits for rest", () => {
  const demo = loadProject(demoText);
  if (!demo.ok) throw new Error("the demo does not load");
  const whole = predict(demo.value);
  const seen = watch(demo.value, { engine: createEngine(), manner: "quick", passing: true });
  if (!whole.ok || !seen.ok) throw new Error("refused");
  expect(seen.value.resonance.dampingRatio).toBeCloseTo(whole.value.resonance.dampingRatio ?? Number.NaN, 4);
  expect(seen.value.band.to ?? Number.NaN).toBeCloseTo(whole.value.band.to ?? Number.NaN, -1);
  expect(seen.value.response.frequency).toEqual(whole.value.response.frequency);
  // A hundred of these are a pixel; the slow pole of the vent alone is worth two.
  const [steps, exact] = [seen.value.time?.step.value ?? [], whole.value.time?.step.value ?? []];
  const most = Math.max(...exact.map(Math.abs));
  expect(Math.max(...exact.map((value, i) => Math.abs(value - (steps[i] ?? Number.NaN))))).toBeLessThan(2e-5 * most);
  expect(seen.value.verdict.map(({ requirement }) => requirement)).toEqual(
    whole.value.verdict.map(({ requirement }) => requirement),
  );
  expect(seen.value.verdict.filter(({ got }) => got === null).map(({ requirement }) => requirement)).toEqual(
    expect.arrayContaining(["brief.noise.atMost", "brief.vibration.atMost"]),
  );
});

test("a project that predict refuses is refused to the hand with the same problems", () => {
  const thin = loadProject(demoText.replace('"at": "2.6 mm"', '"at": "2.9 mm"'));
  if (!thin.ok) throw new Error("not loaded");
  const [whole, seen] = [predict(thin.value), watch(thin.value)];
  expect(!seen.ok && seen.problems).toEqual(!whole.ok && whole.problems);
  expect(seen.ok).toBe(false);
});
