/** A record's table to values with uncertainty, by the kind of the record. */
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { type BiasSweep, fitBiasSweep } from "../../reading/calibration.ts";
import { fitPowerLaw, type PowerLaw } from "../../reading/powerLaw.ts";
import { type RecordedResponse, responseOfNoise, responseOfSweep } from "../../reading/recordedResponse.ts";
import { fitResponse, type ResponseReading } from "../../reading/response.ts";
import { fitRingDown, type RingDown } from "../../reading/ringDown.ts";
import { fitScan, type ScanReading } from "../../reading/scan.ts";
import type { Question, RecordTable } from "../../record/table.ts";
import { inSi } from "../../record/units.ts";
import { columnOf, evenSignal, named, pairOf, responseSignal } from "./signal.ts";

export const fitKinds = ["ring-down", "response", "noise", "sweep", "scan", "power-law", "bias-sweep"] as const;
export type FitKind = (typeof fitKinds)[number];

export interface FitOptions {
  readonly kind?: FitKind;
  /** Column with the output, from 0; the first output where absent. */
  readonly channel?: number;
  /** Part to use: seconds, hertz or meters, as the axis. */
  readonly from?: number;
  readonly to?: number;
  readonly modes?: number;
  /** About where the resonance lies [Hz]. */
  readonly near?: number;
  /** Ends of the readout's curve [V]: the phase is fitted. */
  readonly calibration?: { readonly low: number; readonly high: number };
  /** Distance of points of a response out of noise or a sweep [Hz]; a hundredth of the band where absent. */
  readonly width?: number;
  /** Bias at which the slope is wanted [rad]; 0 where absent. */
  readonly at?: number;
  /** Predicted sensitivity over the guide's position, for scans. */
  readonly curve?: { readonly position: ArrayLike<number>; readonly sensitivity: ArrayLike<number> };
}

export type Reading = RingDown | ResponseReading | ScanReading | PowerLaw | BiasSweep;

/** What a chart of the fit shows, over what was used, in SI. */
export interface FitCurve {
  readonly axis: "time" | "frequency" | "position" | "bias" | "other";
  readonly x: Float64Array;
  readonly measured: Float64Array;
  readonly model: Float64Array;
  readonly unit: string;
}

export interface FittedRecord {
  readonly reading: Reading;
  readonly curve: FitCurve;
  /** Questions that did not stand in the way. */
  readonly questions: readonly Question[];
  /** The response that noise or a sweep gave. */
  readonly response: RecordedResponse | null;
}

/**
 * Fits a record.
 *
 * Problems: `question-open` for each question whose answer changes the result, `kind-unclear`, `no-output`, `no-time`,
 * `no-frequency`, `no-curve`, faults of the record, and those of the fit. Remarks: those of the fit and of the signal.
 */
export function fitTable(table: RecordTable, options: FitOptions = {}): Outcome<FittedRecord> {
  const open = table.questions.filter((question) => stands(question, table));
  if (open.length > 0) return refuse(...open.map(asProblem));
  const kind = options.kind ?? kindOf(table);
  if (kind === null)
    return refuse({
      code: "kind-unclear",
      path: ["kind"],
      message: `Columns found: ${named(table)}; they fit no kind of record. Name the kind: ${fitKinds.join(", ")}.`,
    });
  const fitted = byKind[kind](table, options);
  if (!fitted.ok) return fitted;
  return answer({ response: null, ...fitted.value, questions: table.questions }, fitted.remarks);
}

type Part = Omit<FittedRecord, "questions" | "response"> & { readonly response?: RecordedResponse };

/** The unit of an output changes its size, not its damping; everything else changes the answer. */
function stands({ code, path }: Question, { columns }: RecordTable): boolean {
  if (code === "unit-unclear") {
    const column = columns[Number(path[1])];
    return column === undefined || !["output", "reference", "level"].includes(column.is);
  }
  return true;
}

const asProblem = ({ path, message, choices }: Question): Problem => ({
  code: "question-open",
  path,
  message: `${message} Possible: ${choices.join(", ")}.`,
});

/** What kind of record a table is, by what its columns hold; null where they don't say. */
export function kindOf(table: RecordTable): FitKind | null {
  const has = (...meanings: Parameters<typeof columnOf>[1][]) => columnOf(table, ...meanings) !== undefined;
  if (has("frequency")) return "response";
  if (has("bias")) return "bias-sweep";
  if (has("position")) return "scan";
  if (has("thickness", "side", "gap")) return "power-law";
  if (table.time !== null || has("time")) return "ring-down";
  return null;
}

const byKind: { readonly [K in FitKind]: (table: RecordTable, options: FitOptions) => Outcome<Part> } = {
  "ring-down": ringDown,
  response,
  noise: (table, options) => recorded(table, options, responseOfNoise),
  sweep: (table, options) => recorded(table, options, responseOfSweep),
  scan,
  "power-law": powerLaw,
  "bias-sweep": biasSweep,
};

const only = <T extends object>(values: { readonly [K in keyof T]: T[K] | undefined }): Partial<T> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<T>;

