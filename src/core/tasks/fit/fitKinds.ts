/** Kinds of fit, what they can be told, and what they give. */
import type { BiasSweep } from "../../reading/biasSweep.ts";
import type { PressureLines } from "../../reading/calibration.ts";
import type { FreeReadout } from "../../reading/freeReadout.ts";
import type { NullParts } from "../../reading/nullRecords.ts";
import type { PlainReading } from "../../reading/plainReading.ts";
import type { PowerLaw } from "../../reading/powerLaw.ts";
import type { RecordedResponse } from "../../reading/recordedResponse.ts";
import type { ResponseReading } from "../../reading/response.ts";
import type { RingDown } from "../../reading/ringDown.ts";
import type { ScanReading } from "../../reading/scan.ts";
import type { SensitivityReading } from "../../reading/sensitivity.ts";
import type { TheoryCurve, TheoryCurveReading } from "../../reading/theoryCurve.ts";
import type { Question, RecordTable } from "../../record/table.ts";

export const fitKinds = [
  "ring-down",
  "response",
  "noise",
  "sweep",
  "tones",
  "scan",
  "curve",
  "power-law",
  "bias-sweep",
  "sensitivity",
  "null",
  "polynomial",
  "linear",
  "formula",
  "statistics",
] as const;
export type FitKind = (typeof fitKinds)[number];

/** Further records that a fit takes beside its own, by what they are. */
export const besideNames = [
  "reference",
  "calibrator",
  "dark",
  "oneMode",
  "minus",
  "plugged",
  "fieldOff",
  "fieldOn",
] as const;
export type BesideName = (typeof besideNames)[number];

export interface FitOptions {
  readonly kind?: FitKind;
  /** Column with the output, from 0; the first output where absent. */
  readonly channel?: number;
  /** Part to use: seconds, hertz or meters, as the axis. */
  readonly from?: number;
  readonly to?: number;
  /** Part of a record of noise, a sweep or stepped tones that the response is taken from [s]; `from` and `to` are hertz there. */
  readonly since?: number;
  readonly until?: number;
  readonly modes?: number;
  /** About where the resonance, or the tone, lies [Hz]. */
  readonly near?: number;
  /** Ends of the readout's curve [V]: the phase is fitted. "free": the curve is fitted with a ring-down. */
  readonly calibration?: { readonly low: number; readonly high: number } | "free";
  /** Distance of points of a response out of noise or a sweep [Hz]; a hundredth of the band where absent. */
  readonly width?: number;
  /** Time after the arrival that is kept of noise or a sweep in a room [s]. */
  readonly gate?: number;
  /** Setting of a bias sweep at which the slope is wanted, in SI of its axis. */
  readonly at?: number;
  /** Radians of bias per unit (SI) of the sweep's axis; fitted where absent, but for the bias itself. */
  readonly turn?: number;
  /** Predicted sensitivity over the guide's position, for scans. */
  readonly curve?: { readonly position: ArrayLike<number>; readonly sensitivity: ArrayLike<number> };
  /** Predicted values over a thickness, side or gap, for readings of several. */
  readonly predicted?: TheoryCurve;
  /** Sensitivity of the reference microphone [V/Pa]. */
  readonly referenceSensitivity?: number;
  /** Pressure in the calibrator, root mean square [Pa]. */
  readonly pressure?: number;
  readonly coupler?: { readonly volume: number; readonly added: number };
  /** Static pressure over that of the calibrator's certificate, for a pistonphone. */
  readonly ambient?: number;
  /** Lines of the budget, as shares of the pressure. */
  readonly lines?: Partial<PressureLines>;
  /** Readings behind the repeat line. */
  readonly repeats?: number;
  /** Mean output of one mode over that of both, for null records; 1 where absent. */
  readonly lightShare?: number;
  readonly degree?: number;
  /** A plane without its constant. */
  readonly throughZero?: boolean;
  readonly formula?: string;
  /** Where the parameters of a formula begin. */
  readonly start?: Readonly<Record<string, number>>;
  readonly beside?: { readonly [K in BesideName]?: RecordTable };
}

export type Reading =
  | (RingDown & { readonly readout?: FreeReadout })
  | ResponseReading
  | ScanReading
  | TheoryCurveReading
  | PowerLaw
  | BiasSweep
  | SensitivityReading
  | NullParts
  | PlainReading;

/** What a chart of the fit shows, over what was used, in SI. */
export interface FitCurve {
  readonly axis: "time" | "frequency" | "position" | "bias" | "length" | "temperature" | "other";
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
  /** The response that noise, a sweep or stepped tones gave. */
  readonly response: RecordedResponse | null;
  /** The table as the fit took it: a plain fit sees numbers where a record has times. */
  readonly readAs: RecordTable;
}

export type Part = Omit<FittedRecord, "questions" | "response" | "readAs"> &
  Partial<{ readonly response: RecordedResponse; readonly readAs: RecordTable }>;

/** Without the keys that say nothing. */
export const only = <T extends object>(values: { readonly [K in keyof T]: T[K] | undefined }): Partial<T> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<T>;
