import { describe, expect, test } from "vitest";
import type { CrossSection } from "./crossSection.ts";
import { bestCoupling, gaussianOverlap, pictureOf, shapeOf } from "./modeShape.ts";
import { type FieldKind, type ModeQuestion, solveModes } from "./solveModes.ts";

const um = 1e-6;
const both = (index: number) => ({ TE: index, TM: index });

/** A square core deep in its cladding, V = 3: k t sqrt(n1^2 - n2^2). */
const [high, low] = [1.46, 1.45];
const t = (3 * um) / (2 * Math.PI * Math.sqrt(high ** 2 - low ** 2));
const square: CrossSection = {
  index: (x, z) => (x < t / 2 && z > 4 * t && z < 5 * t ? high : low),
  across: [t / 2],
  depth: [2 * t, 4 * t, 4.5 * t, 5 * t],
  cover: low,
  cutoff: both(low),
  highest: both(high),
  slab: false,
};
const question: ModeQuestion = {
  wavelength: um,
  polarization: "TE",
  field: "semivectorial",
  odd: false,
  count: 1,
  degree: 4,
};
const index = (change: Partial<ModeQuestion>) => solveModes(square, { ...question, ...change })[0]?.index ?? 0;

describe("modes of a channel", () => {
  test("the index converges with the degree, in the scalar equation by a power above two", () => {
    const errors = [2, 4].map((degree) => {
      const square2 = index({ field: "scalar", degree }) ** 2;
      return Math.abs((square2 - low ** 2) / (high ** 2 - low ** 2) - 0.29933642);
    });
    expect(Math.log2(errors[0]! / errors[1]!)).toBeGreaterThan(2);
  });

  test("a square core has one index for both polarizations, and the other component hardly moves it", () => {
    expect(index({ polarization: "TM" })).toBeCloseTo(index({}), 6);
    const [alone, together] = (["semivectorial", "vectorial"] as FieldKind[]).map((field) =>
      index({ field, degree: 4 }),
    );
    expect(Math.abs(together! - alone!)).toBeLessThan(1e-7);
    expect(together).not.toBe(alone);
  });

  test("a wide core holds a mode odd across, a narrow one none", () => {
    expect(solveModes(square, { ...question, odd: true, wavelength: 0.5 * um })).toHaveLength(1);
    expect(solveModes(square, { ...question, odd: true })).toHaveLength(0);
  });

  test("without a higher index nothing is guided", () => {
    expect(solveModes({ ...square, highest: both(low) }, question)).toEqual([]);
  });

  test("the light of a square core lies in its middle, in weak guidance as wide as it is high", () => {
    const [mode] = solveModes(square, { ...question, field: "scalar" });
    const shape = shapeOf(mode!);
    expect(shape.depth / (4.5 * t)).toBeCloseTo(1, 4);
    expect(shape.height / shape.width).toBeCloseTo(1, 3);
    expect(shape.inCover).toBeLessThan(0.05);
    const picture = pictureOf(mode!, { reach: t, above: 0, below: 9 * t, columns: 3, rows: 3 });
    expect(picture.intensity[4]).toBeCloseTo(1, 6);
    expect(picture.intensity[3]).toBeCloseTo(picture.intensity[5]!, 12);
  });

  test("a fiber's mode of the same size couples nearly all of its power, at the mode's depth", () => {
    const [mode] = solveModes(square, question);
    const best = bestCoupling(mode!, 1.7 * t);
    expect(best.power).toBeGreaterThan(0.95);
    expect(best.power).toBeLessThan(1);
    expect(best.depth / (4.5 * t)).toBeCloseTo(1, 3);
  });

  test("two Gaussians a micrometer apart lose 0.16061 dB", () => {
    expect(-10 * Math.log10(gaussianOverlap(5.2, 5.2, 1))).toBeCloseTo(0.16061, 5);
  });
});
