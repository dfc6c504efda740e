import { expect, test } from "vitest";
import { bendingPhase } from "../../parts/guide/photoelastic.ts";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject, type Project } from "../../project/load.ts";
import { fieldIn, fieldRoom } from "./fields.ts";
import { predict } from "./predict.ts";

function demo(): Project {
  const loaded = loadProject(demoText);
  if (!loaded.ok) throw new Error("the demo is no project");
  return loaded.value;
}

function moved(project: Project, at: string): Project {
  const changed = changeValue(project, "microphone.guide.at", at);
  if (!changed.ok) throw new Error(changed.problems[0]?.message);
  return changed.value;
}

function room() {
  const made = fieldRoom(demo());
  if (!made.ok) throw new Error(made.problems[0]?.message);
  return made.value;
}

test("a field is even in both directions and still at clamped edges", () => {
  const found = fieldIn(room(), { of: { kind: "forced", frequency: 4000 }, points: 21 });
  if (!found.ok) throw new Error(found.problems[0]?.message);
  const { deflection, points } = found.value;
  const largest = Math.max(...deflection.re.map(Math.abs));
  for (let j = 0; j < points; j++)
    for (let i = 0; i < points; i++) {
      const here = deflection.im[j * points + i]!;
      expect(Math.abs(here - deflection.im[j * points + points - 1 - i]!)).toBeLessThan(1e-12 * largest);
      expect(Math.abs(here - deflection.im[(points - 1 - j) * points + i]!)).toBeLessThan(1e-12 * largest);
      if (i === 0 || j === 0) expect(Math.abs(here)).toBeLessThan(1e-12 * largest);
    }
  expect(found.value.highest).toBeLessThan(1e-3);
});

test("the curvature of the field along the guide is the phase of the light that predict gives", () => {
  const project = moved(demo(), "1.1 mm");
  const made = fieldRoom(project);
  const predicted = predict(project, { frequencies: [4000] });
  if (!made.ok || !predicted.ok) throw new Error("no answer");
  const points = 201;
  const found = fieldIn(made.value, { of: { kind: "forced", frequency: 4000 }, points });
  if (!found.ok) throw new Error(found.problems[0]?.message);
  const { diaphragm, guides, light } = made.value.system.microphone;
  const step = diaphragm.across / (points - 1);
  const column = Math.round((guides[0].at + diaphragm.across / 2) / step);
  // The mean along the guide, between clamped ends where deflection and slope vanish.
  const mean = (part: Float64Array, i: number) => {
    let sum = 0;
    for (let j = 0; j < points; j++) sum += part[j * points + i]!;
    return sum / (points - 1);
  };
  const { xx } = bendingPhase({
    guide: guides[0],
    wavelength: light.wavelength,
    diaphragm,
  });
  const phase = (part: Float64Array) =>
    (xx * (mean(part, column - 1) - 2 * mean(part, column) + mean(part, column + 1))) / step ** 2;
  const { response } = predicted.value;
  const size = Math.hypot(response.re[0]!, response.im[0]!);
  // 1e-3: the second difference over 27.5 um.
  expect(Math.abs(phase(found.value.deflection.re) - response.re[0]!) / size).toBeLessThan(1e-3);
  expect(Math.abs(phase(found.value.deflection.im) - response.im[0]!) / size).toBeLessThan(1e-3);
});

test.each([
  [{ of: { kind: "forced", frequency: 0 }, points: 21 } as const, "frequency-out-of-range"],
  [{ of: { kind: "forced", frequency: Number.NaN }, points: 21 } as const, "frequency-out-of-range"],
  [{ of: { kind: "mode", index: 12 }, points: 21 } as const, "no-mode"],
  [{ of: { kind: "mode", index: 0 }, points: 20 } as const, "points-out-of-range"],
])("%j is refused with %s", (question, code) => {
  const found = fieldIn(room(), question);
  expect(found.ok ? [] : found.problems.map((one) => one.code)).toEqual([code]);
});
