import { expect, test } from "vitest";
import { drain } from "../../numerics/progress.ts";
import type { Outcome } from "../../problem.ts";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject } from "../../project/load.ts";
import { axisAround, chart, planChart } from "./chart.ts";
import { type ChartPoint, planeOf, rising } from "./plane.ts";

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

test("points in any order are the whole plane", () => {
  const options = { x, y, count: 5 };
  const { frame, pointAt } = good(planChart(bare, options));
  const points: (ChartPoint | null)[] = [];
  const places = frame.passes.flatMap((pass) => pass.points.flat()).reverse();
  for (const place of places) points[place] = pointAt(place, null);
  expect(places.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 25 }, (_, i) => i));
  expect(planeOf(frame, points)).toEqual(good(drain(chart(bare, options))));
});

test("axes that are none are named", () => {
  expect(codes(drain(chart(demo, { x: { ...x, from: 0 }, y, count: 3 })))).toEqual(["bad-range"]);
  expect(codes(drain(chart(demo, { x, y: x, count: 3 })))).toEqual(["same-path"]);
  expect(codes(drain(chart(demo, { x, y, count: 1 })))).toEqual(["bad-count"]);
  expect(codes(axisAround(bare, "microphone.film.gap"))).toEqual(["no-value"]);
});

test("what is left of a band's room changes sign where the band's end is the one asked for, and does not jump there", () => {
  const gap = { path: "microphone.film.gap", from: 36e-6, to: 46e-6 };
  const leftOf = (count: number) => {
    const plane = good(drain(chart(demo, { x: gap, y: { ...y, from: 29e-6, to: 31e-6 }, count })));
    const row = (name: string) => plane.reserves[name]!.slice(0, count).map((value) => value!);
    const sides = [row("brief.band.to"), row(`brief.band.to${rising}`)];
    return { sides, bandTo: plane.measures.bandTo.slice(0, count) };
  };
  const [rough, fine] = [leftOf(4), leftOf(7)];
  const met = fine.bandTo.map((to) => to! >= 7e3);
  expect(fine.sides[0]!.map((below, i) => Math.min(below, fine.sides[1]![i]!) >= 0)).toEqual(met);
  expect(new Set(met).size).toBe(2);
  // Continuous: with half the distance of the points the largest step is about half; a jump would stay.
  const largestStep = (row: readonly number[]) =>
    Math.max(...row.slice(1).map((value, i) => Math.abs(value - row[i]!)));
  for (const side of [0, 1])
    expect(largestStep(fine.sides[side]!) / largestStep(rough.sides[side]!)).toBeLessThan(0.75);
});
