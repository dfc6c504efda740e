/** Cells of a table of numbers, as texts: for finding out how a file is written. */

export interface NumberStyle {
  readonly decimal: "." | ",";
  /** Mark between groups of three digits; "" for none. */
  readonly group: string;
}

const patterns = new Map<string, RegExp>();

function patternOf({ decimal, group }: NumberStyle): RegExp {
  const key = decimal + group;
  const kept = patterns.get(key);
  if (kept !== undefined) return kept;
  const point = decimal === "." ? "\\." : ",";
  const mark = group === "." ? "\\." : group;
  const whole = group === "" ? "\\d+" : `(?:\\d{1,3}(?:${mark}\\d{3})+|\\d+)`;
  const made = new RegExp(`^[+-]?(?:${whole}(?:${point}\\d*)?|${point}\\d+)(?:[eEdD][+-]?\\d+)?$`);
  patterns.set(key, made);
  return made;
}

export const isNumber = (cell: string, style: NumberStyle): boolean => patternOf(style).test(cell);

/** Cells that say that there is nothing. */
export const isMissing = (cell: string): boolean =>
  cell === "" ||
  /^(nan|-?1\.#(ind|qnan)|n\/?a|null|none|missing|-+|\?+|\*+|#+(n\/a|num!|value!)?|\.|inf(inity)?|[+-]inf(inity)?|over(load|flow)?|ol)$/i.test(
    cell,
  );

export type Separator = "," | ";" | "|" | "tab" | "space";
export const separators: readonly Separator[] = ["tab", ";", ",", "|", "space"];

/** The cells of a line, trimmed and without quotation marks. */
export function cellsOf(line: string, separator: Separator): readonly string[] {
  const bare = (cell: string) =>
    cell
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .replace(/^'(.*)'$/, "$1")
      .trim();
  if (separator === "space") {
    const trimmed = line.trim();
    return trimmed === "" ? [] : trimmed.split(/[ \t]+/).map(bare);
  }
  const mark = separator === "tab" ? "\t" : separator;
  if (!line.includes('"')) return line.split(mark).map(bare);
  const cells: string[] = [];
  let [cell, quoted] = ["", false];
  for (const letter of line) {
    if (letter === '"') quoted = !quoted;
    if (letter === mark && !quoted) {
      cells.push(bare(cell));
      cell = "";
    } else cell += letter;
  }
  cells.push(bare(cell));
  return cells;
}

/** A comment stands on a line of its own, behind one of these. */
export const isComment = (line: string): boolean => /^\s*(#|%|\/\/|!|\*)/.test(line);
