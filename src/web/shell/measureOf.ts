/** What charts, searches and spreads count, out of a whole prediction. */
import type { Measure, Prediction } from "../../core/index.ts";

const readers: Readonly<Record<Measure, (prediction: Prediction) => number | null>> = {
  sensitivity: (p) => p.sensitivity.magnitude,
  resonance: (p) => p.resonance.frequency,
  damping: (p) => (p.resonance.overdamped ? null : p.resonance.dampingRatio),
  bandFrom: (p) => p.band.from,
  bandTo: (p) => p.band.to,
  noise: (p) => p.noise.levelA,
  loudest: (p) => p.loudest.level,
  vibration: (p) => p.vibration.worst?.level ?? null,
  strength: (p) => p.strength?.factor ?? null,
};

export const measureOf = (prediction: Prediction, measure: Measure): number | null => readers[measure](prediction);
