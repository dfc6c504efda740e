/** A record as a project's specimen names it: its file, its recipe, its calibration, what it was driven with. */
import { answer, type Outcome, type Path, type Problem, refuse } from "../../problem.ts";
import type { Project } from "../../project/load.ts";
import type { KindName } from "../../quantity/kinds.ts";
import { readQuantity } from "../../quantity/read.ts";
import { type ColumnMeaning, columnMeanings, type Recipe } from "../../record/recipe.ts";
import { type BesideName, besideNames, type FitKind, type FitOptions, fitKinds, only } from "./fitKinds.ts";

/** What a project keeps of the options of a fit, as they are typed. */
export const toldKeys = [
  "level",
  "reference",
  "coupler",
  "ambient",
  "lightShare",
  "near",
  "gate",
  "at",
  "formula",
  "start",
] as const;
export type ToldOptions = { readonly [K in (typeof toldKeys)[number]]?: string } & {
  readonly line?: readonly string[];
};

export interface ProjectRecord {
  /** "a3/r1". */
  readonly id: string;
  readonly file: string;
  readonly recipe: Recipe | undefined;
  readonly options: FitOptions;
  /** What else the fit is told, as it is typed: { level: "94 dB" }. */
  readonly told: ToldOptions;
  /** Files of further records that it takes, beside the project. */
  readonly beside: readonly (readonly [BesideName, string])[];
  /** Sound pressure of the tone, root mean square [Pa]; null where it is not named. */
  readonly excitation: number | null;
  /** Parts of the microphone that were otherwise when it was taken, as the project writes them. */
  readonly conditions: { readonly film?: unknown } | null;
  /** What the project keeps of an earlier reading, and where the record stands in it. */
  readonly readings: NonNullable<FileRecord["readings"]>;
  readonly path: Path;
}

/** All records of a project, as "specimen/record". */
export function recordIds({ file }: Project): readonly string[] {
  return (file.specimens ?? []).flatMap((specimen, i) =>
    (specimen.records ?? []).map((record, k) => `${specimen.id ?? i}/${record.id ?? k}`),
  );
}

/** The record that `id` names ("a3/r1", or "r1" where it is the only one of that name); the only one where null. Problems: `record-unknown`, `record-without-file`. */
export function recordOf(project: Project, id: string | null): Outcome<ProjectRecord> {
  const ids = recordIds(project);
  const matching = id === null ? ids : ids.filter((one) => one === id || one.endsWith(`/${id}`));
  const [found] = matching;
  if (found === undefined || matching.length > 1)
    return refuse({
      code: "record-unknown",
      path: ["specimens"],
      message: `${id === null ? "No record was named" : `"${id}" names ${matching.length} records`}; the project has ${ids.length === 0 ? "none" : ids.join(", ")}. Needed: one of them.`,
    });
  const [specimenAt, recordAt] = place(project, found);
  const record = project.file.specimens![specimenAt]!.records![recordAt]!;
  if (record.file === undefined || record.file === "")
    return refuse({
      code: "record-without-file",
      path: ["specimens", specimenAt, "records", recordAt, "file"],
      message: `The record ${found} names no file; needed: its file, beside the project.`,
    });
  const remarks: Problem[] = [];
  const options = optionsOf(project, record, remarks);
  const excitation = record.conditions?.excitation;
  const pressure = typeof excitation === "string" ? quantity(excitation, "soundLevel") : undefined;
  return answer(
    {
      id: found,
      file: record.file,
      recipe: recipeOf(record.recipe),
      options,
      told: only<ToldOptions>(record.fit ?? {}),
      beside: besideNames.flatMap((name) => {
        const file = record.beside?.[name];
        return file === undefined ? [] : [[name, file] as const];
      }),
      excitation: pressure ?? null,
      conditions: record.conditions ?? null,
      readings: record.readings ?? {},
      path: ["specimens", specimenAt, "records", recordAt],
    },
    remarks,
  );
}

/** The first record of that file's name; null: the project has none. */
export function recordByFile(project: Project, name: string): ProjectRecord | null {
  for (const id of recordIds(project)) {
    const record = recordOf(project, id);
    if (record.ok && record.value.file.split("/").at(-1) === name) return record.value;
  }
  return null;
}

function place({ file }: Project, id: string): readonly [number, number] {
  for (const [i, specimen] of (file.specimens ?? []).entries())
    for (const [k, record] of (specimen.records ?? []).entries())
      if (`${specimen.id ?? i}/${record.id ?? k}` === id) return [i, k];
  throw new Error(`place: ${id} is not among the records`);
}

type FileRecord = NonNullable<NonNullable<NonNullable<Project["file"]["specimens"]>[number]["records"]>[number]>;

const quantity = (text: unknown, kind: KindName): number | undefined => {
  if (typeof text !== "string") return undefined;
  const read = readQuantity(text, kind, []);
  return read.ok ? read.value : undefined;
};

function recipeOf(recipe: FileRecord["recipe"]): Recipe | undefined {
  if (recipe === undefined) return undefined;
  const columns = (recipe.columns ?? []).flatMap((column) => {
    const is = columnMeanings.find((meaning) => meaning === column.is) as ColumnMeaning | undefined;
    return column.index === undefined || is === undefined ? [] : [{ index: column.index, is, unit: column.unit ?? "" }];
  });
  const { decimal, skipLines, separator, sampling, group, dataset } = recipe;
  return {
    columns,
    ...(decimal !== undefined && { decimal }),
    ...(skipLines !== undefined && { skipLines }),
    ...(separator !== undefined && { separator }),
    ...(typeof sampling === "string" && { sampling }),
    ...(group !== undefined && { group }),
    ...(dataset !== undefined && { dataset }),
  };
}

function optionsOf({ file }: Project, record: FileRecord, remarks: Problem[]): FitOptions {
  const kind = fitKinds.find((one) => one === record.kind) as FitKind | undefined;
  const part = record.recipe?.use;
  const end = (text: unknown) => quantity(text, "time") ?? quantity(text, "frequency") ?? quantity(text, "length");
  const [from, to] = [end(part?.from), end(part?.to)];
  const calibration = (file.calibrations ?? []).find(({ id }) => id !== undefined && id === record.calibration);
  const [low, high] = [quantity(calibration?.low, "voltage"), quantity(calibration?.high, "voltage")];
  if (record.calibration !== undefined && calibration === undefined)
    remarks.push({
      code: "calibration-unknown",
      path: ["calibrations"],
      message: `The record names the calibration "${record.calibration}", which the project does not have; volts are fitted.`,
    });
  return {
    ...(kind !== undefined && { kind }),
    ...(from !== undefined && { from }),
    ...(to !== undefined && { to }),
    ...(low !== undefined && high !== undefined && { calibration: { low, high } }),
  };
}
