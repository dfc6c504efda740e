/** What charts, searches and spreads count, in words. */
import { formatQuantity } from "../../core/quantity/format.ts";
import type { KindName } from "../../core/quantity/kinds.ts";
import type { Measure } from "../../core/tasks/predict/judge.ts";

export interface MeasureWords {
  readonly label: string;
  readonly short: string;
  readonly kind: KindName;
}

export const measureWords: Readonly<Record<Measure, MeasureWords>> = {
  sensitivity: { label: "Sensitivity", short: "S", kind: "phaseSensitivity" },
  resonance: { label: "Resonance", short: "f₀", kind: "frequency" },
  damping: { label: "Damping ratio", short: "ζ", kind: "number" },
  bandFrom: { label: "Lower band end", short: "from", kind: "frequency" },
  bandTo: { label: "Upper band end", short: "to", kind: "frequency" },
  noise: { label: "Noise, A-weighted", short: "noise", kind: "decibel" },
  loudest: { label: "Loudest sound", short: "loudest", kind: "decibel" },
  vibration: { label: "1 m/s² reads as", short: "vibration", kind: "decibel" },
  strength: { label: "Safety factor", short: "strength", kind: "number" },
};

/** "6.2 kHz"; what is not there is said. */
export const measureText = (measure: Measure, value: number | null, digits = 3): string =>
  value === null ? "not there" : formatQuantity(value, measureWords[measure].kind, { digits });
