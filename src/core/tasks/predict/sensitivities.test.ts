import { expect, test } from "vitest";
import { loadProject, type Project } from "../../project/load.ts";
import { predict } from "./predict.ts";
import { type Sensitivities, sensitivities, withSensitivities } from "./sensitivities.ts";

const small = `{ "format": "glassdrum-project", "version": 1, "microphone": {
  "diaphragm": { "material": "thin-borosilicate", "across": "5 mm", "along": "5 mm", "thickness": "40 um", "edges": "clamped", "lossFactor": 0.01 },
  "guide": { "at": "0 mm", "face": "front", "depth": "3 um", "width": null }, "film": null } }`;

function project(text: string): Project {
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
  return loaded.value;
}

function ask(of: Project): ReturnType<ReturnType<typeof sensitivities>["next"]>["value"] {
  const work = sensitivities(of);
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value;
}

function found(of: Project): Sensitivities {
  const outcome = ask(of);
  if (!("ok" in outcome) || !outcome.ok) throw new Error("refused");
  return outcome.value;
}

test("what lies at zero, or moves nothing, is not named; the strongest stands first", () => {
  const { "resonance.frequency": of, "band.from": edge } = found(project(small));
  expect(of.map(({ path }) => path)).not.toContain("microphone.guide.at");
  expect(of.map(({ path }) => path)).not.toContain("microphone.guide.depth");
  expect(of.every(({ exponent }, i) => Math.abs(exponent) <= Math.abs(of[i - 1]?.exponent ?? exponent))).toBe(true);
  expect(found(project(small.replace("0.01", "0")))["resonance.dampingRatio"]).toEqual([]);
  // A plate without a film has no lower edge.
  expect(edge).toEqual([]);
});

test("cards name at most six values a number, and those without keep as they are", () => {
  const of = project(small);
  const predicted = predict(of);
  if (!predicted.ok) throw new Error("refused");
  const cards = withSensitivities(predicted.value.cards, found(of));
  const { resonance, bestGuide } = cards;
  expect(resonance?.mostSensitiveTo?.map(({ number }) => number)).toEqual([
    "resonance.frequency",
    "resonance.dampingRatio",
  ]);
  expect(resonance?.mostSensitiveTo?.[1]?.to.map(({ path }) => path)).toEqual(["microphone.diaphragm.lossFactor"]);
  expect(resonance?.mostSensitiveTo?.every(({ to }) => to.length <= 6)).toBe(true);
  expect(bestGuide).toBe(predicted.value.cards["bestGuide"]);
});

test("a buckled diaphragm is refused as predict refuses it", () => {
  const tension = '"tension": { "across": "-5 kN/m", "along": "-5 kN/m" }';
  const outcome = ask(project(small.replace('"edges"', `${tension}, "edges"`)));
  expect("ok" in outcome && !outcome.ok && outcome.problems.map(({ code }) => code)).toEqual(["buckled"]);
});
