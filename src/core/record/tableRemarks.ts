/** What was found wanting in a table that was read. */
import type { Problem } from "../problem.ts";
import type { RecordTable } from "./table.ts";
import type { TableRows } from "./tableRows.ts";

/** `cells-unreadable`, `cells-missing`, `rows-ragged`, `last-line-cut`, `clipped`, `samples-dropped`, `time-rounded`. */
export function remarksOf({ columns, time, lines }: RecordTable, read: TableRows): Problem[] {
  const remarks: Problem[] = [];
  const say = (code: string, path: Problem["path"], message: string) => remarks.push({ code, path, message });
  if (read.oddCount > 0)
    say(
      "cells-unreadable",
      ["line", read.odd[0]!.line],
      `${read.oddCount} cells are no numbers, first ${read.odd
        .slice(0, 3)
        .map(({ line, column, text }) => `"${text}" in line ${line}, column ${column + 1}`)
        .join("; ")}. They count as missing.`,
    );
  for (const { index, heading, missing } of columns)
    if (missing > 0)
      say(
        "cells-missing",
        ["columns", index],
        `${missing} cells of column ${index + 1}${heading === "" ? "" : ` (${heading})`} hold no number; they are left out of fits.`,
      );
  if (read.raggedCount > 0)
    say(
      "rows-ragged",
      ["line", read.ragged[0]!],
      `${read.raggedCount} rows have another number of cells than the others, first line ${read.ragged[0]}; what they lack counts as missing, what they have too much is not read.`,
    );
  if (read.cut)
    say(
      "last-line-cut",
      ["line", read.lines.at(-1) ?? 0],
      "The last line is cut off in the middle and is not read: the file is not whole. Copy it again if the end matters.",
    );
  for (const { index, clipping } of columns)
    if (clipping !== null)
      say(
        "clipped",
        ["columns", index],
        `Column ${index + 1} is clipped: ${clipping.upper} samples at its upper and ${clipping.lower} at its lower stop, first in line ${lines?.[clipping.first] ?? clipping.first + 1}. A fit must start after it; better lower the gain and record again.`,
      );
  if (time !== null && time.gaps.length > 0) {
    const [gap] = time.gaps;
    const missing = time.gaps.reduce((sum, one) => sum + one.missing, 0);
    say(
      "samples-dropped",
      ["line", lines?.[gap!.after] ?? gap!.after + 1],
      `${missing} samples are missing in ${time.gaps.length} gaps, the first after line ${lines?.[gap!.after] ?? gap!.after + 1}. Fits use the times as they stand.`,
    );
  }
  if (time?.rounded === true)
    say(
      "time-rounded",
      ["columns"],
      `Times repeat because they were printed with too few digits; they fit an even spacing, which was taken. It is known to ${(100 * time.spacing).toPrecision(2)} %: every frequency carries that beside its own uncertainty.`,
    );
  return remarks;
}
