/** Calibration: a swept bias, the sensitivity against a known pressure, null records. */
import { powerSpectrum } from "../../numerics/spectra.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { fitBiasSweep } from "../../reading/biasSweep.ts";
import { type BandPower, bandPower, type NullRecords, separateNull } from "../../reading/nullRecords.ts";
import { type PressureSource, type Recorded, readSensitivity } from "../../reading/sensitivity.ts";
import type { RecordTable } from "../../record/table.ts";
import { type BesideName, type FitCurve, type FitOptions, only, type Part } from "./fitKinds.ts";
import { chosenColumn, columnOf, evenSignal, named, pairOf } from "./signal.ts";

/** The bias itself, or what turns it: then the radians per unit are fitted, or told. */
export function ofBiasSweep(table: RecordTable, { at, turn, channel }: FitOptions): Outcome<Part> {
  const axis = columnOf(table, "bias", "analyzer", "compensator", "temperature", "wavelength", "phase");
  const output = chosenColumn(table, channel) ?? columnOf(table, "output");
  if (axis === undefined || output === undefined)
    return refuse({
      code: "no-output",
      path: ["columns"],
      message: `Columns found: ${named(table)}; needed: what turned the bias (bias, analyzer, compensator, temperature or wavelength) and the output at each setting.`,
    });
  const { x, y } = pairOf(axis, output);
  const known = axis.is === "bias" || axis.is === "phase";
  const read = fitBiasSweep({
    bias: x,
    output: y,
    turn: turn ?? (known ? 1 : null),
    ...(at !== undefined && { at }),
  });
  if (!read.ok) return read;
  const curve = {
    axis: axisOf[axis.is] ?? ("bias" as const),
    x: Float64Array.from(x),
    measured: Float64Array.from(y),
    model: read.value.model,
    unit: output.unit ?? "",
  };
  return answer({ reading: { ...read.value, of: axis.is }, curve }, read.remarks);
}

const axisOf: { readonly [is: string]: FitCurve["axis"] } = {
  compensator: "other",
  temperature: "temperature",
  wavelength: "length",
};

/** A tone against a calibrator, or against a reference microphone beside it or in its place. Problem: `pressure-unknown`. */
export function ofSensitivity(table: RecordTable, options: FitOptions): Outcome<Part> {
  const own = recordedOf(table, options);
  if (!own.ok) return own;
  const source = sourceOf(table, options);
  if (!source.ok) return source;
  const read = readSensitivity({
    record: own.value,
    source: source.value,
    lines: options.lines ?? {},
    ...only<{ repeats: number; near: number }>({ repeats: options.repeats, near: options.near }),
  });
  if (!read.ok) return read;
  const { y, sampling, start, unit } = own.value;
  const { model } = read.value;
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "time",
        x: model.map((_, i) => start + i / sampling),
        measured: y.slice(0, model.length),
        model,
        unit,
      },
    },
    [...own.remarks, ...read.remarks],
  );
}

type Own = Recorded & { readonly start: number; readonly unit: string };

/** The output over the part that is used. */
function recordedOf(table: RecordTable, { channel, calibration, from, to }: FitOptions): Outcome<Own> {
  const signal = evenSignal(table, {
    ...(channel !== undefined && { channel }),
    ...(calibration !== undefined && calibration !== "free" && { calibration }),
  });
  if (!signal.ok) return signal;
  const { y, step, start, unit } = signal.value;
  const place = (time: number) => Math.round((time - start) / step);
  const [first, last] = [from === undefined ? 0 : Math.max(0, place(from)), to === undefined ? y.length : place(to)];
  return answer({ y: y.slice(first, last), sampling: 1 / step, start: start + first * step, unit }, signal.remarks);
}

