/** Numbers with units, from what a person typed to SI: the one border where units are turned. */
import { pow } from "../numerics/power.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { type Kind, type KindName, kindOf, referencePressure } from "./kinds.ts";
import { readUnit } from "./unitExpression.ts";
import { sameDimension, type Unit } from "./units.ts";

/** sign, digits with at most one decimal sign, exponent; then the unit */
const pattern = /^([+\-−]?)((?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+\-−]?\d+)?)(.*)$/su;

/**
 * Reads a value with its unit into SI.
 *
 * "1,5 mm" is "1.5 mm": a comma is always a decimal comma. Group marks are refused.
 *
 * Remarks: `decimal-comma` where a comma stands as a group mark might ("1,500 mm").
 * Problems: `no-unit`, `unknown-unit`, `wrong-unit`, `not-finite`, `not-a-number`, `group-marks`.
 */
export function readQuantity(text: string, kind: KindName, path: Path): Outcome<number> {
  const asked = kindOf(kind);
  const trimmed = text.trim();
  const no = (code: string, found: string) => refuse({ code, path, message: `${found} ${needs(asked)}` });
  if (/^[+\-−]?(nan|inf(inity)?|∞)\b/iu.test(trimmed)) return no("not-finite", `Found "${text}", which is not finite.`);
  const match = pattern.exec(trimmed);
  if (match === null) return no("not-a-number", `Found "${text}", which does not start with a number.`);
  const [, sign = "", digits = "", rest = ""] = match;
  if (/^[.,'’_]|^[\s\u00a0\u2009\u202f]*\d/u.test(rest) && !/^\s*1\s*\//u.test(rest))
    return no(
      "group-marks",
      `Found "${text}": a number has one decimal sign (a comma is one too) and no marks between groups of digits.`,
    );
  const number = `${sign === "-" || sign === "−" ? "-" : ""}${digits.replace(",", ".").replace("−", "-")}`;
  const unitText = rest.trim();
  const value = inSi(number, unitText, asked);
  if (typeof value === "string") return no(value, describeFailure(value, text, unitText));
  if (!Number.isFinite(value)) return no("not-finite", `Found "${text}", which is too large for a number.`);
  return answer(value, commaRemark(digits, text, number, unitText, path));
}

/** Value in SI, or the code of what is wrong. */
function inSi(number: string, unitText: string, kind: Kind): number | "no-unit" | "unknown-unit" | "wrong-unit" {
  if (unitText === "") {
    if (kind.scale === "number" || kind.scale === "share") return Number(number);
    return "no-unit";
  }
  const unit = readUnit(unitText);
  if (unit === null) return "unknown-unit";
  if (kind.scale === "number") return "wrong-unit";
  if (kind.scale === "soundLevel" && sameDimension(unit.dimension, { dB: 1 }))
    return referencePressure * pow(10, Number(number) / 20);
  if (kind.scale === "powerPerHertz" && sameDimension(unit.dimension, { s: 1 })) return scaled(number, unit);
  if (!sameDimension(unit.dimension, kind.dimension)) return "wrong-unit";
  if (kind.scale === "powerPerHertz") return pow(10, scaled(number, unit) / 10);
  return scaled(number, unit) + (kind.scale === "point" ? (unit.offset ?? 0) : 0);
}

/** The decimal exponent goes into the text of the number, so that "38 um" is exactly 38e-6. */
function scaled(number: string, unit: Unit): number {
  const [mantissa = "", exponent = "0"] = number.toLowerCase().split("e");
  return Number(`${mantissa}e${Number(exponent) + unit.exponent}`) * unit.scale;
}

function describeFailure(code: "no-unit" | "unknown-unit" | "wrong-unit", text: string, unit: string): string {
  if (code === "no-unit") return `Found "${text}", without a unit.`;
  if (code === "unknown-unit") return `Found "${text}"; "${unit}" is not a unit known here.`;
  return `Found "${text}"; "${unit}" is a unit of another kind.`;
}

/** "Needed: a length, such as "0.22 mm" or "38 um"." */
export function needs(kind: Kind): string {
  const samples =
    kind.scale === "number" ? kind.examples.join(" or ") : kind.examples.map((e) => `"${e}"`).join(" or ");
  return `Needed: ${kind.words}, such as ${samples}.`;
}

function commaRemark(digits: string, text: string, number: string, unit: string, path: Path): Problem[] {
  if (!/^[1-9]\d{0,2},\d{3}$/.test(digits)) return [];
  const read = `${Number(number)}${unit === "" ? "" : ` ${unit}`}`;
  return [
    { code: "decimal-comma", path, message: `"${text}" was read as ${read}: a comma is always a decimal comma.` },
  ];
}

/** Whether a text is the name of a unit: "V", "m/s^2". */
export const isUnit = (text: string): boolean => readUnit(text) !== null;

/** The unit that a readable text was written in ("0.22 mm" gives "mm"), or null. */
export function unitOf(text: string): string | null {
  const unit = pattern.exec(text.trim())?.[3]?.trim() ?? "";
  return unit !== "" && isUnit(unit) ? unit : null;
}
