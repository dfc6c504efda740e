/** A ring-down of the open design as a file, with what spoils real ones. */
import { type Prediction, simulateRingDown } from "../../core/index.ts";

/** "time (ms);output (rad)": a file that the page reads like any other. null: the design has no resonance. */
export function simulatedFile(prediction: Prediction, seed: number): Blob | null {
  const main = prediction.resonances.find(({ dampingRatio }) => dampingRatio > 0 && dampingRatio < 0.7);
  if (main === undefined) return null;
  const { frequency, dampingRatio } = main;
  const sampling = 24 * frequency;
  const decay = 1 / (2 * Math.PI * frequency * dampingRatio);
  const amplitude = prediction.sensitivity.magnitude;
  const { time, output } = simulateRingDown({
    modes: [{ frequency, dampingRatio, amplitude }],
    sampling,
    duration: Math.max(8 / frequency, 7 * decay),
    before: 5 / frequency,
    noise: 0.01 * amplitude,
    offset: 0.3 * amplitude,
    drift: 0.05 * amplitude,
    hum: { frequency: 50, amplitude: 0.05 * amplitude },
    seed,
  });
  const rows = Array.from(time, (t, i) => `${(1e3 * t).toFixed(6)};${output[i]!.toExponential(6)}`);
  return new Blob([`simulated from the open design, seed ${seed}\ntime (ms);output (rad)\n${rows.join("\n")}\n`]);
}
