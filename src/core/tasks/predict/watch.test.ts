import { expect, test } from "vitest";
import { createEngine } from "../../microphone/engine.ts";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject } from "../../project/load.ts";
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

test("under a hand a film that overdamps the diaphragm is heard to ring down as it does at rest", () => {
  const text = `{ "format": "glassdrum-project", "version": 1, "microphone": {
    "diaphragm": { "material": "borosilicate-3.3", "across": "5 mm", "along": "5 mm", "thickness": "30 um" },
    "guide": { "at": "2.2 mm", "depth": "3 um" }, "film": { "gap": "20 um" } } }`;
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error("not loaded");
  const [exact, seen] = [watch(loaded.value), watch(loaded.value, { manner: "quick", passing: true })];
  if (!exact.ok || !seen.ok) throw new Error("refused");
  expect(exact.value.resonance.overdamped).toBe(true);
  for (const kind of ["ringDown", "step"] as const) {
    const [ours, theirs] = [seen.value.time![kind].value, exact.value.time![kind].value];
    const most = Math.max(...theirs.map(Math.abs));
    // It was 0.14 and 0.04 where only poles up to four first resonances were followed.
    expect(Math.max(...theirs.map((value, i) => Math.abs(value - ours[i]!)))).toBeLessThan(0.01 * most);
  }
  expect(exact.value.time!.ringDown.value[0]).toBeCloseTo(1, 6);
});

test("where two poles of the demo have nearly met, a hand that drags the gap there sees and hears both as at rest", () => {
  const demo = loadProject(demoText);
  const moved = demo.ok ? changeValue(demo.value, "microphone.film.gap", "30 um") : null;
  if (!demo.ok || !moved?.ok) throw new Error("not loaded");
  const engine = createEngine();
  // From the gap of the demo itself, whose poles the hand's search begins with.
  watch(demo.value, { engine, manner: "quick", passing: true });
  const [exact, seen] = [watch(moved.value), watch(moved.value, { engine, manner: "quick", passing: true })];
  if (!exact.ok || !seen.ok) throw new Error("refused");
  // It was lost, and nothing was shown for time.
  const pair = ({ value }: typeof exact) => value.resonances.find(({ dampingRatio }) => dampingRatio > 0.99);
  expect(pair(seen)!.frequency / pair(exact)!.frequency).toBeCloseTo(1, 4);
  expect(pair(seen)!.share / pair(exact)!.share).toBeCloseTo(1, 3);
  const [ours, theirs] = [seen.value.time!.ringDown.value, exact.value.time!.ringDown.value];
  expect(Math.max(...theirs.map((value, i) => Math.abs(value - ours[i]!)))).toBeLessThan(0.01);
});
