/** A record as it was read, whatever file it came from: columns of numbers, what they seem to be, what is unclear. */
import type { Problem } from "../problem.ts";
import type { ColumnMeaning, Recipe } from "./recipe.ts";
import type { Clipping } from "./signalChecks.ts";
import type { TimeBase } from "./timeBase.ts";

export interface RecordColumn {
  /** From 0, in the file. */
  readonly index: number;
  /** As the file names it; "" without a name. */
  readonly heading: string;
  readonly is: ColumnMeaning;
  /** As written; "" for a plain number, null where the file does not say and nobody was told yet. */
  readonly unit: string | null;
  /** In that unit; a missing cell is NaN. */
  readonly values: Float64Array;
  readonly missing: number;
  readonly clipping: Clipping | null;
}

/** What must be asked: a problem with answers to choose from, for the key of the recipe that its path names. */
export interface Question extends Problem {
  readonly choices: readonly string[];
}

export interface RecordTable {
  readonly kind: "text" | "wave" | "container";
  readonly columns: readonly RecordColumn[];
  readonly rows: number;
  /** null: no time column and no sampling. */
  readonly time: TimeBase | null;
  /** How the file was understood; hand it back to read the same way. */
  readonly recipe: Recipe;
  readonly questions: readonly Question[];
  /** What must be settled before a fit; each names its line. */
  readonly faults: readonly Problem[];
  /** Line of a row, from 1; null for files without lines. */
  readonly lines: Int32Array | null;
  /** Lines before the numbers, as they stand. */
  readonly head: readonly string[];
  /** Data sets of a container to choose from. */
  readonly datasets: readonly string[];
}
