/** Answers in a span of shapes, against the whole basis made for each shape alone. */
import { expect, test } from "vitest";
import { createEngine } from "../../microphone/engine.ts";
import type { Outcome } from "../../problem.ts";
import { readBrief } from "../../project/brief.ts";
import { changeValue, loadProject, type Project } from "../../project/load.ts";
import { vary } from "../../project/paths.ts";
import { watch } from "./predict.ts";
import type { Watched } from "./prediction.ts";
import { passageAlong, type ValuePassage, watchAlong } from "./watchPassing.ts";

const across = "microphone.diaphragm.across";
const text = `{ "format": "glassdrum-project", "version": 1, "brief": { "band": { "from": "50 Hz", "to": "7 kHz" } },
  "microphone": { "diaphragm": { "material": "borosilicate-3.3", "across": "5 mm", "along": "5 mm", "thickness": "30 um" },
  "guide": { "at": "2.2 mm", "depth": "3 um" }, "film": { "gap": "50 um" } } }`;

function good<Value>(found: Outcome<Value>): Value {
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join(" "));
  return found.value;
}

function spanned(project: Project, path: string): ValuePassage | null {
  const steps = passageAlong(project, path);
  for (;;) {
    const step = steps.next();
    if (step.done) return good(step.value);
  }
}

const project = good(loadProject(text));
const along = spanned(project, across);
const hand = {
  variation: good(vary(project, [across])),
  brief: readBrief(project),
  engine: createEngine(),
};

/** The largest difference, over the largest value. */
function off(found: readonly number[], expected: readonly number[]): number {
  const most = expected.reduce((size, value) => Math.max(size, Math.abs(value)), 0);
  return expected.reduce((worst, value, i) => Math.max(worst, Math.abs((found[i] ?? Number.NaN) - value)), 0) / most;
}

function exactAt(value: number): Watched {
  const moved = good(changeValue(project, across, `${1e3 * value} mm`));
  return good(watch(moved, { manner: "exact" }));
}

test("a shape that a hand passes through is answered as its own whole basis answers", () => {
  // The guide, 2.2 mm from the middle, must stay on the diaphragm.
  expect(along?.low).toBeGreaterThan(4.4e-3);
  expect(along?.high).toBeCloseTo(7.25e-3, 6);
  for (const value of [4.7e-3, 5.6e-3]) {
    const [seen, exact] = [good(watchAlong(hand, value, along)), exactAt(value)];
    expect(seen.resolution.route).toBe("reduced");
    expect(seen.resolution.change).toBeLessThan(1e-4);
    expect(off(seen.response.frequency, exact.response.frequency)).toBeLessThan(1e-6);
    expect(off(seen.response.re, exact.response.re)).toBeLessThan(1e-5);
    expect(off(seen.response.im, exact.response.im)).toBeLessThan(1e-5);
    expect(off(seen.sensitivity.scan.value, exact.sensitivity.scan.value)).toBeLessThan(1e-6);
    expect(seen.deflection.center / exact.deflection.center).toBeCloseTo(1, 7);
    expect((seen.resonance.frequency ?? 0) / (exact.resonance.frequency ?? 0)).toBeCloseTo(1, 6);
    expect((seen.resonance.dampingRatio ?? 0) / (exact.resonance.dampingRatio ?? 0)).toBeCloseTo(1, 6);
    // At 5.6 mm the exact answer lists its fourth pole, beyond the four first resonances that a hand is shown; here it is lumped.
    const lumped = value > 5e-3 ? 0.02 : 1e-4;
    expect(off(seen.time?.ringDown.value ?? [], exact.time?.ringDown.value ?? [])).toBeLessThan(lumped);
    expect(off(seen.time?.step.value ?? [], exact.time?.step.value ?? [])).toBeLessThan(lumped);
    expect(seen.verdict.map(({ met }) => met)).toEqual(exact.verdict.map(({ met }) => met));
  }
});

test("beyond the span the whole basis answers, and a place without a microphone says why", () => {
  const [seen, exact] = [good(watchAlong(hand, 8e-3, along)), exactAt(8e-3)];
  expect(seen.resolution.route).toBe(
    good(watch(good(changeValue(project, across, "8 mm")), { manner: "quick" })).resolution.route,
  );
  expect(seen.sensitivity.static / exact.sensitivity.static).toBeCloseTo(1, 9);
  const refused = watchAlong(hand, 4e-3, along);
  expect(!refused.ok && refused.problems.map(({ path }) => path.join("."))).toEqual(["microphone.guide.at"]);
});

test("a value that changes no shape, or a plate that a load stretches, is not spanned", () => {
  expect(spanned(project, "microphone.film.gap")).toBeNull();
  const loaded = good(changeValue(project, "microphone.load", '{ "difference": "200 Pa" }'));
  expect(spanned(loaded, across)).toBeNull();
});
