/** A file's bytes to a table of numbers, with what was understood, what is unclear and what stands in the way. */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { isComment, type Separator } from "./cells.ts";
import { readText, textBetween } from "./encoding.ts";
import { headingRows, unitInHead } from "./headingRows.ts";
import { meaningOfHeading, meaningOfUnit, unitAlone, unitInHeading } from "./headings.ts";
import { type Layout, layoutOf } from "./layout.ts";
import { questionsOf } from "./questions.ts";
import type { ColumnMeaning, Recipe, RecipeColumn } from "./recipe.ts";
import { samplingInHead, samplingOf } from "./sampling.ts";
import { clippingOf } from "./signalChecks.ts";
import type { RecordColumn, RecordTable } from "./table.ts";
import { type Progress, type TableRows, tableRows } from "./tableRows.ts";
import { type TimeBase, timeBaseOf } from "./timeBase.ts";
import { inSi, unitFactor } from "./units.ts";
import { isWave, readWave } from "./wave.ts";

/** More columns than this are not read at once. */
export const mostColumns = 512;

/**
 * Reads delimited text or WAV. `recipe`: what is already known of the file; it wins over what the file seems to say.
 *
 * Remarks: `cells-missing`, `cells-unreadable`, `rows-ragged`, `last-line-cut`, `clipped`, `samples-dropped`, `time-rounded`, `wave-cut`.
 * Problems: `empty`, `container-elsewhere`, `not-text`, `no-numbers`, `too-many-columns`, `too-few-rows`, `unknown-column`, and those of `readWave`.
 */
export function* readRecord(bytes: Uint8Array, recipe?: Recipe): Generator<Progress, Outcome<RecordTable>> {
  if (bytes.length === 0)
    return refuse({
      code: "empty",
      path: [],
      message: "The file has no bytes; needed: a record. Was it saved before it was closed?",
    });
  if (isContainer(bytes))
    return refuse({
      code: "container-elsewhere",
      path: [],
      message:
        "This is an HDF5 container, and the reader of containers could not be loaded; needed: delimited text or WAV, or the page loaded again.",
    });
  if (isWave(bytes)) return yield* waveTable(bytes, recipe);
  const text = readText(bytes);
  if (text === null || looksPacked(bytes))
    return refuse({
      code: "not-text",
      path: [],
      message: `The file starts with bytes that are no text (${hex(bytes)}); needed: delimited text (CSV, TXT), WAV or HDF5. Export it again from the instrument's own program.`,
    });
  return yield* textTable(text.bytes, text.start, recipe);
}

/** HDF5 starts with these bytes. */
export const isContainer = (bytes: Uint8Array): boolean =>
  [0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a].every((byte, i) => bytes[i] === byte);

/** ZIP (and the workbooks in it), gzip, PDF, pictures. */
const looksPacked = (bytes: Uint8Array): boolean =>
  (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2]! < 9) ||
  (bytes[0] === 0x1f && bytes[1] === 0x8b) ||
  (bytes[0] === 0x25 && bytes[1] === 0x50 && bytes[2] === 0x44 && bytes[3] === 0x46) ||
  (bytes[0] === 0x89 && bytes[1] === 0x50) ||
  (bytes[0] === 0xff && bytes[1] === 0xd8);

