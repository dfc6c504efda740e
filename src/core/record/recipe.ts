/** How a file was understood: kept with the record, so that the next reading, or the next file of the same kind, needs no asking. */

/**
 * What a column can hold. "dark" to "fieldOn": null records (light blocked, one mode launched, bias at +90 and -90 degrees, hole
 * plugged, site field off and on). "group": number of a specimen. "x", "y": plain numbers. "skip": nothing that is used.
 */
export const columnMeanings = [
  "time",
  "frequency",
  "output",
  "reference",
  "level",
  "magnitude",
  "phase",
  "real",
  "imaginary",
  "coherence",
  "standard",
  "position",
  "thickness",
  "side",
  "gap",
  "sensitivity",
  "resonance",
  "dampingRatio",
  "bias",
  "analyzer",
  "compensator",
  "temperature",
  "wavelength",
  "dark",
  "oneMode",
  "plus",
  "minus",
  "plugged",
  "fieldOff",
  "fieldOn",
  "group",
  "x",
  "y",
  "skip",
] as const;
export type ColumnMeaning = (typeof columnMeanings)[number];

export interface RecipeColumn {
  /** From 0. */
  readonly index: number;
  readonly is: ColumnMeaning;
  /** As written: "ms"; "" for a plain number. */
  readonly unit: string;
}

export interface Recipe {
  readonly columns: readonly RecipeColumn[];
  readonly decimal?: "." | ",";
  /** Mark between groups of three digits; none where absent. */
  readonly group?: string;
  /** ";", ",", "|", "tab", "space" (any run of spaces or tabs). */
  readonly separator?: string;
  /** Lines before the first row of numbers. */
  readonly skipLines?: number;
  /** Samples per second, where no column holds the time: "96 kHz". */
  readonly sampling?: string;
  /** Data set of a container: "/run1/phase". */
  readonly dataset?: string;
  /** Part that is used: "1 ms" to "9 ms". */
  readonly use?: { readonly from?: string; readonly to?: string };
}
