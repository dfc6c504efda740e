/**
 * What breaks the diaphragm: stress under each load that the brief and the microphone name, how likely it fails, and the factor
 * by which the load could rise.
 *
 *     factor = (stress that 5 % of such diaphragms do not bear for that time - stress of the in-plane tension) / bending stress
 *
 * Derivation: docs/theory/strength.md. Holds: plate theory; the bond, the cut edge and scratches are not in it.
 */

import type { Strength } from "../material/material.ts";
import { crackGrowth } from "../material/strengths.ts";
import { pow } from "../numerics/power.ts";
import { effectiveArea, failureProbability, type StressedArea, strengthAt } from "../parts/diaphragm/weibull.ts";
import { referencePressure } from "../quantity/kinds.ts";
import type { ShapeEntry } from "./engine.ts";
import type { Microphone } from "./microphone.ts";

export type LoadName =
  | "overpressure"
  | "overpressure-blocked"
  | "loudest"
  | "static"
  | "tension"
  | "barometer"
  | "barometer-blocked"
  | "flight"
  | "breath";

/** A pressure [Pa] borne for a time [s] beside those that the question names. */
export interface NamedLoad {
  readonly name: LoadName;
  readonly pressure: number;
  readonly time: number;
  readonly counted: boolean;
}

export interface LoadCase {
  readonly name: LoadName;
  /** Largest pressure across the diaphragm [Pa] and how long it is borne [s]. */
  readonly pressure: number;
  readonly time: number;
  /** Largest tension, bending and in-plane together [Pa]. */
  readonly stress: number;
  /** Of one such diaphragm [-]. */
  readonly failure: number;
  /** By which the pressure could rise before 5 % of such diaphragms break [-]; null: no pressure. */
  readonly factor: number | null;
  /** Whether the verdict counts it: what the brief names, as the design stands. */
  readonly counted: boolean;
}

export interface StrengthAnswer {
  /** The least factor of the loads that count; null: no load is named, or the strength is not known. */
  readonly factor: number | null;
  readonly cases: readonly LoadCase[];
  /** Largest bending stress per pressure [Pa/Pa], where [m] and on which face. */
  readonly largest: StressedArea["largest"];
  /** In-plane tension N / h, the larger of the two, 0 under compression [Pa]. */
  readonly membrane: number;
  /** Stress that 5 % do not bear for a minute on this diaphragm [Pa]; null: not known. */
  readonly bears: number | null;
  readonly tested: Strength | null;
  /** Whether those figures were assumed, not given. */
  readonly assumed: boolean;
  readonly effectiveArea: number;
  readonly growth: number;
  readonly fractile: number;
}

/** Share of diaphragms that may break at the strength that is counted [-]. */
const fractile = 0.05;
/** A load that stays [s]: ten years. */
const lasting = 10 * 365.25 * 86400;
/** The least time that a load is counted for [s]. */
const minute = 60;

export interface StrengthQuestion {
  /** Strength figures; `assumed` where the project gives none. */
  readonly tested: Omit<Strength, "area"> & { readonly area: number | null };
  readonly assumed: boolean;
  /** [Pa], [s]; null: not named. */
  readonly overpressure: number | null;
  readonly rise: number | null;
  /** Corner of vent and leak [Hz]; null: nothing lets the pressure through. */
  readonly ventCorner: number | null;
  /** Level of the loudest sound asked for, dB re 20 uPa, and deflection there over that under the same pressure at rest [-]. */
  readonly loudest: { readonly level: number; readonly moved: number } | null;
  readonly others?: readonly NamedLoad[];
  /** Where the sheet is stressed, known from elsewhere; absent: it is computed. */
  readonly stressed?: StressedArea;
}

const functions = 16;

export function strengthOf(
  entry: Pick<ShapeEntry, "stressed">,
  microphone: Microphone,
  question: StrengthQuestion,
): StrengthAnswer {
  const sheet = sheetOf(entry, microphone, question);
  const { stressed, membrane, given, bears } = sheet;
  const cases = loadsOf(microphone, question, membrane).map((load): LoadCase => {
    const { name, pressure, time, counted } = load;
    const stress = bendingUnder(sheet, load) + membrane;
    return {
      name,
      pressure,
      time,
      stress,
      failure: failureProbability(given, { ...useFor(stressed, time), stress }),
      factor: factorOf(sheet, load),
      counted,
    };
  });
  return {
    factor: least(cases.flatMap(({ counted, factor }) => (counted ? [factor] : []))),
    cases,
    largest: stressed.largest,
    membrane,
    bears: bears(minute),
    tested: given,
    assumed: question.assumed,
    effectiveArea: stressed.area,
    growth: crackGrowth,
    fractile,
  };
}

