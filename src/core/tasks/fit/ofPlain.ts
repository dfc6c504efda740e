/** Plain tables of numbers, in the units of the file: polynomial, plane, typed formula, statistics. */
import { answer, type Outcome, refuse } from "../../problem.ts";
import {
  type PlainReading,
  readByFormula,
  readPlane,
  readPolynomial,
  readStatistics,
} from "../../reading/plainFits.ts";
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import type { FitOptions, Part } from "./fitKinds.ts";
import { chosenColumn, columnOf, named } from "./signal.ts";

export type PlainKind = PlainReading["kind"];

/** Rows in which a number is missing are left out; the reader has said where. Problems: `no-output`, those of the fits. */
export function ofPlain(table: RecordTable, options: FitOptions, kind: PlainKind): Outcome<Part> {
  const { degree, formula, start = {}, throughZero, from, to } = options;
  const used = table.columns.filter(({ is }) => is !== "skip" && is !== "standard");
  const y = chosenColumn(table, options.channel) ?? columnOf(table, "y") ?? measured(table, used);
  const predictors = used.filter((column) => column !== y);
  const [first] = predictors;
  if (y === undefined || (first === undefined && kind !== "statistics"))
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: ${kind === "statistics" ? "one with the numbers" : 'the predictors and what was measured, such as "1=x, 2=y"'}.`,
    });
  const weights = columnOf(table, "standard");
  const needed = [y, ...(kind === "statistics" ? [] : predictors), ...(weights ? [weights] : [])];
  const inside = (value: number) =>
    value >= (from ?? Number.NEGATIVE_INFINITY) && value <= (to ?? Number.POSITIVE_INFINITY);
  const rows = Array.from(y.values.keys()).filter(
    (row) =>
      needed.every(({ values }) => Number.isFinite(values[row]!)) &&
      (first === undefined || inside(first.values[row]!)),
  );
  const picked = ({ values }: RecordColumn) => Float64Array.from(rows, (row) => values[row]!);
  const [x, seen] = [first === undefined ? Float64Array.from(rows) : picked(first), picked(y)];
  const standard = weights === undefined ? {} : { standard: picked(weights) };
  const read =
    kind === "statistics"
      ? readStatistics(seen)
      : kind === "polynomial"
        ? readPolynomial(x, seen, degree ?? 1, standard.standard)
        : kind === "linear"
          ? readPlane(predictors.map(picked), seen, { throughZero: throughZero ?? false, ...standard })
          : readByFormula({
              formula: formula ?? "",
              variables: variablesOf(predictors, picked),
              y: seen,
              start,
              ...standard,
            });
  if (!read.ok) return read;
  const axis =
    first?.is === "time" ? ("time" as const) : first?.is === "frequency" ? ("frequency" as const) : ("other" as const);
  return answer(
    { reading: read.value, curve: { axis, x, measured: seen, model: read.value.model, unit: y.unit ?? "" } },
    read.remarks,
  );
}

/** Of two columns without a meaning of their own the second was measured; the outputs of a record before its axis. */
function measured(table: RecordTable, used: readonly RecordColumn[]): RecordColumn | undefined {
  if (columnOf(table, "x") !== undefined) return used.find(({ is }) => is !== "x");
  return columnOf(table, "output", "sensitivity", "magnitude", "dampingRatio", "resonance", "level") ?? used.at(-1);
}

/** x and x1, x2, ... in the order of the columns, and each by what it holds. */
function variablesOf(predictors: readonly RecordColumn[], picked: (column: RecordColumn) => Float64Array) {
  const named = predictors.flatMap((column, i): (readonly [string, Float64Array])[] => {
    const values = picked(column);
    const first = predictors.findIndex(({ is }) => is === column.is) === i;
    return [...(first && column.is.length > 1 ? [[column.is, values] as const] : []), [`x${i + 1}`, values]];
  });
  const [alone] = named.filter(([name]) => name === "x1");
  return Object.fromEntries(alone === undefined ? named : [["x", alone[1]] as const, ...named]);
}
