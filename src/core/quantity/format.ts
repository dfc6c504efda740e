/** The one place where numbers with units are written: for people (`formatQuantity`) and for files (`plainQuantity`). */
import { tenTo } from "../numerics/power.ts";
import { type Kind, type KindName, kindOf, soundLevelDb } from "./kinds.ts";
import { readQuantity } from "./read.ts";
import { readUnit } from "./unitExpression.ts";

export interface FormatOptions {
  /** Significant digits; 4 where neither this nor `standard` is given. */
  readonly digits?: number;
  /** Standard uncertainty in SI: the value is shown to two digits of it, with "±". */
  readonly standard?: number;
  /** Keep this unit instead of choosing a prefix: "um". */
  readonly unit?: string;
  readonly decimalSign?: "." | ",";
}

/** What stands between number and unit: a thin space that does not break. */
export const thinSpace = "\u202f";
const minus = "\u2212";

/**
 * A value in SI as a person reads it: "38.0 µm", "−0.455 mrad/Pa", "28.60 ± 0.30 µm".
 * A value that is absent or not finite is "none".
 */
export function formatQuantity(value: number | null, kind: KindName, options: FormatOptions = {}): string {
  if (value === null || !Number.isFinite(value)) return "none";
  const asked = kindOf(kind);
  const unit = options.unit ?? fittingUnit(value, asked);
  const shown = fromSi(value, unit, asked);
  const { standard } = options;
  if (standard !== undefined && standard > 0 && asked.scale !== "soundLevel" && asked.scale !== "powerPerHertz") {
    const spread = fromSi(standard, unit, asked.scale === "point" ? kindOf("temperatureDifference") : asked);
    const places = 1 - Math.floor(Math.log10(Number(spread.toPrecision(2))));
    return `${written(toPlaces(shown, places), options)} ± ${written(toPlaces(spread, places), options)}${unitTail(unit)}`;
  }
  return written(toDigits(shown, options.digits ?? 4), options) + unitTail(unit);
}

/** A bare number as a person reads it, to so many significant digits. */
export function formatNumber(value: number | null, options: Omit<FormatOptions, "unit" | "standard"> = {}): string {
  return formatQuantity(value, "number", options);
}

/**
 * A value in SI as a file keeps it: "38 um". `readQuantity` reads the same number back, to the last bit unless `digits` rounds it.
 * `unit` keeps the user's own unit: "0.22 mm" stays in millimeters.
 * A number that is not finite cannot be written: that is a mistake of the caller.
 */
export function plainQuantity(
  value: number,
  kind: KindName,
  options: { readonly digits?: number; readonly unit?: string } = {},
): string {
  if (!Number.isFinite(value)) throw new Error(`plainQuantity: ${value} cannot be written as ${kind}`);
  const asked = kindOf(kind);
  const unit = options.unit ?? fittingUnit(value, asked);
  const tail = (name: string) => (name === "1" ? "" : ` ${name}`);
  const shown = fromSi(value, unit, asked);
  if (options.digits !== undefined && Number.isFinite(shown))
    return `${shortest(Number(shown.toPrecision(options.digits)))}${tail(unit)}`;
  for (let digits = 1; Number.isFinite(shown) && digits <= 17; digits++) {
    const text = `${shortest(Number(shown.toPrecision(digits)))}${tail(unit)}`;
    const back = readQuantity(text, kind, []);
    if (back.ok && back.value === value) return text;
  }
  return `${shortest(value)}${tail(asked.si)}`;
}

/** Decimal sign of a language tag: "," for "de-DE"; "." where the tag is not known. */
export function decimalSignOf(locale: string): "." | "," {
  try {
    const part = new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === "decimal");
    return part?.value === "," ? "," : ".";
  } catch {
    return ".";
  }
}

/** A unit as it is printed: "um/(m K)" becomes "µm/(m·K)". */
export function printedUnit(unit: string): string {
  return unit
    .replace(/sqrt\((\w+)\)/g, "√$1")
    .replace(/\bu(?=[A-Za-z])/g, "µ")
    .replace(/ohm\b/g, "Ω")
    .replace(/deg([CF])/g, "°$1")
    .replace(/\bdeg\b/g, "°")
    .replace(/\^2/g, "²")
    .replace(/\^3/g, "³")
    .replace(/ /g, "·");
}

/** The largest unit of the kind that leaves a number of 1 or more; the smallest for less; the middle one for zero. */
function fittingUnit(value: number, kind: Kind): string {
  const [smallest] = kind.units;
  if (kind.scale === "soundLevel") return value > 0 ? "dB" : "Pa";
  if (kind.scale === "powerPerHertz") return value > 0 ? "dB/Hz" : "1/Hz";
  if (value === 0) return kind.units[Math.floor(kind.units.length / 2)] ?? smallest;
  // 1 - 1e-12: 0.001 m in mm may come out a last digit under 1.
  return kind.units.findLast((unit) => Math.abs(fromSi(value, unit, kind)) >= 1 - 1e-12) ?? smallest;
}

function fromSi(value: number, unitText: string, kind: Kind): number {
  if (unitText === "dB" && kind.scale === "soundLevel") return soundLevelDb(value);
  if (unitText === "dB/Hz" && kind.scale === "powerPerHertz") return 10 * Math.log10(value);
  const unit = readUnit(unitText);
  if (unit === null) throw new Error(`fromSi: "${unitText}" is not a unit`);
  const moved = value - (kind.scale === "point" ? (unit.offset ?? 0) : 0);
  const size = unit.scale * tenTo(Math.abs(unit.exponent));
  return unit.exponent < 0 ? (moved / unit.scale) * tenTo(-unit.exponent) : moved / size;
}

/** Shortest text that is the same number; no minus before zero. */
const shortest = (value: number): string => String(value === 0 ? 0 : value);

function toDigits(value: number, digits: number): string {
  if (value === 0) return "0";
  const size = Math.floor(Math.log10(Math.abs(Number(value.toPrecision(digits)))));
  if (size < -4 || size >= Math.max(digits, 6)) return value.toExponential(digits - 1);
  return toPlaces(value, digits - 1 - size);
}

/** Fixed decimal places; fewer than none rounds to tens, hundreds. */
function toPlaces(value: number, places: number): string {
  if (places < 0) return (Math.round(value / tenTo(-places)) * tenTo(-places)).toFixed(0);
  return value.toFixed(Math.min(places, 100));
}

/** Proper minus, decimal sign, and 3.2 × 10⁻⁵ in place of 3.2e-5. */
function written(text: string, options: FormatOptions): string {
  const [mantissa = "", exponent] = text.split("e");
  const digits = /^-0(\.0*)?$/.test(mantissa) ? mantissa.slice(1) : mantissa;
  const body = digits.replace("-", minus).replace(".", options.decimalSign ?? ".");
  return exponent === undefined ? body : `${body} × 10${raised(String(Number(exponent)))}`;
}

const raised = (text: string) => text.replace("-", "⁻").replace(/\d/g, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(Number(digit)));

/** A unit as it follows a number: after a thin space, degrees of angle without. */
export function unitTail(unit: string): string {
  if (unit === "1") return "";
  return unit === "deg" ? "°" : thinSpace + printedUnit(unit);
}
