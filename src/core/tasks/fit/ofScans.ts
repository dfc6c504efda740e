/** Scans over the guide's position; readings over thickness, side or gap, as a power law or under the predicted curve. */
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { fitPowerLaw } from "../../reading/powerLaw.ts";
import { fitGroupedPowerLaw } from "../../reading/powerLawGroups.ts";
import { fitScan } from "../../reading/scan.ts";
import { fitTheoryCurve } from "../../reading/theoryCurve.ts";
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import type { FitOptions, Part } from "./fitKinds.ts";
import { chosenColumn, columnOf, named, pairOf } from "./signal.ts";
import { standardInSi, standardsOf } from "./standards.ts";

export function ofScan(table: RecordTable, { curve, channel }: FitOptions): Outcome<Part> {
  const [position, value] = [
    columnOf(table, "position"),
    chosenColumn(table, channel) ?? columnOf(table, "sensitivity", "output", "magnitude"),
  ];
  if (position === undefined || value === undefined)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: the guide's position and the sensitivity at each.`,
    });
  if (curve === undefined)
    return refuse({
      code: "no-curve",
      path: ["curve"],
      message: "A scan is laid under the curve that a project predicts; needed: the project it belongs to.",
    });
  const { x, y, rows } = pairOf(position, value);
  const standard = standardsOf(table, [position], value).get(value);
  const read = fitScan({
    position: x,
    sensitivity: y,
    curve,
    magnitudeOnly: y.every((one) => one >= 0),
    ...(standard && { standard: picked(standardInSi(value, standard), rows) }),
  });
  if (!read.ok) return read;
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "position",
        x: Float64Array.from(x),
        measured: Float64Array.from(y),
        model: read.value.model,
        unit: value.unit ?? "",
      },
    },
    read.remarks,
  );
}

const picked = (values: Float64Array, rows: readonly number[]) => rows.map((row) => values[row]!);

/** What was read of several specimens, or at several gaps: over what was varied, with the uncertainties of both. Problem: `no-output`. */
function readingsOver(table: RecordTable, channel: number | undefined) {
  const axis = columnOf(table, "thickness", "side", "gap", "position") ?? table.columns[0];
  const value =
    chosenColumn(table, channel) ?? columnOf(table, "sensitivity", "resonance", "dampingRatio", "output", "magnitude");
  if (axis === undefined || value === undefined || axis === value)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: a thickness, side or gap, and what was read at each.`,
    });
  const { x, y, rows } = pairOf(axis, value);
  const standards = standardsOf(table, [axis], value);
  const standardOf = (column: RecordColumn) => {
    const found = standards.get(column);
    return found && picked(standardInSi(column, found), rows);
  };
  const [standardX, standardY] = [standardOf(axis), standardOf(value)];
  const question = { x, y, ...(standardX && { standardX }), ...(standardY && { standardY }) };
  return answer({ axis, value, rows, question });
}

/** Under the curve that a project predicts. Problems: `no-output`, `no-curve`, those of `fitTheoryCurve`. */
export function ofCurve(table: RecordTable, { channel, predicted }: FitOptions): Outcome<Part> {
  const readings = readingsOver(table, channel);
  if (!readings.ok) return readings;
  const { value, rows, question } = readings.value;
  if (predicted === undefined)
    return refuse({
      code: "no-curve",
      path: ["curve"],
      message:
        "Readings over a thickness, side or gap are laid under the curve that a project predicts; needed: a project that has such a value and such a curve. Without one a power law can be fitted.",
    });
  const read = fitTheoryCurve({ ...question, curve: predicted });
  if (!read.ok) return refuse(...read.problems.map((problem) => atLine(problem, table, rows)));
  const curve = {
    axis: "length" as const,
    x: Float64Array.from(question.x),
    measured: Float64Array.from(question.y),
    model: read.value.model,
    unit: value.unit ?? "",
  };
  return answer({ reading: read.value, curve }, read.remarks);
}

export function ofPowerLaw(table: RecordTable, { channel }: FitOptions): Outcome<Part> {
  const readings = readingsOver(table, channel);
  if (!readings.ok) return readings;
  const { axis, value, rows, question } = readings.value;
  const { x, y } = question;
  const group = columnOf(table, "group");
  const read =
    group === undefined
      ? fitPowerLaw(question)
      : fitGroupedPowerLaw({ ...question, group: picked(group.values, rows) });
  if (!read.ok) return refuse(...read.problems.map((problem) => atLine(problem, table, rows)));
  return answer(
    {
      reading: read.value,
      curve: {
        axis: axis.is === "thickness" || axis.is === "side" || axis.is === "gap" ? "length" : "other",
        x: Float64Array.from(x),
        measured: Float64Array.from(y),
        model: read.value.model,
        unit: value.unit ?? "",
      },
    },
    read.remarks,
  );
}

/** A problem of point 3 is one of the line in the file where it stands. */
function atLine(problem: Problem, { lines }: RecordTable, rows: readonly number[]): Problem {
  const [list, point] = problem.path;
  const line = typeof point === "number" ? lines?.[rows[point] ?? -1] : undefined;
  return line === undefined || typeof list !== "string"
    ? problem
    : { ...problem, path: ["line", line], message: `Line ${line}: ${problem.message}` };
}
