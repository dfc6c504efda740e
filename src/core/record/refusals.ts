/** Why a file gives no table. */
import type { Problem } from "../problem.ts";
import { isComment } from "./cells.ts";
import type { Line } from "./firstLines.ts";

export const noNumbers = (sample: readonly Line[]): Problem => ({
  code: "no-numbers",
  path: ["line", 1],
  message: `No row of numbers was found in the first ${sample.length} lines; line 1 reads "${(sample.find(({ text }) => text.trim() !== "" && !isComment(text))?.text ?? sample[0]?.text ?? "").slice(0, 60)}". Needed: two rows or more of numbers, one record a row.`,
});

export const tooFewRows = (rows: number, line: number): Problem => ({
  code: "too-few-rows",
  path: ["line", line],
  message: `Rows of numbers found: ${rows} (line ${line}); needed: two or more, one for each sample.`,
});

export const unknownColumn = (index: number, columns: number): Problem => ({
  code: "unknown-column",
  path: ["columns", index],
  message: `The recipe names column ${index} (from 0), the file has ${columns}.`,
});
