/** Columns in SI, by the unit that the recipe gives them. */
import { tenTo } from "../numerics/power.ts";
import { readUnit } from "../quantity/unitExpression.ts";
import { namedUnit } from "../quantity/units.ts";
import type { RecordColumn } from "./table.ts";

/** Factor to SI of a unit as written; 1 for "" and for dB (which stays what it is); null where it is no unit. */
export function unitFactor(unit: string): number | null {
  if (unit === "" || /^dB/.test(unit)) return 1;
  if (unit === "%") return 0.01;
  const read = readUnit(unit);
  return read === null ? null : read.scale * tenTo(read.exponent);
}

/** What is added after the factor: 273.15 for degrees Celsius. */
const unitOffset = (unit: string): number => namedUnit(unit)?.offset ?? 0;

/** Values in SI. A column whose unit is unknown is taken as it is: whoever needs the unit asks first. */
export function inSi({ values, unit }: Pick<RecordColumn, "values" | "unit">): Float64Array {
  const factor = unitFactor(unit ?? "") ?? 1;
  const offset = unitOffset(unit ?? "");
  return factor === 1 && offset === 0 ? values : values.map((value) => value * factor + offset);
}