/** `StrengthAnswer.factor` alone, what a verdict asks. */
export function strengthFactor(
  entry: Pick<ShapeEntry, "stressed">,
  microphone: Microphone,
  question: StrengthQuestion,
): number | null {
  const sheet = sheetOf(entry, microphone, question);
  const counted = loadsOf(microphone, question, sheet.membrane).filter((load) => load.counted);
  return least(counted.map((load) => factorOf(sheet, load)));
}

const least = (factors: readonly (number | null)[]): number | null => {
  const known = factors.filter((factor) => factor !== null);
  return known.length > 0 ? Math.min(...known) : null;
};

/** The sheet as any load finds it. */
interface Sheet {
  readonly stressed: StressedArea;
  readonly membrane: number;
  readonly given: Strength;
  /** Stress that 5 % do not bear for a time [Pa]. */
  readonly bears: (time: number) => number;
}

function sheetOf(
  entry: Pick<ShapeEntry, "stressed">,
  microphone: Microphone,
  { stressed: known, tested }: StrengthQuestion,
): Sheet {
  const { tension, thickness } = microphone.diaphragm;
  const stressed = known ?? stressedArea(entry, microphone, tested.modulus);
  const given: Strength = { ...tested, area: tested.area ?? stressed.area };
  return {
    stressed,
    // A bow of stressed layers bends besides; it is not counted (docs/notModeled.md).
    // Compression in the plane would help; it is not counted, because a warm day takes it away.
    membrane: Math.max(0, tension.across, tension.along) / thickness,
    given,
    bears: (time) => strengthAt(given, { ...useFor(stressed, time), probability: fractile }),
  };
}

const useFor = ({ area }: StressedArea, time: number) => ({ area, time, growth: crackGrowth });

const bendingUnder = ({ stressed }: Sheet, { pressure }: NamedLoad): number =>
  stressed.largest.stress * Math.abs(pressure);

function factorOf(sheet: Sheet, load: NamedLoad): number | null {
  const { membrane, bears } = sheet;
  const bending = bendingUnder(sheet, load);
  if (bending > 0) return (bears(load.time) - membrane) / bending;
  return membrane > 0 ? bears(load.time) / membrane : null;
}

function loadsOf({ load }: Microphone, question: StrengthQuestion, membrane: number): readonly NamedLoad[] {
  const { overpressure, rise, ventCorner, loudest, others = [] } = question;
  const loads: NamedLoad[] = [];
  if (overpressure !== null) {
    const share =
      rise === null ? 1 : ventCorner === null ? 1 : heldBack({ rise, timeConstant: 1 / (2 * Math.PI * ventCorner) });
    const time = Math.max(minute, rise ?? 0);
    loads.push({ name: "overpressure", pressure: share * overpressure, time, counted: true });
    if (share < 1) loads.push({ name: "overpressure-blocked", pressure: overpressure, time, counted: false });
  }
  if (loudest) {
    const peak = Math.SQRT2 * referencePressure * pow(10, loudest.level / 20) * loudest.moved;
    loads.push({ name: "loudest", pressure: peak, time: minute, counted: true });
  }
  if (load && load.difference !== 0)
    loads.push({ name: "static", pressure: load.difference, time: lasting, counted: true });
  if (membrane > 0) loads.push({ name: "tension", pressure: 0, time: lasting, counted: true });
  return [...loads, ...others];
}

/** Share of an overpressure that is across the diaphragm at most, where it rises evenly and a vent lets it through [-]. */
export const heldBack = ({ rise, timeConstant }: { readonly rise: number; readonly timeConstant: number }): number =>
  (timeConstant / rise) * -Math.expm1(-rise / timeConstant);

/** The stress per pressure goes with (a / h)^2 within a shape; the last answer is kept with it. */
function stressedArea(entry: Pick<ShapeEntry, "stressed">, { diaphragm }: Microphone, modulus: number): StressedArea {
  const key = JSON.stringify([diaphragm, modulus]);
  if (entry.stressed?.key === key) return entry.stressed.answer;
  const answer = effectiveArea(diaphragm, { modulus, functions });
  entry.stressed = { key, answer };
  return answer;
}
