/** Which lines of a file's head name its columns, and which name their units. */
import { cellsOf, isNumber } from "./cells.ts";
import { unitAlone } from "./headings.ts";
import type { Layout } from "./layout.ts";

export interface HeadingRows {
  readonly names: readonly string[] | null;
  readonly units: readonly string[] | null;
}

/**
 * The last lines of the head that have a cell for each column. Where spaces part the cells, or there is one
 * column only, any line of words may have as many: then only the lines right above the numbers count, with blank lines and rules between them.
 */
export function headingRows(head: readonly string[], layout: Layout): HeadingRows {
  const rows = head.map((text) => cellsOfHeading(text, layout));
  const fits = (cells: readonly string[]) =>
    cells.length === layout.columns && cells.some((cell) => cell !== "") && !isSetting(cells, layout);
  let near = rows.flatMap((cells, i) => (isRule(head[i]!) ? [] : [cells]));
  if (layout.separator === "space" || layout.columns === 1) {
    const last = near.slice(-2);
    near = last.length === 2 && fits(last[1]!) ? last : last.slice(-1);
  }
  let [names, units]: [readonly string[] | null, readonly string[] | null] = [null, null];
  for (const cells of near.filter(fits).slice(-2).reverse()) {
    const filled = cells.filter((cell) => cell !== "");
    if (units === null && names === null && filled.every((cell) => unitAlone(cell) !== null || cell === "-"))
      units = cells;
    else if (names === null && !filled.every((cell) => isNumber(cell, layout))) names = cells;
  }
  return { names, units };
}

/** Without the mark of a comment, a separator at the end, and the word "Data:" before the names. */
function cellsOfHeading(text: string, layout: Layout): readonly string[] {
  const bare = text.replace(/^\s*(#|%|\/\/|!|\*)+\s*/, "").replace(/^\s*data\s*:\s+/i, "");
  const cells = partedHeadings(bare, layout);
  return cells.length === layout.columns + 1 && cells.at(-1) === "" ? cells.slice(0, -1) : cells;
}

/** Where single spaces part the cells, headings of several words are parted by two and more. */
function partedHeadings(text: string, { separator, columns }: Layout): readonly string[] {
  const cells = cellsOf(text, separator);
  if (separator !== "space" || cells.length === columns) return cells;
  const wide = text.trim().split(/\s{2,}|\t/);
  return wide.length === columns ? wide : cells;
}

const isRule = (text: string): boolean => /^[\s\-=_*+|]*$/.test(text);

/** "fs = 96000 Hz" on a line of its own, or "Record length;1000", names no column. */
const isSetting = (cells: readonly string[], layout: Layout): boolean =>
  (cells.length === 1 && /[=:]/.test(cells[0]!)) || (cells.length === 2 && isNumber(cells[1]!, layout));

/** Unit that a line of the head names for all: "Unit: V", "Vertical Units,mV"; null where none does. */
export function unitInHead(head: readonly string[]): string | null {
  for (const text of head) {
    const said = /\b(?:vertical |y )?(?:units?|einheit)\s*[:=,;\t]\s*"?([^\s,;"]+)/i.exec(text)?.[1];
    const unit = said === undefined ? null : unitAlone(said);
    if (unit !== null) return unit;
  }
  return null;
}
