/** A microphone held against its brief in a few milliseconds: what charts, searches and spreads ask thousands of times. */
import { readCurve } from "../../microphone/curve.ts";
import { type LeanResponse, leanBand, leanResponse } from "../../microphone/lean.ts";
import { leanNoise } from "../../microphone/leanNoise.ts";
import { loudestAt } from "../../microphone/loudest.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { firstFrequency } from "../../microphone/prepare.ts";
import { settled } from "../../microphone/rest.ts";
import { restingBias } from "../../microphone/restingBias.ts";
import { ventCorner } from "../../microphone/ventCorner.ts";
import { equivalentLevelDb } from "../../microphone/vibration.ts";
import { complex } from "../../numerics/complex.ts";
import { bandSolve } from "../../numerics/kronecker.ts";
import { answer, type Outcome } from "../../problem.ts";
import { type Brief, briefDefaults } from "../../project/brief.ts";
import { mainResonance } from "./mainResonance.ts";
import type { Verdict } from "./prediction.ts";
import { strengthFor } from "./strengthFor.ts";
import { verdicts } from "./verdict.ts";

/** What is drawn, ranked and spread; SI, levels in dB re 20 uPa. */
export const measures = [
  "sensitivity",
  "resonance",
  "damping",
  "bandFrom",
  "bandTo",
  "noise",
  "loudest",
  "vibration",
  "strength",
] as const;
export type Measure = (typeof measures)[number];

/** null: not there, or not computed; a device that creeps has no damping ratio. */
export type Measures = Readonly<Record<Measure, number | null>>;

export interface Judged {
  readonly measures: Measures;
  readonly verdict: readonly Verdict[];
  /** Estimate of the relative error of the response [-]. */
  readonly estimate: number;
  /** Level re that at the reference [dB] at the frequencies asked for. */
  readonly level: readonly number[];
}

/** Stands for "overdamped": more than any brief asks. */
const overdamped = 9.99;

export interface JudgeOptions {
  /** Frequencies to give the level at [Hz]. */
  readonly frequencies?: readonly number[];
}

/** Curve tolerance: a hundredth of what a band edge needs. */
const tolerance = 1e-4;

/** Problems: those of `settled`. */
export function judge(given: Microphone, brief: Brief, { frequencies = [] }: JudgeOptions = {}): Outcome<Judged> {
  const stands = settled(given);
  if (!stands.ok) return stands;
  const microphone = stands.value;
  const { band, reference } = brief;
  const range = {
    from: Math.min(10, reference / 2, (band?.from ?? 20) / 2, ...frequencies),
    to: Math.max(
      20e3,
      1.5 * (band?.to ?? 0),
      1.5 * reference,
      (1.3 * firstFrequency(microphone.diaphragm)) / (2 * Math.PI),
      ...frequencies,
    ),
  };
  const lean = leanResponse(microphone, { ...range, tolerance });
  const within = band?.withinDb ?? briefDefaults.withinDb;
  const { magnitude, from, to } = leanBand(lean.curve, { reference, within });
  const resonance = mainResonance(lean.resonances, lean.decays);
  const bias = restingBias(microphone);
  const entry = {
    prepared: lean.prepared,
    static: bandSolve(lean.prepared.fineFactor, lean.prepared.fine.load),
    loudest: null,
    stressed: null,
  };
  const loudest = loudestAt(entry, microphone, {
    frequency: brief.loudest?.at ?? reference,
    distortion: brief.loudest?.distortion ?? briefDefaults.distortion,
    bias,
  });
  const known = {
    band: { from, to },
    sensitivity: { magnitude },
    vibration: { worst: brief.vibration ? shakenMost(lean, brief) : null },
    noise: { levelA: leanNoise(microphone, lean, { magnitude, bias }) },
    loudest,
    strength: strengthFor(entry, microphone, brief, {
      moved: loudest.moved,
      corner: () => ventCorner(lean.system),
    }),
    resonance: {
      ...resonance,
      dampingRatio: resonance.overdamped ? Math.max(overdamped, resonance.dampingRatio ?? 0) : resonance.dampingRatio,
    },
    computed: range,
  };
  const verdict = verdicts(brief, known);
  return answer({
    measures: {
      sensitivity: magnitude,
      resonance: resonance.frequency,
      // What creeps has no damping ratio to draw; the verdict counts it as far too much.
      damping: resonance.overdamped ? null : resonance.dampingRatio,
      bandFrom: from ?? range.from,
      bandTo: to ?? range.to,
      noise: known.noise.levelA,
      loudest: loudest.level,
      vibration: known.vibration.worst?.level ?? null,
      strength: known.strength?.factor ?? null,
    },
    verdict,
    estimate: lean.estimate,
    level: levels(lean, frequencies, magnitude),
  });
}

/** Points of the band that shaking is looked at; the exact prediction looks at 60. */
const shakenAt = 7;

/** Highest sound level in the brief's band that reads as 1 m/s2. */
function shakenMost(lean: LeanResponse, { band, reference }: Brief): { readonly level: number } | null {
  const [from, to] = [band?.from ?? reference, band?.to ?? reference];
  const count = to > from ? shakenAt : 1;
  let worst: number | null = null;
  for (let i = 0; i < count; i++) {
    const frequency = count === 1 ? reference : from * (to / from) ** (i / (count - 1));
    const omega = complex(2 * Math.PI * frequency);
    const level = equivalentLevelDb(lean.accelerate(omega), lean.respond(omega));
    if (level !== null) worst = Math.max(worst ?? level, level);
  }
  return worst === null ? null : { level: worst };
}

function levels(lean: LeanResponse, frequencies: readonly number[], magnitude: number): number[] {
  if (frequencies.length === 0) return [];
  const { re, im } = readCurve(lean.curve, Float64Array.from(frequencies));
  return frequencies.map((_, i) => 20 * Math.log10(Math.hypot(re[i]!, im[i]!) / magnitude));
}

/**
 * How much of a requirement is left, as a natural logarithm of the ratio to it: 0.1 is ten per cent, or 0.87 dB. Negative: not
 * met. null: not computed.
 */
export function reserve({ asked, got, margin, requirement }: Verdict): number | null {
  if (got === null || margin === null) return null;
  const sign = margin < 0 ? -1 : 1;
  if (levelRequirements.has(requirement)) return (margin * Math.LN10) / 20;
  if (!(asked > 0 && got > 0)) return margin;
  return sign * Math.abs(Math.log(got / asked));
}

const levelRequirements = new Set(["brief.noise.atMost", "brief.loudest.atLeast", "brief.vibration.atMost"]);

/** The least reserve of all requirements that are computed; null where there is none. */
export function leastReserve(verdict: readonly Verdict[]): number | null {
  const known = verdict.map(reserve).filter((value) => value !== null);
  return known.length === 0 ? null : Math.min(...known);
}
