/** What each column holds: by the recipe, its heading and unit, and where these leave it open by what its numbers do. */
import { headingRows } from "./headingRows.ts";
import { meaningOfHeading, meaningOfUnit, unitAlone, unitInHeading } from "./headings.ts";
import type { Layout } from "./layout.ts";
import type { ColumnMeaning, Recipe, RecipeColumn } from "./recipe.ts";
import type { RecordColumn } from "./table.ts";
import type { TableRows } from "./tableRows.ts";
import type { TimeBase } from "./timeBase.ts";
import { unitFactor } from "./units.ts";

/** What a column seems to hold before its numbers are read. */
export interface Guess {
  /** From 0. */
  readonly index: number;
  readonly heading: string;
  /** As written; null: none is named. */
  readonly unit: string | null;
  /** null: left open. */
  readonly is: ColumnMeaning | null;
  /** What the recipe says of it. */
  readonly said: RecipeColumn | undefined;
}

/** Headings, units and meanings of the columns; what the recipe says of a column wins. */
export function guessColumns(head: readonly string[], layout: Layout, recipe: Recipe | undefined): readonly Guess[] {
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
export function unitBySampling(times: Float64Array, said: TimeBase | null): string | null {
  if (said === null) return null;
  const mean = (times[times.length - 1]! - times[0]!) / (times.length - 1);
  return ["s", "ms", "us", "ns"].find((unit) => Math.abs((mean * unitFactor(unit)!) / said.step - 1) < 1e-3) ?? null;
}

/** The recipe says what the columns are. */
export const told = (recipe: Recipe | undefined): boolean => recipe !== undefined && recipe.columns.length > 0;

/** Each column has a name of its own: the cells are parted as they should be. */
export const named = (columns: readonly RecordColumn[]): boolean =>
  columns.every(({ heading }) => heading !== "") &&
  new Set(columns.map(({ heading }) => heading)).size === columns.length;

/** What a table runs over. */
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
export function settleMeanings(guesses: readonly Guess[], read: TableRows): readonly ColumnMeaning[] {
  // One column alone is what was measured.
  const given = guesses.map(({ is, said }) =>
    guesses.length === 1 && said === undefined && is !== "y" ? "output" : is,
  );
  let axis = given.some((is) => is !== null && axes.has(is));
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