function ringDown(table: RecordTable, { channel, calibration, from, to, modes, near }: FitOptions): Outcome<Part> {
  const signal = evenSignal(
    table,
    only<{ channel: number; calibration: { low: number; high: number } }>({ channel, calibration }),
  );
  if (!signal.ok) return signal;
  const { y, step, start, clippedUntil, unit } = signal.value;
  const read = fitRingDown({
    y,
    step,
    start,
    clippedUntil,
    ...only<{ from: number; to: number; modes: number; near: number }>({ from, to, modes, near }),
  });
  if (!read.ok) return read;
  const { used, model } = read.value;
  const measured = y.slice(used.first, used.first + model.length);
  const x = measured.map((_, i) => start + (used.first + i) * step);
  return answer({ reading: read.value, curve: { axis: "time", x, measured, model, unit } }, [
    ...signal.remarks,
    ...read.remarks,
  ]);
}

function response(table: RecordTable, options: FitOptions): Outcome<Part> {
  const signal = responseSignal(table);
  return signal.ok ? fittedResponse(signal.value, options) : signal;
}

function fittedResponse(
  signal: {
    readonly frequency: Float64Array;
    readonly re: Float64Array;
    readonly im?: Float64Array;
    readonly standard?: Float64Array;
  },
  { from, to, modes, near }: FitOptions,
): Outcome<Part> {
  const read = fitResponse({
    ...signal,
    ...only<{ from: number; to: number; sections: number; near: number }>({ from, to, sections: modes, near }),
  });
  if (!read.ok) return read;
  const { frequency, re, im } = read.value.model;
  const size = (i: number) => Math.hypot(signal.re[i]!, signal.im?.[i] ?? 0);
  const places = new Map(Array.from(signal.frequency, (f, i) => [f, i]));
  // The fit ordered its points by frequency; each is found again by it.
  const measured = frequency.map((f) => size(places.get(f) ?? nearest(signal.frequency, f)));
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "frequency",
        x: frequency,
        measured,
        model: re.map((value, i) => Math.hypot(value, im[i]!)),
        unit: "",
      },
    },
    read.remarks,
  );
}

function nearest(list: Float64Array, value: number): number {
  let best = 0;
  list.forEach((one, i) => {
    if (Math.abs(one - value) < Math.abs(list[best]! - value)) best = i;
  });
  return best;
}

function recorded(table: RecordTable, options: FitOptions, read: typeof responseOfNoise): Outcome<Part> {
  const [output, reference] = [
    columnOf(table, "output"),
    columnOf(table, "reference") ?? table.columns.filter(({ is }) => is === "output")[1],
  ];
  if (output === undefined || reference === undefined)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: the output and the reference of the excitation.`,
    });
  if (table.faults.length > 0) return refuse(...table.faults);
  if (table.time === null)
    return refuse({
      code: "no-time",
      path: ["sampling"],
      message: "No column holds the time and no sampling is known; needed: one of them.",
    });
  const { sampling } = table.time;
  const span = (options.to ?? sampling / 2) - (options.from ?? 0);
  const found = read(
    { reference: inSi(reference), output: inSi(output), sampling },
    options.width ?? Math.max(span / 200, (8 * sampling) / table.rows),
  );
  if (!found.ok) return found;
  const fitted = fittedResponse(found.value, options);
  return fitted.ok ? answer({ ...fitted.value, response: found.value }, [...found.remarks, ...fitted.remarks]) : fitted;
}

function scan(table: RecordTable, { curve, channel }: FitOptions): Outcome<Part> {
  const [position, value] = [
    columnOf(table, "position"),
    chosen(table, channel) ?? columnOf(table, "sensitivity", "output", "magnitude"),
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
const chosen = (table: RecordTable, channel: number | undefined) =>
  table.columns.find(({ index }) => index === channel);

function powerLaw(table: RecordTable, { channel }: FitOptions): Outcome<Part> {
  const axis = columnOf(table, "thickness", "side", "gap", "position") ?? table.columns[0];
  const value =
    chosen(table, channel) ?? columnOf(table, "sensitivity", "resonance", "dampingRatio", "output", "magnitude");
  if (axis === undefined || value === undefined || axis === value)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: a thickness, side or gap, and what was read at each.`,
    });
  const { x, y, rows } = pairOf(axis, value);
  const standards = table.columns.filter(({ is }) => is === "standard");
  const [forX, forY] = standards.length > 1 ? standards : [undefined, standards[0]];
  const read = fitPowerLaw({
    x,
    y,
    ...(forX && { standardX: picked(inSi(forX), rows) }),
    ...(forY && { standardY: picked(inSi(forY), rows) }),
  });
  if (!read.ok) return read;
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "other",
        x: Float64Array.from(x),
        measured: Float64Array.from(y),
        model: read.value.model,
        unit: value.unit ?? "",
      },
    },
    read.remarks,
  );
}

function biasSweep(table: RecordTable, { at = 0, channel }: FitOptions): Outcome<Part> {
  const [bias, output] = [columnOf(table, "bias", "phase"), chosen(table, channel) ?? columnOf(table, "output")];
  if (bias === undefined || output === undefined)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: the bias and the output at each.`,
    });
  const { x, y } = pairOf(bias, output);
  const read = fitBiasSweep({ bias: x, output: y, at });
  if (!read.ok) return read;
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "bias",
        x: Float64Array.from(x),
        measured: Float64Array.from(y),
        model: read.value.model,
        unit: output.unit ?? "",
      },
    },
    read.remarks,
  );
}