function sourceOf(table: RecordTable, options: FitOptions): Outcome<PressureSource> {
  const { beside = {}, referenceSensitivity, pressure, coupler, ambient } = options;
  const calibrated = beside.calibrator === undefined ? null : recordedOf(beside.calibrator, {});
  if (calibrated !== null && !calibrated.ok) return calibrated;
  const sensitivity =
    referenceSensitivity ??
    (calibrated !== null && pressure !== undefined ? { record: calibrated.value, pressure } : undefined);
  const inPlace = beside.reference === undefined ? null : recordedOf(beside.reference, {});
  if (inPlace !== null && !inPlace.ok) return inPlace;
  if (inPlace !== null && sensitivity !== undefined)
    return answer({ how: "substitution", reference: inPlace.value, sensitivity });
  const column = columnOf(table, "reference");
  if (column !== undefined && sensitivity !== undefined) {
    const reference = recordedOf(table, {
      ...only<FitOptions>({ from: options.from, to: options.to }),
      channel: column.index,
    });
    return reference.ok ? answer({ how: "simultaneous", reference: reference.value, sensitivity }) : reference;
  }
  if (pressure !== undefined && calibrated === null)
    return answer({
      how: "calibrator",
      pressure,
      ...(coupler && { coupler }),
      ...(ambient !== undefined && { ambient }),
    });
  return refuse({
    code: "pressure-unknown",
    path: ["pressure"],
    message: `Nothing says how large the sound is (columns: ${named(table)}); needed: the level in the calibrator ("94 dB"), or a reference (in a column beside the output, or a record in its place) with its sensitivity ("12.5 mV/Pa") or its own record in the calibrator. An electrostatic actuator is no way: the diaphragm has no conductor.`,
  });
}

/** Null records side by side in one table, or in files of their own. Problem: `null-records-missing`. */
export function ofNull(table: RecordTable, options: FitOptions): Outcome<Part> {
  const { beside = {}, from = 20, lightShare } = options;
  const powers: Partial<Record<BesideName | "plus", BandPower>> = {};
  const spectra: { plus?: ReturnType<typeof powerSpectrum>; oneMode?: ReturnType<typeof powerSpectrum> } = {};
  const problems: Problem[] = [];
  for (const name of ["plus", "minus", "dark", "oneMode", "plugged", "fieldOff", "fieldOn"] as const) {
    const column = columnOf(table, name);
    const other = name === "plus" ? undefined : beside[name];
    // Alone in its file the first output is the record at +90 degrees.
    const record =
      column !== undefined
        ? recordedOf(table, { channel: column.index })
        : other !== undefined
          ? recordedOf(other, {})
          : name === "plus"
            ? recordedOf(table, only<FitOptions>({ channel: options.channel }))
            : null;
    if (record === null) continue;
    if (!record.ok) {
      problems.push(...record.problems);
      continue;
    }
    const { y, sampling } = record.value;
    const power = bandPower(y, { sampling, from, to: options.to ?? Math.min(20_000, 0.49 * sampling) });
    if (!power.ok) {
      problems.push(...power.problems.map((problem) => ({ ...problem, path: [name, ...problem.path] })));
      continue;
    }
    powers[name] = power.value;
    const segment = Math.min(y.length, 4096);
    if (name === "plus" || name === "oneMode")
      spectra[name] = powerSpectrum(y, { sampling, segment, window: "hann", overlap: 0.5 });
  }
  if (problems.length > 0) return refuse(...problems);
  const { plus, minus, dark, oneMode, ...others } = powers;
  if (plus === undefined || minus === undefined || dark === undefined || oneMode === undefined)
    return refuse({
      code: "null-records-missing",
      path: ["beside"],
      message: `Records found: ${Object.keys(powers).join(", ") || "none"}; needed: plus and minus (bias at +90 and -90 degrees), dark (light blocked) and oneMode (one mode launched), as columns or as files; plugged, fieldOff and fieldOn if there are any.`,
    });
  const records: NullRecords = {
    plus,
    minus,
    dark,
    oneMode,
    ...others,
    ...(lightShare !== undefined && { lightShare }),
  };
  const read = separateNull(records);
  if (!read.ok) return read;
  const [shown, left] = [spectra.plus!, spectra.oneMode!];
  // Amplitude densities: the record at +90 degrees over what one mode alone leaves of it.
  const root = (list: Float64Array) => list.map(Math.sqrt);
  const same = shown.frequency.length === left.frequency.length;
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "frequency",
        x: shown.frequency,
        measured: root(shown.density),
        model: same ? root(left.density) : new Float64Array(shown.frequency.length).fill(Number.NaN),
        unit: "",
      },
    },
    read.remarks,
  );
}
