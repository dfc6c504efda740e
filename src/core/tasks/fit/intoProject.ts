/** A fit written into a project: the record of a specimen, with how its file is read and what it says; kept readings held against new ones. */
import { type Outcome, type Problem, refuse } from "../../problem.ts";
import { changeValue, type Project } from "../../project/load.ts";
import { plainQuantity } from "../../quantity/format.ts";
import type { KindName } from "../../quantity/kinds.ts";
import { readQuantity } from "../../quantity/read.ts";
import type { ReadValue } from "../../reading/reading.ts";
import type { Recipe } from "../../record/recipe.ts";
import type { BesideName, Reading } from "./fitKinds.ts";
import type { ToldOptions } from "./projectRecord.ts";

export interface NewReading {
  /** Name or id of the specimen; made where there is none. */
  readonly specimen: string;
  /** Name of the record's file, beside the project. */
  readonly file: string;
  readonly sha256?: string;
  readonly kind: string;
  readonly recipe: Recipe;
  /** Part that was told, as the project writes it. */
  readonly use?: { readonly from?: string; readonly to?: string };
  readonly calibration?: string;
  /** Further files that the fit took, beside the project. */
  readonly beside?: { readonly [K in BesideName]?: string };
  /** What the fit was told, as it was typed. */
  readonly told?: ToldOptions;
  readonly excitation?: string;
  readonly reading: Reading;
}

/** Kinds of values that are no plain numbers. */
const kinds: Readonly<Record<string, KindName>> = {
  frequency: "frequency",
  offset: "length",
  half: "voltage",
  middle: "voltage",
  pressure: "soundLevel",
};

const isReadValue = (value: unknown): value is ReadValue =>
  typeof value === "object" && value !== null && "standardUncertainty" in value;

/**
 * The project with that record in the specimen: over the one of the same file, else as a new one. The rest of its text stays.
 * Problems: `specimen-unnamed`, those of `changeValue`.
 */
export function intoProject(project: Project, given: NewReading): Outcome<Project> {
  const name = given.specimen.trim();
  if (name === "")
    return refuse({
      code: "specimen-unnamed",
      path: ["specimen"],
      message: "No specimen is named; needed: its name, such as A3.",
    });
  const specimens = project.file.specimens ?? [];
  const found = specimens.findIndex(({ id, name: called }) => id === name || called === name);
  const at = found >= 0 ? found : specimens.length;
  const records = specimens[at]?.records ?? [];
  const same = records.findIndex(({ file }) => file === given.file);
  const before = records[same];
  const record = { ...before, ...recordOf(given, before?.id ?? freeId(records.map(({ id }) => id))) };
  if (found >= 0)
    return changeValue(
      project,
      ["specimens", at, "records", same >= 0 ? same : records.length],
      JSON.stringify(record),
    );
  const ids = specimens.map(({ id }) => id);
  const plain =
    name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "") || "specimen";
  const id = ids.includes(plain) ? `${plain}-${specimens.length + 1}` : plain;
  return changeValue(project, ["specimens", at], JSON.stringify({ id, name, design: "now", records: [record] }));
}

function recordOf(given: NewReading, id: string) {
  const { file, sha256, kind, recipe, use, calibration, beside = {}, told = {}, excitation, reading } = given;
  return {
    id,
    kind,
    file,
    ...(sha256 !== undefined && { sha256 }),
    ...(excitation !== undefined && { conditions: { excitation } }),
    recipe: { ...recipe, ...(use && { use }) },
    ...(calibration !== undefined && { calibration }),
    ...(Object.keys(beside).length > 0 && { beside }),
    ...(Object.keys(told).length > 0 && { fit: told }),
    readings: readingsOf(reading),
  };
}

function freeId(ids: readonly (string | undefined)[]): string {
  let number = ids.length + 1;
  while (ids.includes(`r${number}`)) number += 1;
  return `r${number}`;
}

/** "dampingRatio": { "value": 0.0181, "standard": 0.0004, "by": "fit" }: as many digits as the uncertainty deserves, and one more. */
export function readingsOf(reading: Reading): Readonly<Record<string, object>> {
  const entries = Object.entries(reading.values).flatMap(([key, value]: [string, unknown]) =>
    isReadValue(value) ? [[key, written(key, value)] as const] : [],
  );
  return Object.fromEntries(entries);
}

function written(key: string, { value, standardUncertainty }: ReadValue) {
  const kind = kinds[key];
  const standard = standardUncertainty === null || !(standardUncertainty > 0) ? null : standardUncertainty;
  const digits = standard === null ? 6 : digitsFor(value, standard);
  if (kind === undefined)
    return {
      value: Number(value.toPrecision(digits)),
      ...(standard !== null && { standard: Number(standard.toPrecision(3)) }),
      by: "fit",
    };
  // Both in the SI unit of the kind, so that they can be read side by side.
  const text = (number: number, places: number) => plainQuantity(number, kind, { digits: places });
  return {
    value: text(value, digits),
    ...(standard !== null && kind !== "soundLevel" && { standard: text(standard, 3) }),
    by: "fit",
  };
}

const digitsFor = (value: number, standard: number): number =>
  Math.min(15, Math.max(3, 3 + Math.ceil(Math.log10(Math.max(Math.abs(value), standard) / standard))));

/**
 * What a project keeps of readings, held against a new fit. Remarks: `reading-differs` for each that moved by more than a
 * third of its standard uncertainty, or of the last digits kept.
 */
export function againstKept(
  kept: Readonly<
    Record<string, { readonly value?: string | number | undefined; readonly standard?: string | number | undefined }>
  >,
  reading: Reading,
  path: Problem["path"],
): Problem[] {
  return Object.entries(reading.values).flatMap(([key, value]: [string, unknown]) => {
    const before = kept[key];
    if (before?.value === undefined || !isReadValue(value)) return [];
    const kind = kinds[key];
    const inSi = (given: string | number | undefined) => {
      if (typeof given !== "string") return given ?? null;
      const read = readQuantity(given, kind ?? "number", []);
      return read.ok ? read.value : null;
    };
    const [was, standard] = [inSi(before.value), inSi(before.standard)];
    if (was === null) return [];
    const allowed = Math.max((standard ?? 0) / 3, (value.standardUncertainty ?? 0) / 3, 1e-5 * Math.abs(was));
    if (Math.abs(value.value - was) <= allowed) return [];
    return [
      {
        code: "reading-differs",
        path: [...path, "readings", key],
        message: `The project keeps ${key} = ${before.value}; the record now reads ${value.value.toPrecision(5)}${value.standardUncertainty === null ? "" : ` (standard uncertainty ${value.standardUncertainty.toPrecision(2)})`}. Keep the new one, or find what changed: recipe, part used, calibration.`,
      },
    ];
  });
}
