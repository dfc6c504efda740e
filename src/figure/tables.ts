/** The numbers behind the figures, written out. */
import { levelsDb, unwrappedPhase } from "../core/numerics/complexCurve.ts";
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Prediction } from "../core/tasks/predict/prediction.ts";

export interface Column {
  readonly title: string;
  readonly cells: readonly string[];
}

const digits = 5;

export function responseTable({ response }: Prediction): readonly Column[] {
  const size = response.re.map((re, i) => Math.hypot(re, response.im[i] ?? 0));
  return [
    { title: "Frequency (Hz)", cells: response.frequency.map((value) => formatNumber(value, { digits })) },
    { title: "|S| (mrad/Pa)", cells: size.map((value) => inUnit(value, "phaseSensitivity", "mrad/Pa")) },
    {
      title: "Level re 1 mrad/Pa (dB)",
      cells: levelsDb(response, 1e-3).map((value) => formatNumber(value, { digits: 4 })),
    },
    {
      title: "Phase (°)",
      cells: unwrappedPhase(response).map((value) => formatNumber((value * 180) / Math.PI, { digits: 4 })),
    },
  ];
}

export function scanTable({ sensitivity: { scan } }: Prediction): readonly Column[] {
  return [
    { title: "Guide position (mm)", cells: scan.at.map((value) => inUnit(value, "length", "mm")) },
    {
      title: "Static sensitivity (mrad/Pa)",
      cells: scan.value.map((value) => inUnit(value, "phaseSensitivity", "mrad/Pa")),
    },
  ];
}

/** The number alone; the unit stands in the title. */
const inUnit = (value: number, kind: "length" | "phaseSensitivity", unit: string): string =>
  formatQuantity(value, kind, { digits, unit }).split("\u202f")[0] ?? "";
