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
  const { diaphragm, load } = microphone;
  const { tested, assumed, overpressure, rise, ventCorner, loudest } = question;
  const stressed = question.stressed ?? stressedArea(entry, microphone, tested.modulus);
  const per = stressed.largest.stress;
  // A bow of stressed layers bends besides; it is not counted (docs/notModeled.md).
  // Compression in the plane would help; it is not counted, because a warm day takes it away.
  const membrane = Math.max(0, diaphragm.tension.across, diaphragm.tension.along) / diaphragm.thickness;
  const given: Strength = { ...tested, area: tested.area ?? stressed.area };
  const use = (time: number) => ({ area: stressed.area, time, growth: crackGrowth });
  const of = (name: LoadName, pressure: number, time: number, counted: boolean): LoadCase => {
    const bending = per * Math.abs(pressure);
    const stress = bending + membrane;
    const bears = strengthAt(given, { ...use(time), probability: fractile });
    return {
      name,
      pressure,
      time,
      stress,
      failure: failureProbability(given, { ...use(time), stress }),
      factor: bending > 0 ? (bears - membrane) / bending : membrane > 0 ? bears / membrane : null,
      counted,
    };
  };
  const cases: LoadCase[] = [];
  if (overpressure !== null) {
    const share =
      rise === null ? 1 : ventCorner === null ? 1 : heldBack({ rise, timeConstant: 1 / (2 * Math.PI * ventCorner) });
    cases.push(of("overpressure", share * overpressure, Math.max(minute, rise ?? 0), true));
    if (share < 1) cases.push(of("overpressure-blocked", overpressure, Math.max(minute, rise ?? 0), false));
  }
  if (loudest) {
    const peak = Math.SQRT2 * referencePressure * pow(10, loudest.level / 20) * loudest.moved;
    cases.push(of("loudest", peak, minute, true));
  }
  if (load && load.difference !== 0) cases.push(of("static", load.difference, lasting, true));
  if (membrane > 0) cases.push(of("tension", 0, lasting, true));
  for (const { name, pressure, time, counted } of question.others ?? []) cases.push(of(name, pressure, time, counted));
  const factors = cases.flatMap(({ counted, factor }) => (counted && factor !== null ? [factor] : []));
  return {
    factor: factors.length > 0 ? Math.min(...factors) : null,
    cases,
    largest: stressed.largest,
    membrane,
    bears: strengthAt(given, { ...use(minute), probability: fractile }),
    tested: given,
    assumed,
    effectiveArea: stressed.area,
    growth: crackGrowth,
    fractile,
  };
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
