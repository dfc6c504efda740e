/** Which column a standard uncertainty belongs to. */
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import { inSi, unitFactor } from "../../record/units.ts";

/**
 * By its heading, where that names the other column ("u(x)", "s_y", "thickness error"); else the column right before it, where no
 * two of them follow one another; else the first belongs to the first column and the last to the last, as in x, y, sx, sy.
 */
export function standardsOf(
  { columns }: RecordTable,
  x: readonly RecordColumn[],
  y: RecordColumn,
): ReadonlyMap<RecordColumn, RecordColumn> {
  const standards = columns.filter(({ is }) => is === "standard");
  const owners = [...x, y];
  const byName = new Map<RecordColumn, RecordColumn>();
  for (const standard of standards) {
    const owner = owners.find((column) => !byName.has(column) && names(standard.heading, column.heading));
    if (owner !== undefined) byName.set(owner, standard);
  }
  if (byName.size === standards.length) return byName;
  const before = (standard: RecordColumn) => columns[columns.indexOf(standard) - 1];
  if (standards.length > 1 && standards.every((one) => owners.includes(before(one)!)))
    return new Map(standards.map((one) => [before(one)!, one]));
  // One alone is of what was measured.
  return new Map(
    standards
      .slice(-owners.length)
      .reverse()
      .map((one, i) => [owners[owners.length - 1 - i]!, one]),
  );
}

/**
 * Values of a standard uncertainty [SI of its owner]: in its own unit, in its owner's where it names none, in shares of the value
 * where it stands in percent.
 */
export function standardInSi(owner: RecordColumn, { values, unit }: RecordColumn): Float64Array {
  if (unit === "%") return inSi(owner).map((value, i) => Math.abs(value) * values[i]! * 0.01);
  const factor = unitFactor(unit || owner.unit || "") ?? 1;
  return values.map((value) => value * factor);
}

/** "u(x)", "sx", "sigma_x", "x error", "x std" name "x". */
function names(standard: string, column: string): boolean {
  const plain = (text: string) =>
    text
      .replace(/[[(]\s*[^\s\])]*\s*[\])]\s*$/, (unit) => (/^\(\w+\)$/.test(unit) && text.length < 8 ? unit : ""))
      .toLowerCase();
  const words = plain(standard)
    .replace(/\b(std|stdev|sigma|uncert\w*|standard|error|err|of|dev\w*)\b|[^a-z0-9]+/g, " ")
    .replace(/\bu\b/, " ")
    .trim();
  const own = plain(column)
    .replace(/[^a-z0-9]+/g, " ")
    .trim();
  if (own === "" || words === "") return false;
  return words === own || words === `s${own}` || words === `u${own}` || words === `d${own}`;
}
