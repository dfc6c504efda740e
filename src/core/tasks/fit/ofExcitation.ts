/** Records of excitation and output (noise, a sweep, stepped tones) to a response, and to its resonance. */
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { gatedResponse } from "../../reading/gate.ts";
import { type RecordedResponse, responseOfNoise, responseOfSweep } from "../../reading/recordedResponse.ts";
import { responseOfSteps } from "../../reading/steppedTones.ts";
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import { inSi } from "../../record/units.ts";
import type { FitOptions, Part } from "./fitKinds.ts";
import { fittedResponse } from "./ofTone.ts";
import { columnOf, named } from "./signal.ts";

/** `referenceSensitivity` makes it output per pascal. Problems: `no-output`, `no-time`, the record's faults, those of the fits. */
export function ofExcitation(table: RecordTable, options: FitOptions, how: "noise" | "sweep" | "tones"): Outcome<Part> {
  const pair = columnPair(table, options.channel);
  if (!pair.ok) return pair;
  if (table.faults.length > 0) return refuse(...table.faults);
  if (table.time === null) return refuse(noTime);
  const { sampling } = table.time;
  const [reference, output] = [inSi(pair.value.reference), inSi(pair.value.output)];
  const records = { reference, output, sampling };
  const found =
    how === "tones"
      ? responseOfSteps(records, toldTones(table))
      : options.gate !== undefined
        ? gatedResponse(records, { gate: options.gate, sweep: how === "sweep" })
        : (how === "noise" ? responseOfNoise : responseOfSweep)(records, widthOf(table, options, sampling));
  if (!found.ok) return found;
  const response = perPascal(found.value, options.referenceSensitivity);
  const fitted = fittedResponse(response, options);
  if (!fitted.ok) return fitted;
  return answer({ ...fitted.value, response }, [...found.remarks, ...fitted.remarks]);
}

export const noTime: Problem = {
  code: "no-time",
  path: ["sampling"],
  message: "No column holds the time and no sampling is known; needed: one of them.",
};

/** Output and reference of the excitation. Problem: `no-output`. */
export function columnPair(
  table: RecordTable,
  channel?: number,
): Outcome<{ readonly output: RecordColumn; readonly reference: RecordColumn }> {
  const output = table.columns.find(({ index }) => index === channel) ?? columnOf(table, "output");
  const reference =
    columnOf(table, "reference") ?? table.columns.find((column) => column.is === "output" && column !== output);
  if (output === undefined || reference === undefined || output === reference)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: the output and the reference of the excitation.`,
    });
  return answer({ output, reference });
}

function widthOf(table: RecordTable, { width, from, to }: FitOptions, sampling: number): number {
  const span = (to ?? sampling / 2) - (from ?? 0);
  return width ?? Math.max(span / 200, (8 * sampling) / table.rows);
}

function toldTones(table: RecordTable): Float64Array | undefined {
  const told = columnOf(table, "frequency");
  return told === undefined ? undefined : inSi(told);
}

function perPascal(response: RecordedResponse, sensitivity: number | undefined): RecordedResponse {
  if (sensitivity === undefined) return response;
  const scaled = (list: Float64Array) => list.map((value) => value * sensitivity);
  return { ...response, re: scaled(response.re), im: scaled(response.im), standard: scaled(response.standard) };
}
