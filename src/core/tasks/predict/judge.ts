/** A microphone held against its brief in a few milliseconds: what charts, searches and spreads ask thousands of times. */

import { loudestLevel } from "../../microphone/loudest/loudest.ts";
import { stretchFor } from "../../microphone/loudest/phaseSeries.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { heatAbout, heatPower, lightPower } from "../../microphone/noise/heatPower.ts";
import { lightOf } from "../../microphone/noise/noise.ts";
import { bandAround } from "../../microphone/response/band.ts";
import { type Curve, readCurve } from "../../microphone/response/curve.ts";
import { type FlatnessLeft, flatnessLeft } from "../../microphone/response/flatness.ts";
import { equivalentLevelDb } from "../../microphone/response/vibration.ts";
import { settled } from "../../microphone/rest/rest.ts";
import { restingBias } from "../../microphone/rest/restingBias.ts";
import { type FiguresHere, noiseErrorDb, noiseWithinDb } from "../../microphone/span/figures.ts";
import { angular, type Judgeable, judgedAlone } from "../../microphone/span/judgeable.ts";
import { complex } from "../../numerics/complex.ts";
import { equalRatios } from "../../numerics/power.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { type Brief, briefDefaults } from "../../project/brief.ts";
import { soundLevelDb } from "../../quantity/kinds.ts";
import { curveTolerance, type JudgeBatch, judgedRange, placedIn } from "./judgeBatch.ts";
import { mainResonance } from "./mainResonance.ts";
import type { Verdict } from "./prediction.ts";
import { strengthFactorFor } from "./strengthFor.ts";
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
  /** What is left of the room around the level, between the reference and each end of the band asked for [dB]; null: no such end. */
  readonly flatness: { readonly from: FlatnessLeft | null; readonly to: FlatnessLeft | null };
  /** Estimate of the relative error of the response [-]. */
  readonly estimate: number;
  /** Level re that at the reference [dB] at the frequencies asked for. */
  readonly level: readonly number[];
  /** Whether a span of many answered, or the device alone. */
  readonly route: "span" | "alone";
}

/** Stands for the damping ratio of what creeps without a partner: more than any brief asks. */
const overdamped = 9.99;

export interface JudgeOptions {
  /** Frequencies to give the level at [Hz]. */
  readonly frequencies?: readonly number[];
  /** What was made ready for this and many others (judgeBatch.ts), and the numbers in which they differ [SI]. */
  readonly batch?: JudgeBatch | null;
  readonly values?: readonly number[];
}

const buckledSomehow: readonly Problem[] = [
  {
    code: "buckled",
    path: ["microphone", "diaphragm"],
    message: "The diaphragm is buckled by the in-plane compression that it would have there.",
  },
];

/** Problems: those of `settled`. */
export function judge(given: Microphone, brief: Brief, options: JudgeOptions = {}): Outcome<Judged> {
  const { frequencies = [], batch = null, values = [] } = options;
  const placed = batch && placedIn(batch, { microphone: given, values }, brief, frequencies);
  // Thousands are asked for, and their reasons of none: how much compression each could bear takes longer than a verdict.
  if (placed === "buckled") return refuse(...buckledSomehow);
  if (placed) return answer(measured(placed.device, brief, { ...placed, frequencies, route: "span" }));
  const stands = settled(given);
  if (!stands.ok) return stands;
  const device = judgedAlone(stands.value, judgedRange(brief, frequencies), curveTolerance);
  return answer(measured(device, brief, { figures: null, frequencies, route: "alone" }));
}

