/** Columns of a record as what a fit takes: an evenly spaced output in volts or radians, or a response over frequency. */
import { pow } from "../../numerics/power.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { phaseOfOutput } from "../../reading/calibration.ts";
import type { ColumnMeaning } from "../../record/recipe.ts";
import type { RecordColumn, RecordTable } from "../../record/table.ts";
import { inSi } from "../../record/units.ts";

export interface EvenSignal {
  readonly y: Float64Array;
  /** [s] */
  readonly step: number;
  /** Time of the first sample [s]. */
  readonly start: number;
  /** Last clipped sample; null: none. */
  readonly clippedUntil: number | null;
  readonly unit: string;
}

export const columnOf = (table: RecordTable, ...meanings: readonly ColumnMeaning[]): RecordColumn | undefined =>
  meanings.flatMap((meaning) => table.columns.filter(({ is }) => is === meaning))[0];

/** The column that is asked for by its number. */
export const chosenColumn = (table: RecordTable, channel: number | undefined): RecordColumn | undefined =>
  table.columns.find(({ index }) => index === channel);

/** What was measured: the output that is asked for by its number, or the first. */
function outputOf(table: RecordTable, channel: number | undefined): RecordColumn | undefined {
  if (channel !== undefined) return table.columns.find(({ index }) => index === channel);
  return columnOf(table, "output", "phase", "reference");
}

/**
 * The output on an even grid; where a row is missing, or its cell, the sample is NaN.
 * Problems: `no-output`, `no-time`, the record's faults. Remarks: `jitter`, `outside-calibration`.
 */
export function evenSignal(
  table: RecordTable,
  {
    channel,
    calibration,
  }: { readonly channel?: number; readonly calibration?: { readonly low: number; readonly high: number } },
): Outcome<EvenSignal> {
  const column = outputOf(table, channel);
  if (column === undefined)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: one with the output. Say which one it is.`,
    });
  if (table.faults.length > 0) return refuse(...table.faults);
  const { time } = table;
  if (time === null)
    return refuse({
      code: "no-time",
      path: ["sampling"],
      message: "No column holds the time and no sampling is known; needed: one of them.",
    });
  const remarks: Problem[] = [];
  const times = columnOf(table, "time");
  const values = inSi(column);
  let y = values;
  let rowAt = (row: number) => row;
  if (times !== undefined && !time.rounded && (time.gaps.length > 0 || time.jitter > 0)) {
    const seconds = inSi(times);
    const place = (row: number) => Math.round((seconds[row]! - time.start) / time.step);
    const count = place(table.rows - 1) + 1;
    // A gap that would make most of the record holes is another record.
    if (count <= 4 * table.rows && count > 1) {
      y = new Float64Array(count).fill(Number.NaN);
      for (let row = 0; row < table.rows; row++) y[Math.max(0, place(row))] = values[row]!;
      rowAt = place;
    }
    if (time.jitter > 0.02)
      remarks.push({
        code: "jitter",
        path: ["columns"],
        message: `The steps between samples scatter by ${(100 * time.jitter).toPrecision(2)} %; the samples were taken at the nearest even time. Fast tones lose by it.`,
      });
  }
  const clippedUntil = lastClipped(column, rowAt);
  const volts = column.unit === null || /V$/.test(column.unit);
  if (calibration === undefined || !volts)
    return answer({ y, step: time.step, start: time.start, clippedUntil, unit: siUnit(column) }, remarks);
  const { phase, outside } = phaseOfOutput(y, calibration);
  if (outside > 0)
    remarks.push({
      code: "outside-calibration",
      path: ["calibration"],
      message: `${outside} samples lie outside ${calibration.low} to ${calibration.high} V, where the readout's curve has no phase; they count as missing. Is it the calibration of this record?`,
    });
  return answer({ y: phase, step: time.step, start: time.start, clippedUntil, unit: "rad" }, remarks);
}

function lastClipped({ clipping, values }: RecordColumn, rowAt: (row: number) => number): number | null {
  if (clipping === null) return null;
  let [smallest, largest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
  }
  const isAtStop = (value: number) =>
    (clipping.upper > 0 && value === largest) || (clipping.lower > 0 && value === smallest);
  for (let i = values.length - 1; i > 0; i--) if (isAtStop(values[i]!) && values[i - 1] === values[i]) return rowAt(i);
  return null;
}

const siUnit = ({ unit }: RecordColumn): string => (unit ?? "").replace(/^[numk](?=(V|rad|Pa|A|W)$)/, "");

export const named = ({ columns }: RecordTable): string =>
  columns.map(({ index, heading, is }) => `${index + 1}${heading === "" ? "" : ` ${heading}`} (${is})`).join(", ");

export interface ResponseSignal {
  /** [Hz] */
  readonly frequency: Float64Array;
  readonly re: Float64Array;
  readonly im?: Float64Array;
  readonly standard?: Float64Array;
}

/** A response over frequency: complex, magnitude with phase, magnitude or level alone. Problems: `no-frequency`, `no-output`. */
export function responseSignal(table: RecordTable): Outcome<ResponseSignal> {
  const at = columnOf(table, "frequency");
  if (at === undefined)
    return refuse({
      code: "no-frequency",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: one with the frequency. Say which one it is.`,
    });
  const frequency = inSi(at);
  const [real, imaginary, phase, standard] = (["real", "imaginary", "phase", "standard"] as const).map((is) =>
    columnOf(table, is),
  );
  const given = standard === undefined ? {} : { standard: inSi(standard) };
  if (real !== undefined && imaginary !== undefined)
    return answer({ frequency, re: inSi(real), im: inSi(imaginary), ...given });
  const size = columnOf(table, "magnitude", "level", "output", "sensitivity");
  if (size === undefined)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: real and imaginary part, a magnitude or a level.`,
    });
  const inDecibels = size.is === "level" || /^dB/.test(size.unit ?? "");
  const magnitude = inDecibels ? size.values.map((level) => pow(10, level / 20)) : inSi(size).map(Math.abs);
  if (phase === undefined) return answer({ frequency, re: magnitude, ...given });
  const angle =
    phase.unit === "deg" || phase.unit === "" ? phase.values.map((value) => (value * Math.PI) / 180) : inSi(phase);
  return answer({
    frequency,
    re: magnitude.map((value, i) => value * cos(angle[i]!)),
    im: magnitude.map((value, i) => value * sin(angle[i]!)),
    ...given,
  });
}

/** Rows where both columns hold numbers, in SI. */
export function pairOf(
  x: RecordColumn,
  y: RecordColumn,
): { readonly x: number[]; readonly y: number[]; readonly rows: number[] } {
  const [a, b] = [inSi(x), inSi(y)];
  const rows = Array.from(a.keys()).filter((i) => Number.isFinite(a[i]!) && Number.isFinite(b[i]!));
  return { x: rows.map((i) => a[i]!), y: rows.map((i) => b[i]!), rows };
}
