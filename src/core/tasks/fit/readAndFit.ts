/** A file's bytes to all that a page shows of it: what was understood, a picture, and the fit with its evidence. Plain data. */
import type { Engine } from "../../microphone/engine.ts";
import { answer, type Outcome, type Problem } from "../../problem.ts";
import type { Project } from "../../project/load.ts";
import type { ContainerReader } from "../../record/container.ts";
import { decimated } from "../../record/decimate.ts";
import { isContainer } from "../../record/fileKind.ts";
import { readRecord } from "../../record/readRecord.ts";
import type { ColumnMeaning, Recipe } from "../../record/recipe.ts";
import type { Question, RecordTable } from "../../record/table.ts";
import type { Progress } from "../../record/tableRows.ts";
import { inSi } from "../../record/units.ts";
import type { Explanation } from "./explain.ts";
import type { BesideName, FitCurve, FitKind, FitOptions, FittedRecord, Reading } from "./fitKinds.ts";
import { fitRecord } from "./fitRecord.ts";
import { kindOf, remarksOfTable } from "./fitTable.ts";
import { againstKept } from "./intoProject.ts";
import { recordByFile } from "./projectRecord.ts";
import { columnOf } from "./signal.ts";

export interface UnderstoodColumn {
  readonly index: number;
  readonly heading: string;
  readonly is: ColumnMeaning;
  readonly unit: string | null;
  readonly missing: number;
  readonly clipped: number;
}

export interface Understood {
  readonly kind: RecordTable["kind"];
  readonly rows: number;
  readonly columns: readonly UnderstoodColumn[];
  /** [Hz]; null: none known. */
  readonly sampling: number | null;
  readonly recipe: Recipe;
  readonly questions: readonly Question[];
  readonly faults: readonly Problem[];
  readonly head: readonly string[];
  /** Data sets of a container to choose from. */
  readonly datasets: readonly string[];
  /** What the columns make of it; null: nothing that is known. */
  readonly fitKind: FitKind | null;
}

