/** How a table is written: separator, decimal sign, marks between groups, where its numbers begin. Found from its first lines. */
import { cellsOf, isComment, isMissing, isNumber, type NumberStyle, type Separator, separators } from "./cells.ts";

export interface Layout extends NumberStyle {
  readonly separator: Separator;
  /** Cells in a row. */
  readonly columns: number;
  /** Number of the first line of numbers, from 0. */
  readonly firstRow: number;
  /** Which columns hold numbers. */
  readonly numeric: readonly boolean[];
  /** Another way to read the same lines is as good. */
  readonly unclear: "separator" | "decimal" | null;
}

const styles: readonly NumberStyle[] = [
  { decimal: ".", group: "" },
  { decimal: ",", group: "" },
  { decimal: ".", group: "," },
  { decimal: ",", group: "." },
  { decimal: ".", group: " " },
  { decimal: ",", group: " " },
  { decimal: ".", group: "'" },
  { decimal: ",", group: "'" },
];

interface Candidate {
  readonly layout: Layout;
  readonly score: number;
}

/** The layout that makes most of the lines rows of numbers; null where none does. */
export function layoutOf(lines: readonly string[], known: Partial<Layout> = {}): Layout | null {
  const found: Candidate[] = [];
  for (const separator of separators) {
    if (known.separator !== undefined && known.separator !== separator) continue;
    for (const style of styles) {
      if (known.decimal !== undefined && known.decimal !== style.decimal) continue;
      if (known.group !== undefined && known.group !== style.group) continue;
      // A sign can't part numbers and cells at once, unless the cells are quoted.
      if (separator === "space" && style.group === " ") continue;
      const clash = separator === style.decimal || separator === style.group;
      if (clash && !lines.some((line) => /"[^"]*[,;][^"]*"/.test(line))) continue;
      const candidate = judged(lines, separator, style);
      if (candidate !== null) found.push(candidate);
    }
  }
  found.sort((a, b) => b.score - a.score);
  const best = found[0];
  if (best === undefined) return null;
  return { ...best.layout, unclear: doubt(best.layout, lines) };
}

function judged(lines: readonly string[], separator: Separator, style: NumberStyle): Candidate | null {
  const rows = lines.map((line) => (isComment(line) || line.trim() === "" ? null : cellsOf(line, separator)));
  const share = rows.map((cells) => (cells === null ? 0 : numberShare(cells, style)));
  const counts = new Map<number, number>();
  rows.forEach((cells, i) => {
    if (cells !== null && share[i]! >= 0.3) counts.set(cells.length, (counts.get(cells.length) ?? 0) + share[i]!);
  });
  let [columns, weight] = [0, 0];
  for (const [count, sum] of counts) if (sum > weight) [columns, weight] = [count, sum];
  if (columns === 0) return null;
  // A line of the head may have as many cells, a number among them: rows are as full of numbers as most rows are.
  const shares = share.filter((value, i) => value >= 0.3 && rows[i]?.length === columns).sort((a, b) => a - b);
  const least = 0.6 * shares[shares.length >> 1]!;
  const isRow = (i: number) => rows[i] !== null && rows[i]!.length === columns && share[i]! >= least;
  const firstRow = lines.findIndex((_, i) => isRow(i) && followed(i, isRow, lines));
  if (firstRow < 0) return null;
  const numeric = Array.from({ length: columns }, (_, c) => {
    const cells = rows.flatMap((row, i) => (i >= firstRow && isRow(i) ? [row![c]!] : []));
    const numbers = cells.filter((cell) => isNumber(cell, style)).length;
    return numbers > 0 && numbers + cells.filter(isMissing).length >= 0.7 * cells.length;
  });
  if (!numeric.some(Boolean)) return null;
  // Whole rows of numbers count; more columns break a tie, marks between groups need a reason to be assumed.
  const score = weight * (1 + 0.02 * Math.min(columns, 10)) * (style.group === "" ? 1 : 0.999);
  return { layout: { separator, ...style, columns, firstRow, numeric, unclear: null }, score };
}

/** A row of numbers is followed by another before anything else but comments, or ends the text. */
function followed(i: number, isRow: (i: number) => boolean, lines: readonly string[]): boolean {
  for (let k = i + 1; k < lines.length; k++) {
    if (isRow(k)) return true;
    if (lines[k]!.trim() !== "" && !isComment(lines[k]!)) return false;
  }
  return true;
}

function numberShare(cells: readonly string[], style: NumberStyle): number {
  let [numbers, filled] = [0, 0];
  for (const cell of cells) {
    if (isMissing(cell)) continue;
    filled += 1;
    if (isNumber(cell, style)) numbers += 1;
  }
  // A separator at the end of each line makes an empty last cell: no reason against the layout.
  return filled === 0 ? 0 : numbers / filled;
}

function doubt(layout: Layout, lines: readonly string[]): Layout["unclear"] {
  const rows = lines.slice(layout.firstRow).filter((line) => line.trim() !== "" && !isComment(line));
  if (
    layout.separator === "," &&
    layout.columns > 1 &&
    layout.columns % 2 === 0 &&
    rows.every((line) => /^[\d,\s+-]*$/.test(line))
  )
    return rows.some((line) => /,0\d/.test(line)) || layout.columns === 2 ? "separator" : null;
  const cells = rows.flatMap((line) => cellsOf(line, layout.separator)).filter((cell) => /[.,]/.test(cell));
  const asGroups = layout.group === "" && layout.separator !== "," && cells.length > 0;
  const mark = layout.decimal === "." ? /^[+-]?[1-9]\d{0,2}\.\d{3}$/ : /^[+-]?[1-9]\d{0,2},\d{3}$/;
  return asGroups && cells.every((cell) => mark.test(cell)) ? "decimal" : null;
}
