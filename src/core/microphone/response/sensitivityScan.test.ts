import { expect, test } from "vitest";
import { loadProject, predict } from "../../index.ts";

const plate = (edges: string) => ({
  format: "glassdrum-project",
  version: 1,
  microphone: { diaphragm: { edges }, guide: { at: "1 mm", depth: "0 um", width: null } },
});

function scanOf(edges: string) {
  const loaded = loadProject(JSON.stringify(plate(edges)));
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const predicted = predict(loaded.value);
  if (!predicted.ok) throw new Error(JSON.stringify(predicted.problems));
  return predicted.value.sensitivity;
}

test("on supported edges the best guide runs through the very middle, on clamped ones along the edge", () => {
  expect(scanOf("supported").best.at).toBe(0);
  const clamped = scanOf("clamped");
  expect(clamped.best.at).toBeCloseTo(Math.max(...clamped.scan.at), 8);
});
