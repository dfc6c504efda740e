/**
 * A ring-down beside what the project predicts: which of the effects that push a reading the drive level allows at all.
 * Derivation: docs/theory/ringDown.md.
 */
import type { Engine } from "../../microphone/engine.ts";
import type { Problem } from "../../problem.ts";
import type { Project } from "../../project/load.ts";
import { soundLevelDb } from "../../quantity/kinds.ts";
import type { RingDown } from "../../reading/ringDown.ts";
import { predict } from "../predict/predict.ts";

export interface Explanation {
  /** Predicted phase amplitude at the tone [rad]; null where the excitation is not known. */
  readonly phaseAmplitude: number | null;
  /** Level that would make half a radian there [dB re 20 uPa]; null where nothing is predicted. */
  readonly levelForHalfRadian: number | null;
  readonly remarks: readonly Problem[];
}

/** Below this phase amplitude the readout's curve moves a damping ratio by less than 0.2 % (m^2 / 24, over three decay times). */
const harmless = 0.2;

/** `excitation`: sound pressure of the tone, root mean square [Pa]. `engine`: what a kept shape answers quickly. Remarks: `line-doubled`, `excitation-unknown`, `readout-ruled-out`, `readout-possible`. */
export function explainRingDown(
  project: Project,
  reading: RingDown,
  excitation: number | null,
  engine?: Engine,
): Explanation {
  const frequency = reading.values.frequency.value;
  const predicted = predict(project, {
    frequencies: [frequency],
    ...(engine !== undefined && { engine, manner: "quick" as const }),
  });
  const none = { phaseAmplitude: null, levelForHalfRadian: null, remarks: [] };
  if (!predicted.ok) return none;
  const { re, im } = predicted.value.response;
  const sensitivity = Math.hypot(re[0] ?? 0, im[0] ?? 0);
  if (!(sensitivity > 0)) return none;
  // A level names the root mean square of the tone.
  const level = soundLevelDb(0.5 / sensitivity / Math.SQRT2);
  const phaseAmplitude = excitation === null ? null : sensitivity * excitation * Math.SQRT2;
  const doubled = doubledLine(frequency, predicted.value.resonance.frequency);
  return {
    phaseAmplitude,
    levelForHalfRadian: level,
    remarks: [...doubled, ...remarksOf(phaseAmplitude, level, frequency)],
  };
}

/** How near twice the predicted resonance a line must lie to be taken for its double. */
const nearDouble = 0.1;

function doubledLine(frequency: number, resonance: number | null): Problem[] {
  if (resonance === null || !(Math.abs(frequency / (2 * resonance) - 1) < nearDouble)) return [];
  return [
    {
      code: "line-doubled",
      path: [],
      message: `The line at ${(frequency / 1000).toPrecision(4)} kHz is about twice the predicted resonance of ${(resonance / 1000).toPrecision(4)} kHz: without bias the readout doubles the tone, and its decay divided by the tone's frequency reads twice the damping ratio. Is the bias at quadrature?`,
    },
  ];
}

function remarksOf(phaseAmplitude: number | null, level: number, frequency: number): Problem[] {
  const needs = `Half a radian at ${(frequency / 1000).toPrecision(4)} kHz takes about ${level.toFixed(0)} dB in this design.`;
  if (phaseAmplitude === null)
    return [
      {
        code: "excitation-unknown",
        path: ["conditions", "excitation"],
        message: `The excitation is not named. ${needs} Below that the readout's curve can't have pushed the damping.`,
      },
    ];
  const shown =
    phaseAmplitude < 0.01 ? `${(1000 * phaseAmplitude).toPrecision(2)} mrad` : `${phaseAmplitude.toPrecision(2)} rad`;
  if (phaseAmplitude < harmless)
    return [
      {
        code: "readout-ruled-out",
        path: [],
        message: `The drive makes a phase amplitude of about ${shown}: the readout's curve can't have pushed this damping ratio. ${needs} Look for a tone that stays, a source that dies slowly, an average over a resonance that moved, or another gap.`,
      },
    ];
  return [
    {
      code: "readout-possible",
      path: [],
      message: `The drive makes a phase amplitude of about ${shown}: the readout's curve lowers a damping ratio that is read in volts. Fit the phase.`,
    },
  ];
}
