import { expect, test } from "vitest";
import { drain } from "../../numerics/progress.ts";
import type { Outcome } from "../../problem.ts";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject } from "../../project/load.ts";
import { axisAround, chart, mergePlanes } from "./chart.ts";

const good = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const codes = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));
const demo = good(loadProject(demoText));
const bare = ["front", "back", "frame", "film"].reduce(
  (project, part) => good(changeValue(project, `microphone.${part}`, "null")),
  demo,
);
const x = { path: "microphone.diaphragm.across", from: 3e-3, to: 9e-3 };
const y = { path: "microphone.diaphragm.thickness", from: 60e-6, to: 120e-6 };

test("without film and frame the plane follows the power laws of a thin plate", () => {
  const plane = good(drain(chart(bare, { x, y, count: 3 })));
  expect(plane.tied).toEqual(["microphone.diaphragm.along", "microphone.guide.at"]);
  const resonance = plane.measures.resonance;
  // f ~ h / a^2: three times the side is a ninth, twice the thickness twice ([leissa-1973], scaling of the plate equation).
  expect(resonance[0]! / resonance[2]!).toBeCloseTo(9, 3);
  expect(resonance[6]! / resonance[0]!).toBeCloseTo(2, 3);
});

test("shares of several threads put together are the whole plane", () => {
  const whole = good(drain(chart(bare, { x, y, count: 4 })));
  const parts = [0, 1].map((index) => good(drain(chart(bare, { x, y, count: 4, part: { index, of: 2 } }))));
  const merged = mergePlanes([parts[0]!, parts[1]!]);
  expect(merged.measures).toEqual(whole.measures);
  expect(merged.state).toEqual(whole.state);
});

test("axes that are none are named", () => {
  expect(codes(drain(chart(demo, { x: { ...x, from: 0 }, y, count: 3 })))).toEqual(["bad-range"]);
  expect(codes(drain(chart(demo, { x, y: x, count: 3 })))).toEqual(["same-path"]);
  expect(codes(drain(chart(demo, { x, y, count: 1 })))).toEqual(["bad-count"]);
  expect(codes(axisAround(bare, "microphone.film.gap"))).toEqual(["no-value"]);
});

test("what is left of a band's room changes sign where the band's end is the one asked for, and does not jump there", () => {
  const gap = { path: "microphone.film.gap", from: 36e-6, to: 46e-6 };
  const plane = good(drain(chart(demo, { x: gap, y: { ...y, from: 29e-6, to: 31e-6 }, count: 5 })));
  const left = plane.reserves["brief.band.to"]!;
  const asked = 7e3;
  expect(left.map((value) => value! >= 0)).toEqual(plane.measures.bandTo.map((to) => to! >= asked));
  expect(new Set(left.map((value) => value! >= 0)).size).toBe(2);
  // Continuous: with half the distance of the points the largest step is about half; a jump would stay.
  const largestStep = (count: number) => {
    const { reserves } = good(drain(chart(demo, { x: gap, y: { ...y, from: 29e-6, to: 31e-6 }, count })));
    const row = reserves["brief.band.to"]!.slice(0, count);
    return Math.max(...row.slice(1).map((value, i) => Math.abs(value! - row[i]!)));
  };
  expect(largestStep(7) / largestStep(4)).toBeLessThan(0.75);
});
