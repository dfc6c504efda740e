import { describe, expect, test } from "vitest";
import { cubicWeights, glassWeights } from "./cubic.ts";
import type { Guide } from "./guide.ts";
import { bendingPhase, guideHeight } from "./photoelastic.ts";
import { armPhase, stretchedPhase } from "./stretch.ts";

const optics = { index: 1.5, p11: 0.121, p12: 0.27, poissonRatio: 0.21, youngsModulus: 72.9e9 };
const guide: Guide = {
  at: 0,
  face: "front",
  depth: 3e-6,
  width: null,
  length: 20e-3,
  weight: 1,
  birefringence: 1e-3,
  optics,
};
const line = { xx: 0.3, yy: -0.1, stretchX: 2e-8, stretchY: 5e-8 };
const z = guideHeight(guide, { thickness: 30e-6 });
const given = { optics, wavelength: 633e-9, height: z, length: 5e-3, line };

describe("phase of bending and stretch", () => {
  test("without stretch is the phase of bending", () => {
    const bent = bendingPhase({ guide, wavelength: 633e-9, diaphragm: { thickness: 30e-6, along: 5e-3 } });
    const phase = stretchedPhase({ ...given, birefringence: 1e-3, line: { ...line, stretchX: 0, stretchY: 0 } });
    expect(phase / (bent.xx * line.xx + bent.yy * line.yy)).toBeCloseTo(1, 12);
  });

  test("is the formula of glass with both strains", () => {
    const factor = (Math.PI * 1.5 ** 3 * (0.121 - 0.27) * 5e-3) / (633e-9 * 0.79);
    const expected = factor * (-z.across * (0.3 - 0.21 * 0.1) + 2e-8 + 0.21 * 5e-8);
    expect(stretchedPhase({ ...given, birefringence: 0 }) / expected).toBeCloseTo(1, 12);
  });

  test("is the difference of two arms whose indices differ by the birefringence", () => {
    const [te, tm] = [
      armPhase({ ...given, mode: "TE", modeIndex: 1.51 }),
      armPhase({ ...given, mode: "TM", modeIndex: 1.511 }),
    ];
    expect((tm - te) / stretchedPhase({ ...given, birefringence: 0.001 })).toBeCloseTo(1, 9);
  });

  test("in an arm the elongation counts with the whole index", () => {
    const still = { xx: 0, yy: 0, stretchX: 0, stretchY: 1e-8 };
    const long = armPhase({ ...given, line: still, mode: "TE", modeIndex: 1.5 });
    const none = armPhase({ ...given, line: still, mode: "TE", modeIndex: 0 });
    expect((long - none) / (((2 * Math.PI) / 633e-9) * 5e-3 * 1.5e-8)).toBeCloseTo(1, 9);
  });

  test("takes a crystal's weights, and different heights across and along", () => {
    const crystal = cubicWeights({ p11: -0.09, p12: 0.02, p44: -0.05, c11: 166, c12: 64 });
    const height = { across: -10e-6, along: -8e-6 };
    const phase = stretchedPhase({ ...given, optics: { ...optics, weights: crystal }, height, birefringence: 0 });
    const [x, y] = [2e-8 + 10e-6 * 0.3, 5e-8 - 8e-6 * 0.1];
    expect(phase / (((Math.PI * 1.5 ** 3) / 633e-9) * 5e-3 * (crystal.x * x + crystal.y * y))).toBeCloseTo(1, 12);
    expect(glassWeights(optics).y / glassWeights(optics).x).toBeCloseTo(0.21, 12);
  });

  test("a guide's height counts from the neutral plane of the stack", () => {
    const stack = {
      membrane: { a11: 1, a12: 0.2, a22: 1, a66: 0.4 },
      neutral: { across: 2e-6, along: 1e-6 },
      layers: [],
    };
    const front = guideHeight({ face: "front", depth: 3e-6 }, { thickness: 30e-6, stack });
    expect(front.across).toBeCloseTo(-14e-6, 15);
    expect(front.along).toBeCloseTo(-13e-6, 15);
    expect(guideHeight({ face: "back", depth: 3e-6 }, { thickness: 30e-6, stack }).across).toBeCloseTo(10e-6, 15);
  });
});