/** Points to draw. */
export interface Drawn {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

export interface ShownFit {
  /** Without its arrays. */
  readonly reading: Reading;
  readonly axis: FitCurve["axis"];
  readonly unit: string;
  readonly measured: Drawn;
  readonly model: Drawn;
  readonly residuals: Drawn;
  readonly explanation: Explanation | null;
}

export interface RecordAnswer {
  readonly understood: Understood;
  /** The whole record, in SI along its axis; null: nothing to draw. */
  readonly picture: (Drawn & { readonly axis: FitCurve["axis"]; readonly unit: string }) | null;
  /** The whole response that noise, a sweep or stepped tones gave, and the part of it that was fitted [Hz]. */
  readonly response: (Drawn & { readonly used: { readonly from: number; readonly to: number } }) | null;
  readonly fit: ShownFit | null;
  /** Why there is no fit. */
  readonly problems: readonly Problem[];
  readonly remarks: readonly Problem[];
}

/** A file and what was said of it; null: it speaks for itself. */
export interface RecordFile {
  readonly bytes: Uint8Array;
  readonly recipe: Recipe | null;
}

/** Stretches of a picture: each gives two points. */
const stretches = 700;

/** Reads and fits. Problems: those of `readRecord`. */
export function* readAndFit(
  bytes: Uint8Array,
  {
    recipe,
    options,
    project,
    excitation,
    engine,
    containerReader,
    beside = {},
    name = null,
  }: {
    readonly recipe: Recipe | null;
    readonly options: FitOptions;
    readonly project: Project | null;
    readonly excitation: number | null;
    readonly engine?: Engine;
    /** Reads HDF5 containers; without it they are refused. */
    readonly containerReader?: ContainerReader;
    /** The file's own name: what the project keeps of an earlier reading is held against this one. */
    readonly name?: string | null;
    /** Files of further records that the fit takes. */
    readonly beside?: { readonly [K in BesideName]?: RecordFile };
  },
): Generator<Progress, Outcome<RecordAnswer>> {
  const table = yield* tableOf({ bytes, recipe }, containerReader);
  if (!table.ok) return table;
  yield { done: bytes.length, of: bytes.length };
  const others = yield* tablesOf(beside, containerReader);
  if (!others.ok) return others;
  const fitted = fitRecord({
    table: table.value,
    options: { ...options, beside: others.value },
    project,
    excitation,
    ...(engine && { engine }),
  });
  const understood = understoodOf(table.value);
  const shown = { understood, picture: pictureOf(table.value, options.channel) };
  if (!fitted.ok)
    return answer({ ...shown, response: null, fit: null, problems: fitted.problems, remarks: table.remarks });
  const { reading, curve, explanation } = fitted.value;
  return answer({
    ...shown,
    // A project makes readings over several specimens a matter of its own curve.
    ...(reading.kind === "curve" && { understood: { ...understood, fitKind: reading.kind } }),
    response: drawnResponse(fitted.value),
    fit: { reading: withoutArrays(reading), axis: curve.axis, unit: curve.unit, ...drawnFit(curve), explanation },
    problems: [],
    remarks: [
      ...remarksOfTable(table.remarks, reading.kind),
      ...fitted.remarks,
      ...keptRemarks(project, name, reading),
    ],
  });
}

function tableOf(
  { bytes, recipe }: RecordFile,
  containerReader: ContainerReader | undefined,
): Generator<Progress, Outcome<RecordTable>> {
  if (containerReader === undefined || !isContainer(bytes)) return readRecord(bytes, recipe ?? undefined);
  // biome-ignore lint/correctness/useYield: a container is read in one step
  return (function* () {
    return containerReader(bytes, recipe ?? undefined);
  })();
}

function* tablesOf(
  files: { readonly [K in BesideName]?: RecordFile },
  containerReader: ContainerReader | undefined,
): Generator<Progress, Outcome<NonNullable<FitOptions["beside"]>>> {
  const tables: [string, RecordTable][] = [];
  for (const [name, file] of Object.entries(files)) {
    const table = yield* tableOf(file, containerReader);
    if (!table.ok) return table;
    tables.push([name, table.value]);
  }
  return answer(Object.fromEntries(tables));
}

function keptRemarks(project: Project | null, name: string | null, reading: Reading): Problem[] {
  const kept = project === null || name === null ? null : recordByFile(project, name);
  return kept === null ? [] : againstKept(kept.readings, reading, kept.path);
}

function understoodOf(table: RecordTable): Understood {
  return {
    kind: table.kind,
    rows: table.rows,
    columns: table.columns.map(({ index, heading, is, unit, missing, clipping }) => ({
      index,
      heading,
      is,
      unit,
      missing,
      clipped: clipping === null ? 0 : clipping.upper + clipping.lower,
    })),
    sampling: table.time?.sampling ?? null,
    recipe: table.recipe,
    questions: table.questions,
    faults: table.faults,
    head: table.head.slice(0, 12),
    datasets: table.datasets,
    fitKind: kindOf(table),
  };
}

function pictureOf(table: RecordTable, channel: number | undefined): RecordAnswer["picture"] {
  const y =
    table.columns.find(({ index }) => index === channel) ??
    columnOf(
      table,
      "output",
      "magnitude",
      "level",
      "sensitivity",
      "real",
      "dampingRatio",
      "resonance",
      "phase",
      "reference",
      "plus",
      "y",
    );
  if (y === undefined) return null;
  const [axis, column] = axisOf(table);
  const values = inSi(y);
  const kept = decimated(values, stretches);
  const places = column === undefined ? null : inSi(column);
  const step = table.time?.step ?? 1;
  const at = (i: number) => places?.[i] ?? i * step;
  const finite = Array.from(kept).filter((i) => Number.isFinite(at(i)) && Number.isFinite(values[i]!));
  return { axis, unit: y.unit ?? "", x: finite.map(at), y: finite.map((i) => values[i]!) };
}

function axisOf(table: RecordTable): readonly [FitCurve["axis"], ReturnType<typeof columnOf>] {
  for (const [axis, ...meanings] of [
    ["frequency", "frequency"],
    ["time", "time"],
    ["position", "position"],
    ["bias", "bias", "analyzer"],
    ["length", "thickness", "side", "gap", "wavelength"],
    ["temperature", "temperature"],
    ["other", "compensator", "x"],
  ] as const) {
    const column = columnOf(table, ...meanings);
    if (column !== undefined) return [axis, column];
  }
  return [table.time === null ? "other" : "time", undefined];
}

function drawnFit({ x, measured, model }: FitCurve): Pick<ShownFit, "measured" | "model" | "residuals"> {
  const rest = measured.map((value, i) => value - model[i]!);
  const drawn = (kept: Int32Array, y: Float64Array): Drawn => {
    const finite = Array.from(kept).filter((i) => Number.isFinite(y[i]!));
    return { x: finite.map((i) => x[i]!), y: finite.map((i) => y[i]!) };
  };
  return {
    measured: drawn(decimated(measured, stretches), measured),
    model: drawn(decimated(model, stretches), model),
    residuals: drawn(decimated(rest, stretches), rest),
  };
}

function drawnResponse({ response, reading }: FittedRecord): RecordAnswer["response"] {
  if (response === null || !("used" in reading)) return null;
  const { frequency, re, im } = response;
  const size = re.map((value, i) => Math.hypot(value, im[i]!));
  const kept = Array.from(decimated(size, stretches)).filter((i) => Number.isFinite(size[i]!));
  const { from, to } = reading.used;
  return { x: kept.map((i) => frequency[i]!), y: kept.map((i) => size[i]!), used: { from, to } };
}

/** The model stands in the picture; a message to a page needs it no second time. */
function withoutArrays(reading: Reading): Reading {
  const none = new Float64Array(0);
  if (reading.kind === "response") return { ...reading, model: { frequency: none, re: none, im: none } };
  return "model" in reading ? { ...reading, model: none } : reading;
}
