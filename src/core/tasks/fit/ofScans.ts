/** Scans over the guide's position, power laws over thickness, side or gap. */
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { fitPowerLaw } from "../../reading/powerLaw.ts";
import { fitGroupedPowerLaw } from "../../reading/powerLawGroups.ts";
import { fitScan } from "../../reading/scan.ts";
import type { RecordTable } from "../../record/table.ts";
import { inSi } from "../../record/units.ts";
import type { FitOptions, Part } from "./fitKinds.ts";
import { chosenColumn, columnOf, named, pairOf } from "./signal.ts";

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
  const standard = columnOf(table, "standard");
  const read = fitScan({
    position: x,
    sensitivity: y,
    curve,
    magnitudeOnly: y.every((one) => one >= 0),
    ...(standard && { standard: picked(inSi(standard), rows) }),
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

export function ofPowerLaw(table: RecordTable, { channel }: FitOptions): Outcome<Part> {
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
  const standards = table.columns.filter(({ is }) => is === "standard");
  const [forX, forY] = standards.length > 1 ? standards : [undefined, standards[0]];
  const group = columnOf(table, "group");
  const question = {
    x,
    y,
    ...(forX && { standardX: picked(inSi(forX), rows) }),
    ...(forY && { standardY: picked(inSi(forY), rows) }),
  };
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
