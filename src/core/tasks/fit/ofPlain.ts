/** Plain tables of numbers, in the units of the file: polynomial, plane, typed formula, statistics. */
import { answer, type Outcome, refuse } from "../../problem.ts";
import { type FormulaQuestion, readByFormula } from "../../reading/byFormula.ts";
import { readPlane, readPolynomial, readStatistics } from "../../reading/plainFits.ts";
import type { PlainReading } from "../../reading/plainReading.ts";
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import type { FitOptions, Part } from "./fitKinds.ts";
import { chosenColumn, columnOf, named } from "./signal.ts";
import { standardsOf } from "./standards.ts";

export type PlainKind = PlainReading["kind"];

export const plainKinds: ReadonlySet<string | null> = new Set<PlainKind>([
  "polynomial",
  "linear",
  "formula",
  "statistics",
]);

/**
 * Rows in which a number is missing are left out; the reader has said where. A standard uncertainty of a predictor makes the fit
 * one with errors in both axes. Problems: `no-output`, those of the fits.
 */
export function ofPlain(table: RecordTable, options: FitOptions, kind: PlainKind): Outcome<Part> {
  const { from, to } = options;
  const { y, predictors } = rolesOf(table, options.channel);
  const [first] = predictors;
  if (y === undefined || (first === undefined && kind !== "statistics"))
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: ${kind === "statistics" ? "one with the numbers" : 'the predictors and what was measured, such as "1=x, 2=y"'}.`,
    });
  const used = kind === "polynomial" ? predictors.slice(0, 1) : kind === "statistics" ? [] : predictors;
  const standards = kind === "statistics" ? new Map<RecordColumn, RecordColumn>() : standardsOf(table, predictors, y);
  const needed = [y, ...used, ...standards.values()];
  const inside = (value: number) =>
    value >= (from ?? Number.NEGATIVE_INFINITY) && value <= (to ?? Number.POSITIVE_INFINITY);
  const rows = Array.from(y.values.keys()).filter(
    (row) =>
      needed.every(({ values }) => Number.isFinite(values[row]!)) &&
      (first === undefined || inside(first.values[row]!)),
  );
  const picked = ({ values }: RecordColumn) => Float64Array.from(rows, (row) => values[row]!);
  const standardOf = (column: RecordColumn) => {
    const found = standards.get(column);
    if (found === undefined) return undefined;
    // In percent: of the value.
    const values = picked(found);
    return found.unit === "%" ? picked(column).map((one, i) => Math.abs(one) * values[i]! * 0.01) : values;
  };
  const [x, seen] = [first === undefined ? Float64Array.from(rows) : picked(first), picked(y)];
  const standardX = Object.fromEntries(
    used.flatMap((column, i) => {
      const found = standardOf(column);
      return found === undefined ? [] : [[`x${i + 1}`, found] as const];
    }),
  );
  const standard = standardOf(y);
  const read = readAs(kind, options, {
    names: variablesOf(used, picked),
    x: used.map(picked),
    y: seen,
    standard,
    standardX,
  });
  if (!read.ok) return read;
  const axis =
    first?.is === "time" ? ("time" as const) : first?.is === "frequency" ? ("frequency" as const) : ("other" as const);
  return answer(
    {
      reading: read.value,
      curve: { axis, x, measured: seen, model: read.value.model, unit: y.unit ?? "" },
      readAs: asPlain(table, y, predictors),
    },
    read.remarks,
  );
}

interface Lists {
  readonly names: Readonly<Record<string, Float64Array>>;
  readonly x: readonly Float64Array[];
  readonly y: Float64Array;
  readonly standard: Float64Array | undefined;
  /** By x1, x2, ... */
  readonly standardX: Readonly<Record<string, Float64Array>>;
}

function readAs(
  kind: PlainKind,
  { degree = 1, formula = "", start = {}, throughZero = false }: FitOptions,
  lists: Lists,
) {
  const { names, x, y, standard, standardX } = lists;
  const weights = standard === undefined ? {} : { standard };
  if (kind === "statistics") return readStatistics(y);
  const both = Object.keys(standardX).length > 0;
  if (kind === "formula") return readByFormula({ formula, start, y, ...weights, ...variablesWith(names, standardX) });
  if (!both)
    return kind === "polynomial"
      ? readPolynomial(x[0]!, y, degree, standard)
      : readPlane(x, y, { throughZero, ...weights });
  const variables = Object.fromEntries(x.map((list, i) => [`x${i + 1}`, list]));
  const text =
    kind === "polynomial"
      ? Array.from({ length: degree + 1 }, (_, k) => (k === 0 ? "b0" : `b${k}*x1^${k}`)).join(" + ")
      : [...(throughZero ? [] : ["b0"]), ...x.map((_, i) => `b${i + 1}*x${i + 1}`)].join(" + ");
  const read = readByFormula({ formula: text, start, y, ...weights, variables, standardX });
  return read.ok ? answer<PlainReading>({ ...read.value, kind }, read.remarks) : read;
}

/** The errors of x1 are those of every name that the column goes by. */
function variablesWith(
  names: Readonly<Record<string, Float64Array>>,
  standardX: Lists["standardX"],
): Pick<FormulaQuestion, "variables" | "standardX"> {
  if (Object.keys(standardX).length === 0) return { variables: names };
  const owner = (list: Float64Array) => Object.keys(names).find((name) => /^x\d+$/.test(name) && names[name] === list);
  const errors = Object.entries(names).flatMap(([name, list]) => {
    const found = standardX[owner(list) ?? ""];
    return found === undefined ? [] : [[name, found] as const];
  });
  return { variables: names, standardX: Object.fromEntries(errors) };
}

/** What was measured, and what it is laid over. */
function rolesOf(table: RecordTable, channel: number | undefined) {
  const used = table.columns.filter(({ is }) => is !== "skip" && is !== "standard");
  const y = chosenColumn(table, channel) ?? columnOf(table, "y") ?? measured(table, used);
  return { y, predictors: used.filter((column) => column !== y) };
}

/** Of two columns without a meaning of their own the second was measured; the outputs of a record before its axis. */
function measured(table: RecordTable, used: readonly RecordColumn[]): RecordColumn | undefined {
  if (columnOf(table, "x") !== undefined) return used.find(({ is }) => is !== "x");
  return columnOf(table, "output", "sensitivity", "magnitude", "dampingRatio", "resonance", "level") ?? used.at(-1);
}

/** The table as a plain fit takes it: numbers without a time base. */
function asPlain(table: RecordTable, y: RecordColumn, predictors: readonly RecordColumn[]): RecordTable {
  const guessed = ({ heading, unit }: RecordColumn) => heading === "" && (unit === null || unit === "");
  const columns = table.columns.map((column): RecordColumn => {
    const unit = column.unit ?? "";
    if (column === y) return { ...column, is: "y", unit };
    return predictors.includes(column) && guessed(column) ? { ...column, is: "x", unit } : { ...column, unit };
  });
  return { ...table, columns, time: null };
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
