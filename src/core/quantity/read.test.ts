import { describe, expect, it } from "vitest";
import type { KindName } from "./kinds.ts";
import { readQuantity, unitOf } from "./read.ts";

const path = ["microphone", "film", "gap"];

function value(text: string, kind: KindName): number {
  const read = readQuantity(text, kind, path);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join(" "));
  return read.value;
}

function problem(text: string, kind: KindName) {
  const read = readQuantity(text, kind, path);
  return read.ok ? null : read.problems[0];
}

/** Every physical value of the example project, and forms that people type. SI values by hand from the definitions of the units. */
const readings: readonly (readonly [string, KindName, number])[] = [
  ["0.22 mm", "length", 2.2e-4],
  ["38 um", "length", 38e-6],
  ["1,5 mm", "length", 1.5e-3],
  ["1.5mm", "length", 1.5e-3],
  ["1e-3 m", "length", 1e-3],
  ["−3 um", "length", -3e-6],
  ["+.5 mm", "length", 5e-4],
  ["633 nm", "length", 633e-9],
  ["5 µm", "length", 5e-6],
  ["5 μm", "length", 5e-6],
  ["0 nm", "length", 0],
  ["1 cm^2", "area", 1e-4],
  ["76.8 mm²", "area", 76.8e-6],
  ["7.2 mm^3", "volume", 7.2e-9],
  ["1 mL", "volume", 1e-6],
  ["2510 kg/m^3", "density", 2510],
  ["2.51 g/cm^3", "density", 2510],
  ["101.325 kPa", "pressure", 101325],
  ["900 hPa", "pressure", 9e4],
  ["1 atm", "pressure", 101325],
  ["1013.25 mbar", "pressure", 101325],
  ["72.9 GPa", "modulus", 72.9e9],
  ["3.5e-12 1/Pa", "perPascal", 3.5e-12],
  ["1.83e-5 Pa s", "viscosity", 1.83e-5],
  ["18.3 µPa·s", "viscosity", 18.3e-6],
  ["23 degC", "temperature", 296.15],
  ["23 °C", "temperature", 296.15],
  ["-10 degC", "temperature", 263.15],
  ["300 K", "temperature", 300],
  ["2 degC", "temperatureDifference", 2],
  ["2e-6 1/K", "perKelvin", 2e-6],
  ["7.2 um/(m K)", "expansion", 7.2e-6],
  ["7.2 ppm/K", "expansion", 7.2e-6],
  ["7.2 um/(m degC)", "expansion", 7.2e-6],
  ["120 N/m", "tension", 120],
  ["0.35 N", "rotationStiffness", 0.35],
  ["2.5e-5 m/(Pa s)", "admittance", 2.5e-5],
  ["1 Pa", "soundLevel", 1],
  ["0 dB", "soundLevel", 20e-6],
  ["30 dB", "decibel", 30],
  ["-140 dB/Hz", "intensityNoise", 1e-14],
  ["5 mW", "power", 5e-3],
  ["90 deg", "angle", Math.PI / 2],
  ["-45°", "angle", -Math.PI / 4],
  ["0.65 mrad/Pa", "phaseSensitivity", 0.65e-3],
  ["7 kHz", "frequency", 7000],
  ["9 ms", "time", 9e-3],
  ["20 kohm", "resistance", 2e4],
  ["20 kΩ", "resistance", 2e4],
  ["0.12 V", "voltage", 0.12],
  ["5 nV/sqrt(Hz)", "voltageNoise", 5e-9],
  ["5 nV/√Hz", "voltageNoise", 5e-9],
  ["10 fA/sqrt(Hz)", "currentNoise", 10e-15],
  ["0.45 A/W", "responsivity", 0.45],
  ["0.133 um^2/min", "diffusion", 0.133e-12 / 60],
  ["1 eV", "energy", 1.602176634e-19],
  ["50 %", "fraction", 0.5],
  ["0.5", "fraction", 0.5],
  ["3%", "fraction", 0.03],
  ["0.121", "number", 0.121],
];

describe("reading a quantity", () => {
  it.each(readings)("%s as %s is %d", (text, kind, expected) => {
    expect(Math.abs(value(text, kind) - expected)).toBeLessThanOrEqual(2e-16 * Math.abs(expected));
  });

  it("prefixes are powers of ten in the text, so that 38 um is exactly 38e-6", () => {
    expect(value("38 um", "length")).toBe(38e-6);
    expect(value("0.22 mm", "length")).toBe(0.22e-3);
  });

  // 94 dB = 1.0023745 Pa: 20e-6 * 10^(94/20), the digits that calibrator data sheets print.
  it("reads a level of sound re 20 uPa", () => expect(value("94 dB", "soundLevel")).toBeCloseTo(1.0023745, 7));

  it.each([
    ["38", "length", "no-unit"],
    ["38 xx", "length", "unknown-unit"],
    ["38 m/", "length", "unknown-unit"],
    ["38 (m", "length", "unknown-unit"],
    ["38 Pa", "length", "wrong-unit"],
    ["5 m/Pa s", "admittance", "wrong-unit"],
    ["5 rad", "number", "wrong-unit"],
    ["1 1/Pa", "phaseSensitivity", "wrong-unit"],
    ["2 dB", "length", "wrong-unit"],
    ["NaN mm", "length", "not-finite"],
    ["-Infinity mm", "length", "not-finite"],
    ["1e999 m", "length", "not-finite"],
    ["", "length", "not-a-number"],
    ["um", "length", "not-a-number"],
    ["about 3 um", "length", "not-a-number"],
    ["1.500,2 mm", "length", "group-marks"],
    ["1,500.2 mm", "length", "group-marks"],
    ["1 500 mm", "length", "group-marks"],
    ["1\u202f500 mm", "length", "group-marks"],
    ["1'500 mm", "length", "group-marks"],
    ["1.5.2 mm", "length", "group-marks"],
  ] as const)("%j as %s is a problem: %s", (text, kind, code) => {
    expect(problem(text, kind)?.code).toBe(code);
    expect(problem(text, kind)?.path).toEqual(path);
  });

  it("says what was found and what would do", () => {
    expect(problem("38 Pa", "length")?.message).toBe(
      'Found "38 Pa"; "Pa" is a unit of another kind. Needed: a length, such as "0.22 mm" or "38 um".',
    );
  });

  it("reads a comma as a decimal comma, and says so where it might be a group mark", () => {
    const read = readQuantity("1,500 mm", "length", path);
    expect(read.ok && read.value).toBe(1.5e-3);
    expect(read.ok && read.remarks.map(({ code }) => code)).toEqual(["decimal-comma"]);
    const clear = readQuantity("1,5 mm", "length", path);
    expect(clear.ok && clear.remarks).toEqual([]);
  });

  it("names the unit that a text was written in", () => {
    expect(unitOf("0.22 mm")).toBe("mm");
    expect(unitOf("2e-6 1/K")).toBe("1/K");
    expect(unitOf("0.5")).toBeNull();
    expect(unitOf("5 things")).toBeNull();
  });
});
