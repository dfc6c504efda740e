import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Air } from "../../material/air.ts";
import { absolute, add, complex, divide, multiply, subtract } from "../../numerics/complex.ts";
import { cavityAdmittance } from "./cavity.ts";
import { cylinderEnd } from "./cylinderEnd.ts";
import { bodyDiffraction, spherePressure, sphereRandom } from "./diffraction.ts";
import { helmholtzFrequency } from "./helmholtz.ts";
import { perforatedWallAdmittance } from "./perforation.ts";
import { pistonFunctions, pistonInertance, radiationImpedance, soundSpeed } from "./radiation.ts";
import { holeImpedance, holesAdmittance, slitImpedance, ventImpedance } from "./tube.ts";

const air: Air = {
  pressure: 101325,
  temperature: 296.15,
  humidity: 0.5,
  density: 1.186,
  viscosity: 1.83e-5,
  heatRatio: 1.4,
  prandtl: 0.71,
  meanFreePath: 0,
};
const real = (frequency: number) => complex(2 * Math.PI * frequency);
const positive = (from: number, to: number) =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map(Math.exp);
const sizes = fc.record({
  frequency: positive(1e-3, 1e5),
  wide: positive(1e-6, 1e-2),
  long: positive(1e-6, 1e-2),
});
const seed = { seed: 5, numRuns: 300 };

describe("passive parts", () => {
  test("take up power at every real frequency: no resistance or conductance is negative", () => {
    fc.assert(
      fc.property(sizes, ({ frequency, wide, long }) => {
        const omega = real(frequency);
        const parts = [
          holeImpedance({ diameter: wide, length: long, ends: "piston", air, omega }),
          slitImpedance({ height: wide, width: 10 * wide, length: long, air, omega }),
          cavityAdmittance({ volume: wide ** 3, surface: 6 * wide ** 2, air, omega }),
          radiationImpedance({ inertance: pistonInertance({ area: wide ** 2, air }), air, omega }),
          perforatedWallAdmittance({
            diameter: wide,
            pitch: 2 * wide,
            length: long,
            ends: "none",
            air,
            omega,
            psi: complex(1e-12),
          }),
        ];
        for (const part of parts) {
          expect(Number.isFinite(part.im)).toBe(true);
          expect(part.re).toBeGreaterThanOrEqual(0);
        }
      }),
      seed,
    );
  });

  test("are real on the axis of decay and mirror themselves across it", () => {
    fc.assert(
      fc.property(sizes, positive(1, 1e5), ({ frequency, wide, long }, rate) => {
        const hole = (re: number, im: number) =>
          holeImpedance({ diameter: wide, length: long, ends: "flanged", air, omega: complex(re, im) });
        expect(Math.abs(hole(0, rate).im)).toBeLessThanOrEqual(1e-9 * Math.abs(hole(0, rate).re));
        const right = hole(frequency, rate);
        const left = hole(-frequency, rate);
        expect(absolute(subtract(right, complex(left.re, -left.im)))).toBeLessThanOrEqual(1e-12 * absolute(right));
      }),
      seed,
    );
  });

  test("have no seam where the tube's series change over", () => {
    const diameter = 2e-3;
    const change = (625 * air.viscosity) / (air.density * (diameter / 2) ** 2);
    for (const angle of [0, 0.5, 1, 1.5]) {
      const z = (size: number) =>
        holeImpedance({
          diameter,
          length: 1e-3,
          ends: "none",
          air,
          omega: complex(size * change * Math.cos(angle), size * change * Math.sin(angle)),
        });
      expect(absolute(subtract(divide(z(1 + 1e-12), z(1 - 1e-12)), complex(1)))).toBeLessThan(1e-9);
    }
  });
});

