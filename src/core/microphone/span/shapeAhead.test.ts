import { expect, test } from "vitest";
import { demoText } from "../../project/demo.ts";
import { describe } from "../../project/describe.ts";
import { loadProject, type Project } from "../../project/load.ts";
import { predict } from "../../tasks/predict/predict.ts";
import { createEngine } from "../engine.ts";
import { shapeAhead, takeShape } from "./shapeAhead.ts";

function project(text: string): Project {
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
  return loaded.value;
}

/** Plate and film alone: their bases are small. */
const bare = project(
  demoText.replace(/"front": \{[\s\S]*?"body": null,/, '"front": null, "back": null, "body": null,'),
);

test("a shape prepared in one engine answers in another by its reduced basis, and is not prepared under a hand", () => {
  const described = describe(bare);
  if (!described.ok) throw new Error("not described");
  const [beside, underHand] = [createEngine(), createEngine()];
  const quick = { engine: underHand, manner: "quick", passing: true } as const;
  const before = predict(bare, quick);
  predict(bare, quick);
  const [entry] = underHand.shapes.values();
  expect([entry?.response, entry?.poles, entry?.checked]).toEqual([null, null, null]);
  const work = shapeAhead(beside, described.value);
  let step = work.next();
  while (step.done !== true) step = work.next();
  takeShape(underHand, structuredClone(step.value));
  const after = predict(bare, quick);
  // Only an answer in the shape's own basis is held against the whole one at the upper end.
  expect([...underHand.shapes.values()].map(({ checked }) => checked !== null)).toEqual([true]);
  if (!before.ok || !after.ok) throw new Error("refused");
  expect(after.value.resonance.dampingRatio).toBeCloseTo(before.value.resonance.dampingRatio ?? Number.NaN, 4);
});
