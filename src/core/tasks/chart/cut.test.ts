import { expect, test } from "vitest";
import { drain } from "../../numerics/progress.ts";
import { readBrief } from "../../project/brief.ts";
import { demoText } from "../../project/demo.ts";
import { describe } from "../../project/describe.ts";
import { changeValue, loadProject } from "../../project/load.ts";
import { judge } from "../predict/judge.ts";
import { cut, rangeAround } from "./cut.ts";

const loaded = loadProject(demoText);
if (!loaded.ok) throw new Error("the demo does not load");
const demo = loaded.value;
const gap = "microphone.film.gap";

test("a point of a cut is the microphone with that value, and the curve begins coarse", () => {
  const steps = [...cut(demo, { path: gap, from: 20e-6, to: 80e-6, scale: "log", count: 5 })];
  expect(steps.flatMap(({ soFar }) => (soFar === undefined ? [] : [soFar.values.length]))[0]).toBe(2);
  const found = drain(cut(demo, { path: gap, from: 20e-6, to: 80e-6, scale: "log", count: 5 }));
  if (!found.ok) throw new Error(found.problems[0]?.message);
  expect(found.value.values[2]).toBeCloseTo(40e-6, 12);
  expect(found.value.here).toBe(38e-6);
  const changed = changeValue(demo, gap, "40 um");
  const described = changed.ok ? describe(changed.value) : changed;
  const judged = described.ok ? judge(described.value, readBrief(demo)) : described;
  if (!judged.ok) throw new Error(judged.problems[0]?.message);
  expect(found.value.measures.damping[2]! / judged.value.measures.damping!).toBeCloseTo(1, 9);
});

test("an overdamped microphone has no resonance to draw, and all that ring have one", () => {
  const found = drain(cut(demo, { path: gap, from: 15e-6, to: 60e-6, scale: "log", count: 4 }));
  const { damping = [], resonance = [] } = found.ok ? found.value.measures : {};
  expect(resonance.map((value) => value === null)).toEqual(damping.map((value) => value === null));
  expect([resonance[0], resonance[3] !== null]).toEqual([null, true]);
});

test("a thinner film damps more all the way, and a guide beyond the edge is no point", () => {
  const film = drain(cut(demo, { path: gap, from: 38e-6, to: 120e-6, scale: "log", count: 5 }));
  const damping = film.ok ? film.value.measures.damping : [];
  expect(damping.every((value, i) => i === 0 || value! < damping[i - 1]!)).toBe(true);
  const guide = drain(cut(demo, { path: "microphone.guide.at", from: 0, to: 4e-3, scale: "linear", count: 3 }));
  const sensitivity = guide.ok ? guide.value.measures.sensitivity : [];
  expect(sensitivity[0]).toBeGreaterThan(0);
  expect(sensitivity[2]).toBeNull();
});

test("ends are proposed: edge to edge for a guide, a factor of five for a gap; a value of zero needs its own", () => {
  expect(rangeAround(demo, "microphone.guide.at")).toMatchObject({ value: { scale: "linear", to: 0.49 * 5.5e-3 } });
  expect(rangeAround(demo, gap)).toMatchObject({ value: { scale: "log", from: 38e-6 / 5, to: 38e-6 * 5 } });
  expect(rangeAround(demo, "air.temperature")).toMatchObject({ value: { scale: "linear" } });
  expect(rangeAround(demo, "microphone.load.difference")).toMatchObject({ problems: [{ code: "no-value" }] });
});

test("a range that is none and a count that is none are said in one pass", () => {
  const found = drain(cut(demo, { path: gap, from: 0, to: 80e-6, scale: "log", count: 1 }));
  expect(found.ok ? [] : found.problems.map(({ code }) => code)).toEqual(["bad-range", "bad-count"]);
});
