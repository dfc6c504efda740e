import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalSignOf, formatNumber, formatQuantity, plainQuantity, printedUnit } from "./format.ts";
import { differenceKind, type KindName, kinds, soundLevelDb } from "./kinds.ts";
import { readQuantity } from "./read.ts";
import { readUnit } from "./unitExpression.ts";

const plain = (text: string) => text.replaceAll("\u202f", " ");

describe("writing a quantity", () => {
  it("chooses the prefix and keeps the digits", () => {
    expect(plain(formatQuantity(38e-6, "length"))).toBe("38.00 µm");
    expect(plain(formatQuantity(5.5e-3, "length", { digits: 3 }))).toBe("5.50 mm");
    expect(plain(formatQuantity(0.001, "length", { digits: 3 }))).toBe("1.00 mm");
    expect(plain(formatQuantity(101325, "pressure", { digits: 6 }))).toBe("101.325 kPa");
    expect(plain(formatQuantity(296.15, "temperature", { digits: 3 }))).toBe("23.0 °C");
    expect(plain(formatQuantity(7.2e-6, "expansion", { digits: 2 }))).toBe("7.2 µm/(m·K)");
    expect(plain(formatQuantity(Math.PI / 2, "angle", { digits: 2 }))).toBe("90°");
    expect(plain(formatQuantity(1.0023744672545452, "soundLevel", { digits: 3 }))).toBe("94.0 dB");
    expect(plain(formatQuantity(5e-9, "voltageNoise", { digits: 1 }))).toBe("5 nV/√Hz");
    expect(plain(formatQuantity(38e-6, "length", { unit: "mm", digits: 2 }))).toBe("0.038 mm");
  });

  it("writes a proper minus and no minus before zero", () => {
    expect(plain(formatQuantity(-4.55e-4, "phaseSensitivity", { digits: 3 }))).toBe("−455 µrad/Pa");
    expect(plain(formatQuantity(-1e-9, "number", { digits: 2 }))).toBe("−1.0 × 10⁻⁹");
    expect(plain(formatQuantity(-0, "length"))).toBe("0 mm");
    expect(plain(formatQuantity(-0.001, "decibel", { standard: 1 }))).toBe("0.0 ± 1.0 dB");
  });

  it("shows two digits of a standard uncertainty, and the value to the same place", () => {
    expect(plain(formatQuantity(28.6e-6, "length", { standard: 0.3e-6 }))).toBe("28.60 ± 0.30 µm");
    expect(plain(formatQuantity(296.15, "temperature", { standard: 0.5 }))).toBe("23.00 ± 0.50 °C");
    expect(plain(formatQuantity(0.0181, "number", { standard: 0.0004 }))).toBe("0.01810 ± 0.00040");
    expect(plain(formatQuantity(1234, "length", { standard: 456 }))).toBe("1230 ± 460 m");
    expect(plain(formatQuantity(0.0181, "number", { standard: 0.000999 }))).toBe("0.0181 ± 0.0010");
  });

  it("follows the decimal sign of a language", () => {
    expect(plain(formatQuantity(1.5e-3, "length", { decimalSign: decimalSignOf("de-DE"), digits: 2 }))).toBe("1,5 mm");
    expect(decimalSignOf("en-US")).toBe(".");
    expect(decimalSignOf("no such language")).toBe(".");
  });

  it("writes large and small numbers as powers of ten", () => {
    expect(formatNumber(1234567, { digits: 3 })).toBe("1.23 × 10⁶");
    expect(formatNumber(1.234e-5, { digits: 3 })).toBe("1.23 × 10⁻⁵");
    expect(formatNumber(12345, { digits: 3 })).toBe("12300");
    expect(formatNumber(9.9996, { digits: 4 })).toBe("10.00");
  });

  it("says none where there is no number", () => {
    expect(formatQuantity(null, "length")).toBe("none");
    expect(formatQuantity(Number.NaN, "length")).toBe("none");
  });

  it("prints units as they are printed", () => {
    expect(printedUnit("nV/sqrt(Hz)")).toBe("nV/√Hz");
    expect(printedUnit("um/(m K)")).toBe("µm/(m·K)");
    expect(printedUnit("kohm")).toBe("kΩ");
    expect(printedUnit("mm^3")).toBe("mm³");
  });
});

describe("saving a quantity", () => {
  it("writes what a person would", () => {
    expect(plainQuantity(38e-6, "length")).toBe("38 um");
    expect(plainQuantity(2.2e-4, "length", { unit: "mm" })).toBe("0.22 mm");
    expect(plainQuantity(3.81234e-5, "length", { digits: 3 })).toBe("38.1 um");
    expect(plainQuantity(296.15, "temperature")).toBe("23 degC");
    expect(plainQuantity(0.5, "fraction")).toBe("50 %");
    expect(plainQuantity(0.121, "number")).toBe("0.121");
  });

  it("throws on a number that is not finite: no caller may save one", () => {
    expect(() => plainQuantity(Number.NaN, "length")).toThrow("NaN");
  });

  const names = Object.keys(kinds) as KindName[];
  const positiveOnly = (kind: KindName) => kinds[kind].scale === "soundLevel" || kinds[kind].scale === "powerPerHertz";

  it.each(names)("a %s that is written is read back to the last bit", (kind) => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true, min: positiveOnly(kind) ? 0 : -1e30, max: 1e30 });
    const round = fc.double({ noNaN: true, min: -999, max: 999 }).map((x) => Number(x.toPrecision(4)) * 1e-6);
    fc.assert(
      fc.property(fc.oneof(number, round), (value) => {
        const read = readQuantity(plainQuantity(value, kind), kind, []);
        return read.ok && read.value === value;
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it.each(names)("a %s that is shown is read back to its digits", (kind) => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, min: 1e-9, max: 1e9 }), (value) => {
        const shown = formatQuantity(value, kind, { digits: 9 });
        // A power of ten is printed raised; a person would type it with e.
        const typed = shown.replace(/ × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/, (_, power: string) => `e${lowered(power)}`);
        const read = readQuantity(typed, kind, []);
        return read.ok && Math.abs(read.value - value) <= tolerance(kind, value);
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  const lowered = (text: string) =>
    text.replace("⁻", "-").replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (sign) => String("⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(sign)));
  /** Nine digits of what is shown: of the number, of degrees from 273.15 K, of decibels. */
  const tolerance = (kind: KindName, value: number) =>
    kind === "temperature" ? 1e-8 * (value + 273.15) : positiveOnly(kind) ? 1e-6 * value : 1e-8 * value;

  it("each kind can be written in every unit of its table, and its examples read", () => {
    for (const kind of names) {
      for (const unit of [...kinds[kind].units, kinds[kind].si]) expect(readUnit(unit), unit).not.toBeNull();
      for (const example of kinds[kind].examples) expect(readQuantity(example, kind, []).ok, example).toBe(true);
    }
  });

  it("a difference of temperatures is in kelvin, one of levels in dB", () => {
    expect(differenceKind("temperature")).toBe("temperatureDifference");
    expect(differenceKind("soundLevel")).toBe("decibel");
    expect(differenceKind("length")).toBe("length");
  });

  // 1 Pa = 93.97940 dB: 20 log10(1 / 20e-6), as calibrator data sheets print (93.98).
  it("one pascal is 93.979 dB", () => expect(soundLevelDb(1)).toBeCloseTo(93.9794, 4));
});
