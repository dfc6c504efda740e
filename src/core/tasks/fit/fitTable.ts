/** A record's table to values with uncertainty, by the kind of the record. */
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import type { Question, RecordTable } from "../../record/table.ts";
import { type FitKind, type FitOptions, type FittedRecord, fitKinds, type Part } from "./fitKinds.ts";
import { ofBiasSweep, ofNull, ofSensitivity } from "./ofCalibration.ts";
import { ofExcitation } from "./ofExcitation.ts";
import { ofPlain, plainKinds } from "./ofPlain.ts";
import { ofCurve, ofPowerLaw, ofScan } from "./ofScans.ts";
import { ofResponse, ofRingDown } from "./ofTone.ts";
import { partOfTable } from "./partOfTable.ts";
import { columnOf, named } from "./signal.ts";

/**
 * Fits a record.
 *
 * Problems: `question-open` for each question whose answer changes the result, `kind-unclear`, `no-output`, `no-time`,
 * `no-frequency`, `no-curve`, `pressure-unknown`, `null-records-missing`, faults of the record, and those of the fit.
 * Remarks: those of the fit and of the signal.
 */
export function fitTable(table: RecordTable, options: FitOptions = {}): Outcome<FittedRecord> {
  const kind = kindFor(table, options);
  const open = table.questions.filter((question) => stands(question, table, kind));
  if (open.length > 0) return refuse(...open.map(asProblem));
  if (kind === null)
    return refuse({
      code: "kind-unclear",
      path: ["kind"],
      message: `Columns found: ${named(table)}; they fit no kind of record. Name the kind: ${fitKinds.join(", ")}.`,
    });
  // What is told of the axis is a time only where the axis is one.
  const timed = kind === "ring-down" || kind === "sensitivity";
  const fitted = byKind[kind](timed ? partOfTable(table, options.from, options.to) : table, options);
  if (!fitted.ok) return fitted;
  const questions = plainKinds.has(kind) ? [] : table.questions;
  return answer({ response: null, readAs: table, ...fitted.value, questions }, fitted.remarks);
}

/** What the reader said of the file, without what a fit of this kind does not ask: plain numbers have no time base. */
export const remarksOfTable = (remarks: readonly Problem[], kind: FitKind): readonly Problem[] =>
  plainKinds.has(kind) ? remarks.filter(({ code }) => !timeRemarks.has(code)) : remarks;

const timeRemarks: ReadonlySet<string> = new Set(["samples-dropped", "time-rounded", "clipped"]);

/** The unit of an output changes its size, not its damping; plain fits go by the numbers; everything else changes the answer. */
function stands({ code, path }: Question, { columns }: RecordTable, kind: FitKind | null): boolean {
  if (plainKinds.has(kind)) return code === "separator-unclear" || code === "decimal-unclear";
  if (code !== "unit-unclear") return true;
  const is = columns[Number(path[1])]?.is;
  if (is === "compensator") return false;
  return (
    is === undefined || !["output", "reference", "level"].includes(is) || (kind === "sensitivity" && is !== "level")
  );
}

const asProblem = ({ path, message, choices }: Question): Problem => ({
  code: "question-open",
  path,
  message: `${message} Possible: ${choices.join(", ")}.`,
});

/** Numbers alone, over one predictor, or over several. */
function kindOfPlain({ columns }: RecordTable): FitKind {
  const used = columns.filter(({ is }) => is !== "skip" && is !== "standard").length;
  return used === 1 ? "statistics" : used === 2 ? "polynomial" : "linear";
}

/** As told, by a formula or a predicted curve that is given, or by the columns. */
export function kindFor(table: RecordTable, { kind, formula, predicted }: FitOptions): FitKind | null {
  if (kind !== undefined) return kind;
  if (formula !== undefined) return "formula";
  const told = kindOf(table);
  return told === "power-law" && predicted !== undefined ? "curve" : told;
}

/** What kind of record a table is, by what its columns hold; null where they don't say. */
export function kindOf(table: RecordTable): FitKind | null {
  const has = (...meanings: Parameters<typeof columnOf>[1][]) => columnOf(table, ...meanings) !== undefined;
  if (has("minus") && has("dark")) return "null";
  if (has("frequency")) return has("time") && has("reference") ? "tones" : "response";
  if (has("bias", "analyzer", "compensator") || (has("temperature", "wavelength") && !has("time"))) return "bias-sweep";
  if (has("position")) return "scan";
  if (has("thickness", "side", "gap")) return "power-law";
  if (has("y")) return kindOfPlain(table);
  if (table.time !== null || has("time")) return "ring-down";
  return null;
}

const byKind: { readonly [K in FitKind]: (table: RecordTable, options: FitOptions) => Outcome<Part> } = {
  "ring-down": ofRingDown,
  response: ofResponse,
  noise: (table, options) => ofExcitation(table, options, "noise"),
  sweep: (table, options) => ofExcitation(table, options, "sweep"),
  tones: (table, options) => ofExcitation(table, options, "tones"),
  scan: ofScan,
  curve: ofCurve,
  "power-law": ofPowerLaw,
  "bias-sweep": ofBiasSweep,
  sensitivity: ofSensitivity,
  null: ofNull,
  polynomial: (table, options) => ofPlain(table, options, "polynomial"),
  linear: (table, options) => ofPlain(table, options, "linear"),
  formula: (table, options) => ofPlain(table, options, "formula"),
  statistics: (table, options) => ofPlain(table, options, "statistics"),
};