function measured(
  device: Judgeable,
  brief: Brief,
  given: {
    readonly figures: FiguresHere | null;
    readonly frequencies: readonly number[];
    readonly route: Judged["route"];
  },
): Judged {
  const { microphone, curve } = device;
  const { band, reference } = brief;
  const { figures, frequencies, route } = given;
  const { re, im } = readCurve(curve, Float64Array.of(reference));
  const magnitude = Math.hypot(re[0]!, im[0]!);
  const within = band?.withinDb ?? briefDefaults.withinDb;
  const { from, to } = magnitude > 0 ? edgesOf(device, { reference, within }) : { from: null, to: null };
  const resonance = mainResonance(device.resonances, device.decays);
  const bias = restingBias(microphone);
  const tone = device.tone(brief.loudest?.at ?? reference, figures?.centerOverMean ?? null);
  const loudest = loudestLevel(
    microphone,
    { tone, stretch: stretchFor(microphone, figures?.stretch ?? null) },
    { distortion: brief.loudest?.distortion ?? briefDefaults.distortion, bias },
  );
  const known = {
    band: { from, to },
    sensitivity: { magnitude },
    vibration: { worst: brief.vibration ? shakenMost(device, brief) : null },
    noise: { levelA: noiseLevel(device, figures, { magnitude, bias }) },
    loudest,
    strength: {
      factor: strengthFactorFor(microphone, brief, {
        moved: loudest.moved,
        corner: device.corner,
        stressed: figures?.stressed ?? null,
      }),
    },
    resonance: {
      ...resonance,
      dampingRatio: resonance.dampingRatio ?? (resonance.overdamped ? overdamped : null),
    },
    computed: curve,
  };
  const verdict = verdicts(brief, known);
  const flatTo = (end: number | null) =>
    end === null || !(magnitude > 0)
      ? null
      : flatnessLeft(curve, { reference, end, within, besides: topsOf(device.resonances) });
  return {
    measures: {
      sensitivity: magnitude,
      resonance: resonance.frequency,
      // What creeps has no damping ratio to draw; the verdict counts that of both poles, as predict does.
      damping: resonance.overdamped ? null : resonance.dampingRatio,
      bandFrom: from ?? curve.from,
      bandTo: to ?? curve.to,
      noise: known.noise.levelA,
      loudest: loudest.level,
      vibration: known.vibration.worst?.level ?? null,
      strength: known.strength.factor,
    },
    verdict,
    flatness: { from: flatTo(band?.from ?? null), to: flatTo(band?.to ?? null) },
    estimate: device.estimate,
    level: levels(curve, frequencies, magnitude),
    route,
  };
}

/** Places that a band's edge is looked for at; the tops of narrow peaks come besides. */
const scanned = 240;

const edgesOf = ({ curve, resonances }: Judgeable, given: { readonly reference: number; readonly within: number }) =>
  bandAround(curve, { ...given, points: scanned, besides: topsOf(resonances) });

/** Where a resonance peaks, about [Hz]. */
const topsOf = (resonances: Judgeable["resonances"]): readonly number[] =>
  resonances.map(({ frequency, dampingRatio }) => frequency * Math.sqrt(1 - Math.min(1, dampingRatio) ** 2));

/** Level re 20 uPa, A-weighted, over |S| at the reference; null: the light's noise is not known, or |S| = 0. */
function noiseLevel(
  { microphone, heatLine }: Judgeable,
  figures: FiguresHere | null,
  given: { readonly magnitude: number; readonly bias: readonly (number | null)[] },
): number | null {
  const { light } = lightOf(microphone, given.bias);
  if (light === null || !(given.magnitude > 0)) return null;
  const byLight = lightPower(light);
  const level = (heat: number) => soundLevelDb(Math.sqrt(byLight + heat) / given.magnitude);
  const mapped = figures?.heat ?? null;
  if (mapped !== null) {
    if (noiseErrorDb(mapped, byLight) < noiseWithinDb) return level(mapped.power);
  } else if (heatLine !== null) {
    const about = heatAbout(microphone, heatLine);
    if (noiseErrorDb({ power: about, error: 1 }, byLight) < noiseWithinDb) return level(about);
  }
  return level(heatPower(microphone));
}

/** Points of the band at which the response is looked at, as the whole prediction does. */
const looked = 60;

/**
 * Highest sound level in the brief's band that reads as 1 m/s2: at an end of the band or where the response is least. Of 285 devices
 * drawn at random, bands to 7 and to 20 kHz, none is more than 0.003 dB above these anywhere.
 */
function shakenMost(device: Judgeable, { band, reference }: Brief): { readonly level: number } | null {
  const [from, to] = [band?.from ?? reference, band?.to ?? reference];
  const frequencies = from > 0 && to > from ? equalRatios(from, to, looked) : Float64Array.of(reference);
  const { re, im } = readCurve(device.curve, frequencies);
  const size = (i: number) => re[i]! * re[i]! + im[i]! * im[i]!;
  let least = 0;
  for (let i = 1; i < frequencies.length; i++) if (size(i) < size(least)) least = i;
  let worst: number | null = null;
  for (const i of new Set([0, least, frequencies.length - 1])) {
    const level = equivalentLevelDb(device.accelerate(angular(frequencies[i]!)), complex(re[i]!, im[i]!));
    if (level !== null) worst = Math.max(worst ?? level, level);
  }
  return worst === null ? null : { level: worst };
}

function levels(curve: Curve, frequencies: readonly number[], magnitude: number): number[] {
  if (frequencies.length === 0) return [];
  const { re, im } = readCurve(curve, Float64Array.from(frequencies));
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
