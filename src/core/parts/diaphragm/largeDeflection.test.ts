import { describe, expect, test } from "vitest";
import { cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import { dense } from "../../numerics/kronecker.ts";
import { generalizedEigen } from "../../numerics/symmetricEigen.ts";
import type { Diaphragm } from "./diaphragm.ts";
import { largeDeflection } from "./largeDeflection.ts";
import { plate, stiffness } from "./plate.ts";
import { plateScales, plateShape } from "./shape.ts";
import { staticPlate } from "./statics.ts";

/** E = 1, h = 1, 1 by `along`. */
const unit = (over: Partial<Diaphragm> = {}): Diaphragm => ({
  across: 1,
  along: 1,
  thickness: 1,
  stiffness: { q11: 1 / 0.91, q12: 0.3 / 0.91, q22: 1 / 0.91, q66: 1 / 2.6 },
  density: 1,
  edges: { sides: "clamped", ends: "clamped" },
  tension: { across: 0, along: 0 },
  lossFactor: 0,
  ...over,
});

const orthotropic = { q11: 1, q12: 0.2, q22: 0.6, q66: 0.3 };
const turned = { q11: 0.6, q12: 0.2, q22: 1, q66: 0.3 };

describe("a plate that stretches while it bends", () => {
  test("a vanishing pressure gives the linear plate's deflection and curvature", () => {
    const linear = staticPlate(unit(), { functions: 24 });
    const state = largeDeflection(unit()).at(1e-6);
    expect(state.deflection(0.1, 0.2) / 1e-6 / linear.deflection(0.1, 0.2)).toBeCloseTo(1, 6);
    expect(state.line(0.5).xx / 1e-6 / linear.line(0.5).xx).toBeCloseTo(1, 9);
  });

  test("no pressure, no deflection", () => {
    const state = largeDeflection(unit()).at(0);
    expect(state.deflection(0, 0)).toBe(0);
    expect(state.line(0.2).stretchX).toBe(0);
    expect(state.converged).toBe(true);
  });

  test("pressure from the other side bends it the other way and stretches it alike", () => {
    const made = largeDeflection(unit());
    const [front, back] = [made.at(150), made.at(-150)];
    expect(back.deflection(0, 0)).toBeCloseTo(-front.deflection(0, 0), 12);
    expect(back.line(0.4).stretchX).toBeCloseTo(front.line(0.4).stretchX, 12);
  });

  for (const inPlane of ["immovable", "sliding"] as const)
    test(`a plate turned by 90 degrees is the same plate (${inPlane} edges)`, () => {
      const wide = largeDeflection(unit({ along: 1.5, stiffness: orthotropic }), { inPlane });
      const tall = largeDeflection(unit({ across: 1.5, stiffness: turned }), { inPlane });
      const [one, other] = [wide.at(40), tall.at(40)];
      expect(other.deflection(0, 0) / one.deflection(0, 0)).toBeCloseTo(1, 6);
      expect(other.strain(0.3, 0.2).y / one.strain(0.2, 0.3).x).toBeCloseTo(1, 3);
      expect(other.strain(0.3, 0.2).shear / one.strain(0.2, 0.3).shear).toBeCloseTo(1, 3);
      expect(tall.stiffening.cubic / wide.stiffening.cubic).toBeCloseTo(1, 6);
    });

  test("the answer depends on pressure as its slope says", () => {
    const made = largeDeflection(unit());
    const step = 0.05;
    const [before, after] = [made.at(100 - step).line(0.45), made.at(100 + step).line(0.45)];
    const slope = made.at(100).slope(0.45);
    for (const key of ["xx", "stretchX", "stretchY"] as const)
      expect((after[key] - before[key]) / (2 * step) / slope[key]).toBeCloseTo(1, 4);
  });

  test("the series in pressure is what small pressures show", () => {
    const made = largeDeflection(unit());
    const { linear, quadratic, cubic } = made.series(0.45);
    const [one, two] = [made.at(1).line(0.45), made.at(2).line(0.45)];
    expect(one.stretchX / quadratic.stretchX).toBeCloseTo(1, 3);
    expect(one.stretchY / quadratic.stretchY).toBeCloseTo(1, 3);
    // The linear term cancels in two - 2 one; p^5 is left.
    expect((two.xx - 2 * one.xx) / (6 * cubic.xx)).toBeCloseTo(1, 2);
    expect((one.xx - cubic.xx) / linear.xx).toBeCloseTo(1, 6);
  });

  test("more polynomials move the answer by less than 2e-6", () => {
    const coarse = largeDeflection(unit()).at(300);
    const fine = largeDeflection(unit(), { functions: 12 }).at(300);
    expect(coarse.deflection(0, 0) / fine.deflection(0, 0)).toBeCloseTo(1, 5.7);
    expect(coarse.line(0.5).xx / fine.line(0.5).xx).toBeCloseTo(1, 5);
  });

  test("a load beyond the prepared ones is solved on the whole equations", () => {
    const near = largeDeflection(unit(), { upTo: 5 }).at(300);
    const far = largeDeflection(unit(), { upTo: 400 }).at(300);
    expect(near.steps).toBeGreaterThan(0);
    expect(near.converged).toBe(true);
    expect(near.deflection(0, 0) / far.deflection(0, 0)).toBeCloseTo(1, 6);
  });

  test("stretching adds less to a plate that is under tension, where its deflection is less", () => {
    const tension = 50 / (12 * 0.91);
    const tight = largeDeflection(unit({ tension: { across: tension, along: tension } }));
    const loose = largeDeflection(unit());
    expect(tight.stiffening.linear / loose.stiffening.linear).toBeCloseTo(0.00126532 / 0.00064084, 3);
    expect(tight.at(100).deflection(0, 0)).toBeLessThan(loose.at(100).deflection(0, 0));
  });

  test("supported and elastic edges stretch too", () => {
    const edges = { sides: { rotation: 1 }, ends: "supported" } as const;
    const state = largeDeflection(unit({ edges })).at(50);
    expect(state.converged).toBe(true);
    const line = state.line(0.1);
    expect(line.stretchY).toBeGreaterThan(0);
    expect(Math.abs(line.yy)).toBeGreaterThan(0);
  });

  test("a buckled plate is our caller's mistake", () => {
    expect(() => largeDeflection(unit({ tension: { across: -10, along: -10 } }))).toThrow(/buckled/);
  });
});

describe("a small motion about a static load", () => {
  const made = largeDeflection(unit());
  const rest = made.at(120);
  const part = (across: "even" | "odd", along: "even" | "odd") =>
    plate(plateShape(unit()), { across, along, functions: 8 });
  const stiffened = (of: ReturnType<typeof part>) => {
    const { stiffness: extra } = rest.about(of);
    return dense(stiffness(of)).map((value, i) => value + extra[i]!);
  };

  test("solves to the slope of the static answer, stretch included", () => {
    const even = part("even", "even");
    const factor = cholesky(stiffened(even), even.size);
    expect(factor).not.toBeNull();
    const scale = plateScales(unit()).deflection;
    const unknowns = choleskySolve(factor!, even.load).map((value) => scale * value);
    const { x, y } = rest.about(even).stretch(0.9);
    const sum = (row: Float64Array) => row.reduce((total, value, i) => total + value * unknowns[i]!, 0);
    const slope = rest.slope(0.45);
    expect(sum(x) / slope.stretchX).toBeCloseTo(1, 6);
    expect(sum(y) / slope.stretchY).toBeCloseTo(1, 6);
  });

  test("its stiffness is symmetric in every class", () => {
    for (const [across, along] of [
      ["even", "even"],
      ["even", "odd"],
      ["odd", "even"],
      ["odd", "odd"],
    ] as const) {
      const of = part(across, along);
      const { stiffness: extra } = rest.about(of);
      let worst = 0;
      let largest = 0;
      for (let i = 0; i < of.size; i++) {
        for (let j = 0; j < i; j++) {
          worst = Math.max(worst, Math.abs(extra[i * of.size + j]! - extra[j * of.size + i]!));
          largest = Math.max(largest, Math.abs(extra[i * of.size + j]!));
        }
      }
      expect(worst / largest).toBeLessThan(1e-11);
    }
  });

  test("a square's motions odd across and odd along have the same frequencies, higher than without load", () => {
    const lowest = (across: "even" | "odd", along: "even" | "odd") => {
      const of = part(across, along);
      const factor = cholesky(stiffened(of), of.size);
      return Math.sqrt(generalizedEigen(factor!, dense(of.mass)).values[0]!);
    };
    expect(lowest("odd", "even") / lowest("even", "odd")).toBeCloseTo(1, 9);
    expect(4 * lowest("odd", "even")).toBeGreaterThan(73.4);
  });

  test("a motion that is odd along the guide stretches it nowhere on average", () => {
    const { x, y } = rest.about(part("even", "odd")).stretch(0.5);
    expect(Math.max(...x, ...y)).toBe(0);
  });

  test("a plate turned the other way feels the same stiffness", () => {
    const one = largeDeflection(unit({ along: 1.4, stiffness: orthotropic })).at(60);
    const other = largeDeflection(unit({ across: 1.4, stiffness: turned })).at(60);
    const omega = (diaphragm: Diaphragm, state: typeof one, across: "even" | "odd", along: "even" | "odd") => {
      const of = plate(plateShape(diaphragm), { across, along, functions: 8 });
      const { stiffness: extra } = state.about(of);
      const factor = cholesky(
        dense(stiffness(of)).map((value, i) => value + extra[i]!),
        of.size,
      );
      const value = generalizedEigen(factor!, dense(of.mass)).values[0]!;
      return Math.sqrt(value / plateScales(diaphragm).lambda);
    };
    const a = omega(unit({ along: 1.4, stiffness: orthotropic }), one, "odd", "even");
    const b = omega(unit({ across: 1.4, stiffness: turned }), other, "even", "odd");
    expect(b / a).toBeCloseTo(1, 6);
  });
});
