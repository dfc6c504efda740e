import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { airAt, humidAir, speedOfSound } from "./humidAir.ts";

const room = { temperature: 296.15, pressure: 101325, humidity: 0.5 };
const codes = (outcome: ReturnType<typeof airAt>) =>
  (outcome.ok ? outcome.remarks : outcome.problems).map((problem) => `${problem.code} ${problem.path.join(".")}`);

describe("air from temperature, pressure and humidity", () => {
  test("inside the range of its formulas it comes without remarks, ends included", () => {
    expect(codes(airAt(room))).toEqual([]);
    expect(codes(airAt({ temperature: 27 + 273.15, pressure: 60e3, humidity: 0.1 }))).toEqual([]);
    expect(codes(airAt({ temperature: 15 + 273.15, pressure: 110e3, humidity: 0.9 }))).toEqual([]);
  });

  test("outside the range it is computed, with one remark for each value outside", () => {
    const outcome = airAt({ temperature: 253.15, pressure: 50e3, humidity: 0.95 });
    expect(outcome.ok).toBe(true);
    expect(codes(outcome)).toEqual([
      "air-outside-range temperature",
      "air-outside-range pressure",
      "air-outside-range humidity",
    ]);
    expect(outcome.ok && outcome.remarks[0]?.message).toContain("15 to 27 degC");
    expect(outcome.ok && outcome.remarks[0]?.message).toContain("-20 degC");
  });

  test("every impossible value is named in one pass", () => {
    expect(codes(airAt({ temperature: 0, pressure: -1, humidity: 1.2 }))).toEqual([
      "not-positive temperature",
      "not-positive pressure",
      "humidity-out-of-range humidity",
    ]);
    const nothing = airAt({ temperature: Number.NaN, pressure: Number.POSITIVE_INFINITY, humidity: Number.NaN });
    expect(codes(nothing)).toHaveLength(3);
    expect(JSON.stringify(nothing)).not.toMatch(/NaN|Infinity/);
  });

  test("where the formulas give no air it says so instead of a number", () => {
    expect(codes(airAt({ temperature: 400, pressure: 101325, humidity: 1 }))).toEqual(["air-not-computable "]);
    expect(codes(airAt({ temperature: 296, pressure: 1e9, humidity: 0.5 }))).toEqual(["air-not-computable "]);
  });

  test("whatever comes in, what comes out is positive and finite or a problem", () => {
    const state = fc.record({ temperature: fc.double(), pressure: fc.double(), humidity: fc.double() });
    fc.assert(
      fc.property(state, (given) => {
        const outcome = airAt(given);
        if (!outcome.ok) return outcome.problems.length > 0;
        const { density, viscosity, heatRatio, prandtl, meanFreePath } = outcome.value;
        return [density, viscosity, heatRatio - 1, prandtl, meanFreePath].every((v) => v > 0 && Number.isFinite(v));
      }),
      { seed: 20261125, numRuns: 2000 },
    );
  });

  test("sound goes as the gas law says: c^2 = gamma P / rho within the real-gas share", () => {
    // A real gas at 1 bar departs from the ideal law by less than 0.1 %.
    fc.assert(
      fc.property(
        fc.double({ min: 288.15, max: 300.15, noNaN: true }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (temperature, humidity) => {
          const state = { temperature, pressure: 101325, humidity };
          const air = humidAir(state);
          const ideal = Math.sqrt((air.heatRatio * state.pressure) / air.density);
          expect(Math.abs(speedOfSound(state) / ideal - 1)).toBeLessThan(1e-3);
        },
      ),
      { seed: 7, numRuns: 200 },
    );
  });

  test("moist air is lighter and carries sound faster than dry air", () => {
    const dry = humidAir({ ...room, humidity: 0 });
    const moist = humidAir({ ...room, humidity: 0.9 });
    expect(moist.density).toBeLessThan(dry.density);
    expect(moist.speedOfSound).toBeGreaterThan(dry.speedOfSound);
  });
});
