/** Columns as a person writes them on a command line: "1=time ms, 2=output V". */
import { answer, type Outcome, refuse } from "../../problem.ts";
import { type ColumnMeaning, columnMeanings, type RecipeColumn } from "../../record/recipe.ts";
import { unitFactor } from "../../record/units.ts";

/** Numbers count from 1, as an editor does. Problem: `wrong-columns`. */
export function readColumns(text: string): Outcome<readonly RecipeColumn[]> {
  const columns: RecipeColumn[] = [];
  for (const part of text.split(/\s*[,;]\s*/)) {
    const match = /^(\d{1,5})\s*[=:]\s*([A-Za-z]+)\s*(.*)$/.exec(part.trim());
    const is = columnMeanings.find((meaning) => meaning === match?.[2]) as ColumnMeaning | undefined;
    const unit = match?.[3]?.trim() ?? "";
    if (match === null || is === undefined || Number(match[1]) < 1 || unitFactor(unit) === null)
      return refuse({
        code: "wrong-columns",
        path: ["columns"],
        message: `Found "${part}"; needed: number, meaning and unit of a column, such as "1=time ms, 2=output V". Meanings: ${columnMeanings.join(", ")}.`,
      });
    columns.push({ index: Number(match[1]) - 1, is, unit });
  }
  return answer(columns);
}