describe("holes and vents", () => {
  test("two equal holes let through twice as much as one", () => {
    const hole = { diameter: 1e-3, length: 2e-4, at: [0, 0], ends: "piston" } as const;
    const one = holesAdmittance({ holes: [hole], air, omega: real(500) });
    const two = holesAdmittance({ holes: [hole, hole], air, omega: real(500) });
    expect(two.re / one.re).toBeCloseTo(2, 12);
    expect(two.im / one.im).toBeCloseTo(2, 12);
    expect(multiply(one, holeImpedance({ ...hole, air, omega: real(500) })).re).toBeCloseTo(1, 12);
  });

  test("no hole lets nothing through, and has no resonance", () => {
    expect(holesAdmittance({ holes: [], air, omega: real(500) })).toEqual({ re: 0, im: 0 });
    expect(helmholtzFrequency({ holes: [], cavity: { volume: 1e-9 }, air })).toBeNull();
  });

  test("a vent is the hole or the slit of its size", () => {
    const omega = real(20);
    expect(
      ventImpedance({ vent: { shape: "round", diameter: 1e-4, length: 3e-3, exposed: false }, air, omega }),
    ).toEqual(holeImpedance({ diameter: 1e-4, length: 3e-3, ends: "piston", air, omega }));
    const slit = { height: 2e-5, width: 1e-3, length: 3e-3 };
    expect(ventImpedance({ vent: { shape: "slit", ...slit, exposed: true }, air, omega })).toEqual(
      slitImpedance({ ...slit, air, omega }),
    );
  });

  test("the narrower the gap to the holes, the less a perforated wall lets through", () => {
    const wall = { diameter: 2e-4, pitch: 1e-3, length: 2e-4, ends: "none", air, omega: real(100) } as const;
    const wide = perforatedWallAdmittance({ ...wall, psi: null });
    const some = perforatedWallAdmittance({ ...wall, psi: complex(5e-5 ** 3 / (12 * air.viscosity)) });
    const thin = perforatedWallAdmittance({ ...wall, psi: complex(1e-5 ** 3 / (12 * air.viscosity)) });
    expect(absolute(wide)).toBeGreaterThan(absolute(some));
    expect(absolute(some)).toBeGreaterThan(10 * absolute(thin));
  });
});

describe("radiation", () => {
  test("the lumped load follows the piston up to ka 0.3: mass within 5 %, resistance within 13 %", () => {
    const area = Math.PI * 1e-6;
    for (const ka of [0.01, 0.1, 0.3]) {
      const { resistance, reactance } = pistonFunctions(2 * ka);
      const z = radiationImpedance({
        inertance: pistonInertance({ area, air }),
        air,
        omega: complex((ka * soundSpeed(air)) / 1e-3),
      });
      const unit = (air.density * soundSpeed(air)) / area;
      expect(Math.abs(z.im / (unit * reactance) - 1)).toBeLessThan(0.05);
      expect(Math.abs(z.re / (unit * resistance) - 1)).toBeLessThan(0.13);
    }
  });

  test("piston functions have no seam and reach 1 and 0 for a wide piston", () => {
    expect(pistonFunctions(0)).toEqual({ resistance: 0, reactance: 0 });
    expect(pistonFunctions(29.999999).resistance).toBeCloseTo(pistonFunctions(30).resistance, 7);
    expect(pistonFunctions(1e5).resistance).toBeCloseTo(1, 6);
    expect(pistonFunctions(1e5).reactance).toBeCloseTo(0, 4);
  });
});

describe("diffraction", () => {
  test("the mean square over all angles of the sphere is its random incidence", () => {
    for (const ka of [0.3, 2, 7]) {
      let sum = 0;
      const steps = 400;
      for (let i = 0; i < steps; i++) {
        const angle = Math.acos(1 - (2 * (i + 0.5)) / steps);
        sum += absolute(spherePressure({ ka, angle })) ** 2 / steps;
      }
      expect(Math.sqrt(sum)).toBeCloseTo(sphereRandom(ka), 4);
    }
  });

  test("a body that is small, or no wave at all, changes nothing", () => {
    for (const shape of ["sphere", "cylinder"] as const) {
      const { facing, random } = bodyDiffraction({
        body: { shape, diameter: 1e-2, length: null },
        frequency: 0,
        soundSpeed: 345,
      });
      expect(facing).toEqual({ re: 1, im: 0 });
      expect(random).toBe(1);
    }
  });

  test("the cylinder is marked as approximate and the sphere is not; the cylinder's rim overshoots the double pressure", () => {
    const ask = (shape: "sphere" | "cylinder") =>
      bodyDiffraction({
        body: { shape, diameter: 2e-2, length: null },
        frequency: 345 / ((2e-2 * Math.PI) / 3),
        soundSpeed: 345,
      });
    expect(ask("sphere").approximate).toBe(false);
    expect(ask("cylinder").approximate).toBe(true);
    expect(absolute(ask("cylinder").facing)).toBeGreaterThan(3);
    expect(absolute(ask("sphere").facing)).toBeLessThan(2);
  });

  test("the cylinder's table has no seam at its ends", () => {
    for (const ka of [0.25, 4, 10, 12]) {
      const low = cylinderEnd(ka - 1e-9);
      const high = cylinderEnd(ka + 1e-9);
      expect(absolute(add(low.facing, complex(-high.facing.re, -high.facing.im)))).toBeLessThan(1e-7);
      expect(low.random).toBeCloseTo(high.random, 7);
    }
  });
});
