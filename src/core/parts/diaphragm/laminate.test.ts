import { describe, expect, test } from "vitest";
import { type Layer, laminate, layeredSheet } from "./laminate.ts";

const glass: Layer = {
  thickness: 30e-6,
  stiffness: { q11: 76e9, q12: 16e9, q22: 76e9, q66: 30e9 },
  density: 2510,
  stress: { across: 0, along: 0 },
};

const made = (layers: readonly Layer[]) => {
  const outcome = laminate(layers);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};

const codes = (layers: readonly Layer[]) => {
  const outcome = laminate(layers);
  return outcome.ok ? [] : outcome.problems.map((problem) => `${problem.code} ${problem.path.join(".")}`);
};

describe("a layered plate", () => {
  test("of one layer is that layer", () => {
    const plate = made([glass]);
    const sheet = layeredSheet([glass], plate);
    expect(sheet.thickness).toBe(30e-6);
    expect(sheet.stiffness.q11 / 76e9).toBeCloseTo(1, 12);
    expect(sheet.stiffness.q12 / 16e9).toBeCloseTo(1, 12);
    expect(sheet.density).toBeCloseTo(2510, 9);
    expect(Math.abs(plate.neutral.across)).toBeLessThan(1e-18);
    expect(sheet.stack.membrane.a66).toBeCloseTo(30e9 * 30e-6, 6);
    expect(sheet.stack.layers).toEqual([{ from: -15e-6, to: 15e-6, stiffness: glass.stiffness }]);
  });

  test("turned over has the same stiffness and its neutral plane on the other side", () => {
    const hard: Layer = {
      ...glass,
      thickness: 5e-6,
      stiffness: { q11: 300e9, q12: 40e9, q22: 250e9, q66: 90e9 },
      stress: { across: 1e8, along: 5e7 },
    };
    const [one, other] = [made([hard, glass]), made([glass, hard])];
    for (const key of ["s11", "s12", "s22", "s66"] as const)
      expect(other.bending[key] / one.bending[key]).toBeCloseTo(1, 12);
    expect(other.neutral.across).toBeCloseTo(-one.neutral.across, 16);
    expect(one.neutral.across).toBeLessThan(0);
    expect(other.moment.across).toBeCloseTo(-one.moment.across, 14);
    expect(other.force.along).toBeCloseTo(5e7 * 5e-6, 9);
  });

  test("a uniform stress has a force and no moment about the neutral plane of layers of one Poisson's ratio", () => {
    const share = (factor: number): Layer => ({
      thickness: 10e-6 * factor,
      stiffness: { q11: 76e9 * factor, q12: 16e9 * factor, q22: 76e9 * factor, q66: 30e9 * factor },
      density: 2510,
      stress: { across: 1e6 * factor, along: 1e6 * factor },
    });
    const plate = made([share(1), share(2), share(4)]);
    expect(Math.abs(plate.moment.across)).toBeLessThan(1e-12 * plate.force.across);
  });

  test("says all that is wrong at once", () => {
    expect(codes([])).toEqual(["no-layers layers"]);
    expect(
      codes([
        { ...glass, thickness: 0 },
        { ...glass, density: Number.NaN, stiffness: { q11: 10e9, q12: 40e9, q22: 10e9, q66: 30e9 } },
      ]),
    ).toEqual([
      "layer-thickness layers.0.thickness",
      "layer-density layers.1.density",
      "stiffness-not-positive layers.1.stiffness",
    ]);
  });
});
