/** What charts, searches and spreads count, out of a whole prediction. */
import type { Measure, Prediction } from "../../core/index.ts";

const readers: Readonly<Record<Measure, (prediction: Prediction) => number | null>> = {
  sensitivity: (p) => p.sensitivity.magnitude,
  resonance: (p) => p.resonance.frequency,
  damping: (p) => (p.resonance.overdamped ? null : p.resonance.dampingRatio),
  // Without an edge the band goes as far as was computed.
  bandFrom: (p) => p.band.from ?? p.response.frequency[0] ?? null,
  bandTo: (p) => p.band.to ?? p.response.frequency.at(-1) ?? null,
  noise: (p) => p.noise.levelA,
  loudest: (p) => p.loudest.level,
  vibration: (p) => p.vibration.worst?.level ?? null,
  strength: (p) => p.strength?.factor ?? null,
};

export const measureOf = (prediction: Prediction, measure: Measure): number | null => readers[measure](prediction);
