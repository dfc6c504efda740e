/** A fit with what the project adds: the predicted curve under a scan, which effects the drive level allows. */
import type { Engine } from "../../microphone/engine.ts";
import { answer, type Outcome } from "../../problem.ts";
import { changeValue, type Project } from "../../project/load.ts";
import type { RecordTable } from "../../record/table.ts";
import { predict } from "../predict/predict.ts";
import { type Explanation, explainRingDown } from "./explain.ts";
import type { FitOptions, FittedRecord } from "./fitKinds.ts";
import { fitTable, kindFor } from "./fitTable.ts";
import { curveWanted, predictedCurve } from "./predictedCurve.ts";

export interface FitQuestion {
  readonly table: RecordTable;
  readonly options?: FitOptions;
  /** The project that the record belongs to; null: a bare file. */
  readonly project?: Project | null;
  /** Sound pressure of the tone, root mean square [Pa]; null where it is not known. */
  readonly excitation?: number | null;
  /** What was otherwise when the record was taken: `film: null` for a diaphragm without its air film. */
  readonly conditions?: { readonly film?: unknown } | null;
  /** Keeps shapes between fits; a new one for each where absent. */
  readonly engine?: Engine;
}

export interface ExplainedFit extends FittedRecord {
  /** null: no ring-down, or no project. */
  readonly explanation: Explanation | null;
}

/** Fits a record of a project, or a bare one. Problems and remarks: those of `fitTable` and of `explainRingDown`. */
export function fitRecord({
  table,
  options = {},
  project = null,
  excitation = null,
  conditions = null,
  engine,
}: FitQuestion): Outcome<ExplainedFit> {
  const asTaken = project === null ? null : underConditions(project, conditions);
  const fitted = fitTable(table, asTaken === null ? options : withCurves(asTaken, table, options, engine));
  if (!fitted.ok) return fitted;
  const { reading } = fitted.value;
  const explanation =
    asTaken !== null && reading.kind === "ring-down" ? explainRingDown(asTaken, reading, excitation, engine) : null;
  return answer({ ...fitted.value, explanation }, [...fitted.remarks, ...(explanation?.remarks ?? [])]);
}

/** The microphone as it was when the record was taken. */
function underConditions(project: Project, conditions: FitQuestion["conditions"]): Project {
  if (conditions === null || conditions === undefined || conditions.film !== null) return project;
  const bare = changeValue(project, "microphone.film", "null");
  return bare.ok ? bare.value : project;
}

/** The options with what the project predicts under a scan, or over what was varied between specimens. */
function withCurves(project: Project, table: RecordTable, options: FitOptions, engine: Engine | undefined): FitOptions {
  const kind = kindFor(table, options);
  if (kind === "scan" && options.curve === undefined) {
    const curve = scanCurve(project, engine);
    return curve === null ? options : { ...options, curve };
  }
  // A power law that is asked for by its name is no curve.
  const wanted = kind === "curve" || (kind === "power-law" && options.kind === undefined) ? curveWanted(table) : null;
  if (wanted === null || options.predicted !== undefined) return options;
  const predicted = predictedCurve(project, wanted, engine);
  return predicted === null ? options : { ...options, predicted };
}

/** The static curve alone is wanted: one frequency is enough. */
function scanCurve(project: Project, engine: Engine | undefined): NonNullable<FitOptions["curve"]> | null {
  const predicted = predict(project, {
    frequencies: [1000],
    ...(engine !== undefined && { engine, manner: "quick" as const }),
  });
  if (!predicted.ok) return null;
  const { at, value } = predicted.value.sensitivity.scan;
  const half = at.flatMap((place, i) => (place >= 0 ? [i] : []));
  return { position: half.map((i) => at[i]!), sensitivity: half.map((i) => value[i]!) };
}
