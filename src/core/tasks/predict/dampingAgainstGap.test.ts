import { describe, expect, test } from "vitest";
import { demoText } from "../../project/demo.ts";
import { loadProject } from "../../project/load.ts";
import { dampingAgainstGap } from "./dampingAgainstGap.ts";
import { mainResonance } from "./mainResonance.ts";

function curve(text: string, options: { from: number; to: number; count: number }) {
  const project = loadProject(text);
  if (!project.ok) throw new Error("The project is valid.");
  const steps = dampingAgainstGap(project.value, options);
  for (;;) {
    const step = steps.next();
    if (!step.done) continue;
    if (!step.value.ok) throw new Error("The curve is not refused.");
    return step.value.value;
  }
}

/** 5 mm square, 30 um of glass over an open film: the pair of poles meets between 27 and 28 um. */
const square = JSON.stringify({
  format: "glassdrum-project",
  version: 1,
  air: { density: "1.186 kg/m^3", viscosity: "1.83e-5 Pa s", heatRatio: 1.4, prandtl: 0.71, meanFreePath: "0 nm" },
  materials: {
    glass: {
      youngsModulus: "72.9 GPa",
      poissonRatio: 0.21,
      density: "2510 kg/m^3",
      index: 1.46,
      p11: 0.121,
      p12: 0.27,
    },
  },
  microphone: {
    diaphragm: { material: "glass", across: "5 mm", along: "5 mm", thickness: "30 um", lossFactor: 0 },
    guide: { at: "2.4 mm", face: "front", depth: "3 um", width: null },
    film: { gap: "30 um" },
  },
});

describe("damping against the gap", () => {
  test("grows without end as an open film gets thinner, and passes 1 where the poles meet without a jump", () => {
    const { gap, dampingRatio } = curve(square, { from: 6e-6, to: 60e-6, count: 17 });
    const values = dampingRatio.map((value) => value ?? Number.NaN);
    for (let i = 1; i < values.length; i++) {
      // With the gap g as steep as g^-2 .. g^-3.5: film and plate share the mass.
      const slope = Math.log(values[i - 1]! / values[i]!) / Math.log(gap[i]! / gap[i - 1]!);
      expect(slope).toBeGreaterThan(1.8);
      expect(slope).toBeLessThan(3.6);
    }
    const below = gap.filter((_, i) => values[i]! > 1).at(-1)!;
    const above = gap.find((_, i) => values[i]! < 1)!;
    expect(below).toBeLessThan(28e-6);
    expect(above).toBeGreaterThan(27e-6);
  });

  test("has a number at every gap of the demo, holes, cavities and vent around it included", () => {
    const { dampingRatio } = curve(demoText, { from: 5e-6, to: 200e-6, count: 6 });
    for (let i = 1; i < dampingRatio.length; i++) expect(dampingRatio[i - 1]!).toBeGreaterThan(dampingRatio[i]!);
  });
});

test("a microphone without a film has no such curve, and is told to add one", () => {
  const project = loadProject(square.replace('{"gap":"30 um"}', "null"));
  expect(project.ok && dampingAgainstGap(project.value, { from: 6e-6, to: 60e-6, count: 3 }).next()).toMatchObject({
    done: true,
    value: {
      problems: [
        {
          code: "no-film",
          path: ["microphone", "film"],
          message: expect.stringMatching(/has no air film; .* needs one\. Add microphone\.film/),
        },
      ],
    },
  });
});

test("closed edges: one resonance is followed wherever the guide lies; its damping has a maximum and falls again", () => {
  const closed = (at: string) =>
    square
      .replace('"thickness":"30 um"', '"thickness":"60 um"')
      .replace('"at":"2.4 mm"', `"at":"${at}"`)
      .replace('"film":{', '"film":{"edges":"closed",');
  const [edge, center] = ["2.4 mm", "0 mm"].map((at) => curve(closed(at), { from: 12e-6, to: 29e-6, count: 6 }));
  // Spectral and finite-element solutions elsewhere: 0.2134 at 18.65 um, 33.05 kHz; in the middle a creeping motion is louder.
  const most = Math.max(...center!.dampingRatio.map((value) => value ?? Number.NaN));
  expect(most).toBeLessThan(0.2134 * 1.001);
  expect(most).toBeGreaterThan(0.2);
  expect(center!.dampingRatio[0]).toBeLessThan(0.12);
  edge!.dampingRatio.forEach((value, i) => {
    expect(center!.dampingRatio[i]! / value!).toBeCloseTo(1, 4);
  });
});

describe("the resonance among the poles", () => {
  const ringing = { frequency: 6000, dampingRatio: 0.5, share: 0.7 };

  test("is what rings, where a vent's slow pole carries as much", () => {
    const vent = { rate: 6, share: 0.6, partner: 2e8 };
    expect(mainResonance([ringing], [vent])).toEqual({ frequency: 6000, dampingRatio: 0.5, overdamped: false });
  });

  test("is the slow pole with its partner, where what rings is a higher mode", () => {
    const slow = { rate: 1e4, share: 0.9, partner: 4e4 };
    const { frequency, dampingRatio, overdamped } = mainResonance([{ ...ringing, frequency: 20e3 }], [slow]);
    expect(overdamped).toBe(true);
    expect(frequency).toBeCloseTo(2e4 / (2 * Math.PI), 6);
    expect(dampingRatio).toBeCloseTo(1.25, 9);
  });

  test("has no number where only a pole without mass is left", () => {
    const none = { frequency: null, dampingRatio: null };
    expect(mainResonance([], [{ rate: 1e4, share: 1, partner: null }])).toEqual({ ...none, overdamped: true });
    expect(mainResonance([], [])).toEqual({ ...none, overdamped: false });
  });
});
