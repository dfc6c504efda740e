/** The worked device with another gap, its shape asked for before, and the question for its whole response. */
import { createEngine, type EngineQuestion, engineAnswer, shapeEntry } from "../src/core/microphone/engine.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { plateScales } from "../src/core/parts/diaphragm/shape.ts";
import { workedDevice } from "./workedDevice.ts";

/** 10 Hz to 2.2 times the first resonance in vacuum, good to 1e-6 against the whole basis (`trust` is the engine's own). */
export function knownShape(gapOr: number | Microphone) {
  const device = workedDevice();
  const microphone: Microphone =
    typeof gapOr === "number" ? { ...device, film: device.film && { ...device.film, gap: gapOr } } : gapOr;
  const engine = createEngine();
  const { modes } = shapeEntry(engine, device);
  const first = Math.sqrt((modes[0]?.lambda ?? Number.NaN) / plateScales(device.diaphragm).lambda) / (2 * Math.PI);
  const question: EngineQuestion = { from: 10, to: 2.2 * first, tolerance: 1e-7, manner: "quick" };
  // The second question makes the basis, before anything is timed.
  engineAnswer(engine, microphone, question);
  return { engine, microphone, first, question };
}

/** Frequencies in equal ratios from 10 Hz, both ends included. */
export const gridTo = (to: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => 10 * (to / 10) ** (i / (count - 1)));
