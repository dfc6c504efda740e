/** Records of excitation and output (noise, a sweep, stepped tones) to a response, and to its resonance. */
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { formatQuantity } from "../../quantity/format.ts";
import { gatedResponse } from "../../reading/gate.ts";
import { type RecordedResponse, responseOfNoise, responseOfSweep } from "../../reading/recordedResponse.ts";
import { responseOfSteps } from "../../reading/steppedTones.ts";
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import { inSi } from "../../record/units.ts";
import type { FitOptions, Part } from "./fitKinds.ts";
import { fittedResponse } from "./ofTone.ts";
import { duringTable } from "./partOfTable.ts";
import { columnOf, named } from "./signal.ts";

/** `referenceSensitivity` makes it output per pascal. Problems: `no-output`, `no-time`, `part-too-short`, the record's faults, those of the fits. */
export function ofExcitation(whole: RecordTable, options: FitOptions, how: "noise" | "sweep" | "tones"): Outcome<Part> {
  const part = duringTable(whole, options.since, options.until);
  if (!part.ok) return part;
  const table = part.value;
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
  const told = options.from !== undefined || options.to !== undefined;
  const around = told ? null : aroundPeak(response, options.near);
  // A flat response within the band is what a calibration hopes for: it is shown, and said to have no resonance.
  const fitted = fittedResponse(response, around === null ? options : { ...options, ...around }, "remarked");
  if (!fitted.ok) return fitted;
  const chosen: Problem[] =
    around === null
      ? []
      : [
          {
            code: "part-chosen",
            path: ["use"],
            message: `The fit uses ${formatQuantity(around.from, "frequency", { digits: 4 })} to ${formatQuantity(around.to, "frequency", { digits: 4 })}, around the highest peak whose coherence is good; another part can be told.`,
          },
        ];
  return answer({ ...fitted.value, response }, [...found.remarks, ...chosen, ...fitted.remarks]);
}

export const noTime: Problem = {
  code: "no-time",
  path: ["sampling"],
  message: "No column holds the time and no sampling is known; needed: one of them.",
};

/** Output and reference of the excitation. Problem: `no-output`. */
function columnPair(
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

/** Fine enough for a narrow peak, with some twenty averages behind each point. */
function widthOf(table: RecordTable, { width, from, to }: FitOptions, sampling: number): number {
  const span = (to ?? sampling / 2) - (from ?? 0);
  return width ?? Math.max(span / 2000, (20 * sampling) / table.rows);
}

/** Points on each side of the peak, at least, and widths of it. */
const leastPoints = 12;
const widths = 4;

/** Around the highest point that can be trusted; null: the whole of it. */
function aroundPeak(
  { frequency, re, im, coherence }: RecordedResponse,
  near: number | undefined,
): { readonly from: number; readonly to: number } | null {
  const size = (i: number) => Math.hypot(re[i]!, im[i]!);
  const close = (i: number) => near === undefined || Math.abs(frequency[i]! / near - 1) < 0.3;
  const good = Array.from(frequency.keys()).filter((i) => coherence[i]! > 0.5 && close(i));
  if (good.length < 3 * leastPoints) return null;
  const top = good.reduce((best, i) => (size(i) > size(best) ? i : best), good[0]!);
  let [low, high] = [top, top];
  const half = size(top) / Math.SQRT2;
  while (low > 0 && size(low) > half) low -= 1;
  while (high < frequency.length - 1 && size(high) > half) high += 1;
  const first = Math.max(0, Math.min(top - leastPoints, top - widths * (top - low)));
  const last = Math.min(frequency.length - 1, Math.max(top + leastPoints, top + widths * (high - top)));
  return last - first + 1 >= frequency.length ? null : { from: frequency[first]!, to: frequency[last]! };
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
