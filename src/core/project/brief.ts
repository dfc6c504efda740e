/** What is asked of the microphone, in SI. */
import { soundLevelDb } from "../quantity/kinds.ts";
import { partsOf } from "./describe.ts";
import type { Project } from "./load.ts";

export type Range = readonly [low: number, high: number];

/** A requirement is null where the brief does not speak of it; so is each part of it. `must`: it may not be traded. */
export interface Brief {
  readonly band: {
    /** [Hz] */
    readonly from: number | null;
    readonly to: number | null;
    /** Plus or minus, re the level at `sensitivity.at` [dB]. */
    readonly withinDb: number;
    readonly must: boolean;
  } | null;
  readonly sensitivity: {
    /** [rad/Pa] */
    readonly atLeast: number | null;
    /** [Hz] */
    readonly at: number;
    readonly must: boolean;
  } | null;
  /** Frequency at which sensitivity is asked and to which band and noise refer [Hz]. */
  readonly reference: number;
  /** Damping ratio [-]. */
  readonly damping: { readonly atLeast: number | null; readonly atMost: number | null; readonly must: boolean } | null;
  /** A-weighted output noise over |S| at `reference`, dB re 20 uPa. */
  readonly noise: { readonly atMostDb: number | null; readonly must: boolean } | null;
  readonly loudest: {
    /** dB re 20 uPa. */
    readonly atLeastDb: number | null;
    /** Total harmonic distortion there [-]. */
    readonly distortion: number;
    /** [Hz] */
    readonly at: number;
    readonly must: boolean;
  } | null;
  /** Level that reads as 1 m/s2, dB re 20 uPa. */
  readonly vibration: { readonly atMostDb: number | null; readonly must: boolean } | null;
  /** Safety factor [-]. */
  readonly strength: { readonly atLeast: number | null; readonly must: boolean } | null;
  readonly site: {
    /** [K] */
    readonly temperature: Range | null;
    /** [Pa] */
    readonly pressure: Range | null;
    /** [-] */
    readonly humidity: Range | null;
    /** [Pa] */
    readonly staticOverpressure: number | null;
    /** [s] */
    readonly rise: number | null;
    readonly precautions: readonly string[];
  };
}

/** What the brief means where it leaves a number out. */
export const briefDefaults = {
  /** [Hz] */
  reference: 1000,
  /** [dB] */
  withinDb: 3,
  /** [-] */
  distortion: 0.03,
} as const;

/** The brief of a project; a project without one asks for nothing. */
export function readBrief(project: Project): Brief {
  const { band, sensitivity, damping, noise, loudest, vibration, strength, site } = partsOf(project).brief ?? {};
  const reference = sensitivity?.at ?? briefDefaults.reference;
  return {
    band: band
      ? {
          from: band.from ?? null,
          to: band.to ?? null,
          withinDb: band.within ?? briefDefaults.withinDb,
          must: band.must ?? false,
        }
      : null,
    sensitivity: sensitivity
      ? { atLeast: sensitivity.atLeast ?? null, at: reference, must: sensitivity.must ?? false }
      : null,
    reference,
    damping: damping
      ? { atLeast: damping.atLeast ?? null, atMost: damping.atMost ?? null, must: damping.must ?? false }
      : null,
    noise: noise ? { atMostDb: level(noise.atMost), must: noise.must ?? false } : null,
    loudest: loudest
      ? {
          atLeastDb: level(loudest.atLeast),
          distortion: loudest.distortion ?? briefDefaults.distortion,
          at: loudest.at ?? reference,
          must: loudest.must ?? false,
        }
      : null,
    vibration: vibration ? { atMostDb: level(vibration.atMost), must: vibration.must ?? false } : null,
    strength: strength ? { atLeast: strength.atLeast ?? null, must: strength.must ?? false } : null,
    site: {
      temperature: site?.temperature ?? null,
      pressure: site?.pressure ?? null,
      humidity: site?.humidity ?? null,
      staticOverpressure: site?.staticOverpressure ?? null,
      rise: site?.rise ?? null,
      precautions: site?.precautions ?? [],
    },
  };
}

const level = (pressure: number | undefined): number | null => (pressure === undefined ? null : soundLevelDb(pressure));
