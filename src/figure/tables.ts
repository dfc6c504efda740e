/** The numbers behind the figures, written out. */
import { levelsDb, unwrappedPhase } from "../core/numerics/complexCurve.ts";
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Prediction } from "../core/tasks/predict/prediction.ts";
import { scanPoints } from "./scanFigure.ts";

export interface Column {
  readonly title: string;
  /** In SI, or in the unit of the title where that is a level or an angle. */
  readonly values: readonly (number | null)[];
  readonly text: (value: number | null) => string;
}

const digits = 5;
const micro = (seconds: number | null): number | null => (seconds === null ? null : seconds / 1e-6);
const plain = (value: number | null): string => formatNumber(value, { digits });

export function responseTable({ response }: Prediction): readonly Column[] {
  const delay = response.groupDelay;
  const size = response.re.map((re, i) => Math.hypot(re, response.im[i] ?? 0));
  return [
    { title: "Frequency (Hz)", values: response.frequency, text: plain },
    { title: "|S| (mrad/Pa)", values: size, text: (value) => inUnit(value, "phaseSensitivity", "mrad/Pa") },
    { title: "Level re 1 mrad/Pa (dB)", values: levelsDb(response, 1e-3), text: plain },
    { title: "Phase (°)", values: unwrappedPhase(response).map((value) => (value * 180) / Math.PI), text: plain },
    ...(delay === null
      ? []
      : [{ title: "Group delay (µs)", values: delay, text: (value: number | null) => plain(micro(value)) }]),
  ];
}

export function scanTable(prediction: Prediction): readonly Column[] {
  const { x, y } = scanPoints(prediction);
  return [
    { title: "Guide position (mm)", values: x, text: (value) => inUnit(value, "length", "mm") },
    {
      title: "Static sensitivity (mrad/Pa)",
      values: y,
      text: (value) => inUnit(value, "phaseSensitivity", "mrad/Pa"),
    },
  ];
}

/** The number alone; the unit stands in the title. */
const inUnit = (value: number | null, kind: "length" | "phaseSensitivity", unit: string): string =>
  formatQuantity(value, kind, { digits, unit }).split("\u202f")[0] ?? "";
