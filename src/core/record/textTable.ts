/** Delimited text as a table: its layout told by the first lines, its columns by their headings, then all its rows. */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import type { Separator } from "./cells.ts";
import { type Guess, guessColumns, named, settleMeanings, told, unitBySampling } from "./columnMeanings.ts";
import { firstLines, type Line } from "./firstLines.ts";
import { unitInHead } from "./headingRows.ts";
import { type Layout, layoutOf } from "./layout.ts";
import { questionsOf } from "./questions.ts";
import type { Recipe } from "./recipe.ts";
import { noNumbers, tooFewRows, unknownColumn } from "./refusals.ts";
import { samplingInHead, samplingOf } from "./sampling.ts";
import { clippingOf } from "./signalChecks.ts";
import type { RecordColumn, RecordTable } from "./table.ts";
import { remarksOf } from "./tableRemarks.ts";
import { type Progress, type TableRows, tableRows } from "./tableRows.ts";
import { timeBaseOf } from "./timeBase.ts";
import { inSi } from "./units.ts";

/** More columns than this are not read at once. */
export const mostColumns = 512;

/**
 * The table of a text whose first line begins at byte `start`.
 * Problems: `no-numbers`, `too-many-columns`, `unknown-column`, `too-few-rows`. Remarks: those of `remarksOf`.
 */
export function* textTable(
  bytes: Uint8Array,
  start: number,
  recipe: Recipe | undefined,
): Generator<Progress, Outcome<RecordTable>> {
  const known = knownLayout(recipe);
  const sample = firstLines(bytes, start);
  const layout = layoutAt(sample, recipe, known);
  if (layout === null) return refuse(noNumbers(sample));
  if (layout.columns > mostColumns && !told(recipe))
    return refuse({
      code: "too-many-columns",
      path: ["columns"],
      message: `Line ${layout.firstRow + 1} has ${layout.columns} columns; needed: at most ${mostColumns} at once. Name those to read in the recipe, or turn the table.`,
    });
  const head = sample.slice(0, layout.firstRow).map(({ text }) => text);
  const guessed = guessColumns(head, layout, recipe);
  const wanted = guessed.filter(({ index }) => layout.numeric[index] ?? true).map(({ index }) => index);
  const beyond = guessed.filter(({ index }) => index >= layout.columns);
  if (beyond.length > 0) return refuse(...beyond.map(({ index }) => unknownColumn(index, layout.columns)));
  const first = sample[layout.firstRow]!;
  const read = yield* tableRows(bytes, first.from, layout.firstRow + 1, layout, wanted);
  if (read.rows < 2) return refuse(tooFewRows(read.rows, layout.firstRow + 1));
  return finish(read, { layout, head, guessed, recipe });
}

function knownLayout(recipe: Recipe | undefined): Partial<Layout> {
  if (recipe === undefined) return {};
  return {
    ...(recipe.decimal && { decimal: recipe.decimal }),
    ...(recipe.group !== undefined && { group: recipe.group }),
    ...(recipe.separator && { separator: recipe.separator as Separator }),
  };
}

function layoutAt(sample: readonly Line[], recipe: Recipe | undefined, known: Partial<Layout>): Layout | null {
  const skip = recipe?.skipLines ?? 0;
  const layout = layoutOf(
    sample.slice(skip).map(({ text }) => text),
    known,
  );
  return layout === null ? null : { ...layout, firstRow: layout.firstRow + skip };
}

interface Understood {
  readonly layout: Layout;
  /** Lines before the first row of numbers. */
  readonly head: readonly string[];
  readonly guessed: readonly Guess[];
  readonly recipe: Recipe | undefined;
}

function finish(read: TableRows, { layout, head, guessed, recipe }: Understood): Outcome<RecordTable> {
  const kept = guessed.filter(({ index }) => layout.numeric[index] ?? true);
  const meanings = settleMeanings(kept, read);
  const sampling = recipe?.sampling ?? samplingInHead(head);
  const outputs = meanings.filter((is) => is === "output" || is === "reference").length;
  const columns = kept.map((guess, i): RecordColumn => {
    const is = meanings[i]!;
    const values = read.columns[i]!;
    const alone = outputs === 1 && (is === "output" || is === "reference") ? unitInHead(head) : null;
    return {
      index: guess.index,
      heading: guess.heading,
      is,
      unit: guess.unit ?? (is === "time" ? unitBySampling(values, samplingOf(sampling)) : alone),
      values,
      missing: read.missing[i]!,
      clipping: is === "output" || is === "reference" ? clippingOf(values) : null,
    };
  });
  const lineOf = (row: number) => read.lines[row] ?? 0;
  const timeColumn = columns.find(({ is }) => is === "time");
  const { base, problems } =
    timeColumn !== undefined
      ? timeBaseOf(inSi(timeColumn), lineOf)
      : { base: samplingOf(sampling), problems: [] as readonly Problem[] };
  const understood: Recipe = {
    columns: columns.map(({ index, is, unit }) => ({ index, is, unit: unit ?? "" })),
    decimal: layout.decimal,
    ...(layout.group !== "" && { group: layout.group }),
    separator: layout.separator,
    skipLines: recipe?.skipLines ?? layout.firstRow,
    ...(timeColumn === undefined && sampling !== null && sampling !== undefined && { sampling }),
    ...(recipe?.use && { use: recipe.use }),
  };
  const table: RecordTable = {
    kind: "text",
    columns,
    rows: read.rows,
    time: base,
    recipe: understood,
    questions: [],
    faults: problems,
    lines: read.lines,
    head,
    datasets: [],
  };
  const questions = questionsOf(table, {
    unclear:
      told(recipe) || recipe?.separator !== undefined || recipe?.decimal !== undefined || named(columns)
        ? null
        : layout.unclear,
    told: told(recipe),
  });
  return answer({ ...table, questions }, remarksOf(table, read));
}