const hex = (bytes: Uint8Array) =>
  Array.from(bytes.subarray(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join(" ");

const sampleBytes = 65536;
const sampleLines = 400;

function* textTable(
  bytes: Uint8Array,
  start: number,
  recipe: Recipe | undefined,
): Generator<Progress, Outcome<RecordTable>> {
  const known = knownLayout(recipe);
  const sample = linesOf(bytes, start, sampleBytes);
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

interface Line {
  readonly from: number;
  readonly text: string;
}

function linesOf(bytes: Uint8Array, start: number, most: number): readonly Line[] {
  const lines: Line[] = [];
  const end = Math.min(bytes.length, start + most);
  let from = start;
  let at = start;
  while (at < end && lines.length < sampleLines) {
    if (bytes[at] === 10 || bytes[at] === 13) {
      lines.push({ from, text: textBetween(bytes, from, at) });
      if (bytes[at] === 13 && bytes[at + 1] === 10) at += 1;
      from = at + 1;
    }
    at += 1;
  }
  // A last line that goes on beyond the sample counts only where it is all there is.
  if (from < end && (end === bytes.length || lines.length === 0) && lines.length < sampleLines) {
    let last = end;
    const far = Math.min(bytes.length, from + (1 << 22));
    while (last < far && bytes[last] !== 10 && bytes[last] !== 13) last += 1;
    lines.push({ from, text: textBetween(bytes, from, last) });
  }
  return lines;
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

/** Headings, units and meanings of the columns; what the recipe says of a column wins. */
function guessColumns(head: readonly string[], layout: Layout, recipe: Recipe | undefined): readonly Guess[] {
  const { names, units } = headingRows(head, layout);
  // Beside a column that is called y a column x is no place of a guide.
  const plainNames = names?.some((name) => /^y$/i.test(name)) === true;
  const asked = told(recipe) ? recipe!.columns.map(({ index }) => index) : undefined;
  return (asked ?? Array.from({ length: layout.columns }, (_, i) => i)).map((index) => {
    const heading = names?.[index] ?? "";
    const said = recipe?.columns.find((column) => column.index === index);
    const unit = said?.unit ?? unitAlone(units?.[index] ?? "") ?? unitInHeading(heading);
    const plain = plainNames && /^x\d*$/i.test(heading) ? ("x" as const) : null;
    const meaning = meaningOfHeading(heading);
    // A magnitude in decibels is a level.
    const worded = meaning === "magnitude" && unit === "dB" ? "level" : meaning;
    const is = said?.is ?? plain ?? worded ?? (unit === null ? null : meaningOfUnit(unit));
    return { index, heading, unit, is, said };
  });
}

/** The unit in which the steps of a time column agree with the sampling that the head names. */
function unitBySampling(times: Float64Array, said: TimeBase | null): string | null {
  if (said === null) return null;
  const mean = (times[times.length - 1]! - times[0]!) / (times.length - 1);
  return ["s", "ms", "us", "ns"].find((unit) => Math.abs((mean * unitFactor(unit)!) / said.step - 1) < 1e-3) ?? null;
}

interface Guess {
  readonly index: number;
  readonly heading: string;
  readonly unit: string | null;
  readonly is: ColumnMeaning | null;
  readonly said: RecipeColumn | undefined;
}

function finish(
  read: TableRows,
  {
    layout,
    head,
    guessed,
    recipe,
  }: {
    readonly layout: Layout;
    readonly head: readonly string[];
    readonly guessed: readonly Guess[];
    readonly recipe: Recipe | undefined;
  },
): Outcome<RecordTable> {
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

/** The recipe says what the columns are. */
const told = (recipe: Recipe | undefined): boolean => recipe !== undefined && recipe.columns.length > 0;

/** Each column has a name of its own: the cells are parted as they should be. */
const named = (columns: readonly RecordColumn[]): boolean =>
  columns.every(({ heading }) => heading !== "") &&
  new Set(columns.map(({ heading }) => heading)).size === columns.length;

const axes: ReadonlySet<ColumnMeaning> = new Set([
  "time",
  "frequency",
  "position",
  "thickness",
  "side",
  "gap",
  "bias",
  "analyzer",
  "compensator",
  "temperature",
  "wavelength",
  "x",
] as const);

/** Meanings that the headings leave open: the first rising column is the axis, the others are outputs. */
function settleMeanings(guesses: readonly Guess[], read: TableRows): readonly ColumnMeaning[] {
  // One column alone is what was measured.
  const given = guesses.map(({ is, said }) =>
    guesses.length === 1 && said === undefined && is !== "y" ? "output" : is,
  );
  const hasAxis = given.some((is) => is !== null && axes.has(is));
  let axis = hasAxis;
  // One heading that fits two columns is an axis only once.
  const seen = new Set<ColumnMeaning>();
  return given.map((is, i) => {
    if (is !== null) {
      if ((is === "time" || is === "frequency") && seen.has(is) && guesses[i]!.said === undefined) return "skip";
      seen.add(is);
      return is;
    }
    if (!axis && guesses.length > 1 && rises(read.columns[i]!)) {
      axis = true;
      return "time";
    }
    return "output";
  });
}

function rises(values: Float64Array): boolean {
  for (let i = 1; i < values.length; i++) if (!(values[i]! >= values[i - 1]!)) return false;
  return values.length > 1 && values[values.length - 1]! > values[0]!;
}

function remarksOf({ columns, time, lines }: RecordTable, read: TableRows): Problem[] {
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

const noNumbers = (sample: readonly Line[]): Problem => ({
  code: "no-numbers",
  path: ["line", 1],
  message: `No row of numbers was found in the first ${sample.length} lines; line 1 reads "${(sample.find(({ text }) => text.trim() !== "" && !isComment(text))?.text ?? sample[0]?.text ?? "").slice(0, 60)}". Needed: two rows or more of numbers, one record a row.`,
});

const tooFewRows = (rows: number, line: number): Problem => ({
  code: "too-few-rows",
  path: ["line", line],
  message: `Rows of numbers found: ${rows} (line ${line}); needed: two or more, one for each sample.`,
});

const unknownColumn = (index: number, columns: number): Problem => ({
  code: "unknown-column",
  path: ["columns", index],
  message: `The recipe names column ${index} (from 0), the file has ${columns}.`,
});

function* waveTable(bytes: Uint8Array, recipe: Recipe | undefined): Generator<Progress, Outcome<RecordTable>> {
  const read = yield* readWave(bytes, true);
  if (!read.ok) return read;
  const { channels, sampling, bits } = read.value;
  const rows = channels[0]?.length ?? 0;
  if (rows < 2) return refuse(tooFewRows(rows, 1));
  const asked =
    (told(recipe) ? recipe!.columns : undefined) ??
    channels.map((_, index): RecipeColumn => ({ index, is: index === 0 ? "output" : "reference", unit: "" }));
  const beyond = asked.filter(({ index }) => index >= channels.length);
  if (beyond.length > 0) return refuse(...beyond.map(({ index }) => unknownColumn(index, channels.length)));
  const columns = asked.map(
    ({ index, is, unit }): RecordColumn => ({
      index,
      heading: `channel ${index + 1}`,
      is,
      unit,
      values: channels[index]!,
      missing: 0,
      clipping: clippingOf(channels[index]!),
    }),
  );
  const time: TimeBase = { start: 0, step: 1 / sampling, sampling, jitter: 0, gaps: [], rounded: false, spacing: 0 };
  const table: RecordTable = {
    kind: "wave",
    columns,
    rows,
    time,
    recipe: { columns: asked, ...(recipe?.use && { use: recipe.use }) },
    questions: [],
    faults: [],
    lines: null,
    head: [`${channels.length} channels, ${bits} bits, ${sampling} Hz`],
    datasets: [],
  };
  const clipped = columns.flatMap(({ index, clipping }): Problem[] =>
    clipping === null
      ? []
      : [
          {
            code: "clipped",
            path: ["columns", index],
            message: `Channel ${index + 1} is clipped: ${clipping.upper + clipping.lower} samples at its stops, first sample ${clipping.first + 1}. A fit must start after it; better lower the gain and record again.`,
          },
        ],
  );
  return answer(table, [...read.remarks, ...clipped]);
}
