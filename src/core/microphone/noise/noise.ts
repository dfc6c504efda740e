/**
 * All noise at the output, as phase and as sound: heat of the device, light, laser, receiver, converter.
 *
 *     levelA = 20 log10( sqrt(integral of S_phi A^2 df, 20 Hz to 20 kHz) / |S(reference)| / 20 uPa )
 *
 * Noise over |S(f)| is the spectrum and the third octaves, never `levelA`. Derivation: docs/theory/noise.md.
 */

import { complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import {
  type LightNoise,
  type LightSource,
  lightNoise,
  lightSources,
  type ReadGuide,
  sourceDensity,
} from "../../parts/readout/lightNoise.ts";
import { operatingPoint } from "../../parts/readout/operating.ts";
import { transferOf } from "../../parts/readout/transfer.ts";
import { type FrequencyRule, frequencyRule, type Peak } from "../../quantity/frequencyRule.ts";
import { soundLevelDb } from "../../quantity/kinds.ts";
import { thirdOctaves } from "../../quantity/thirdOctaves.ts";
import { aWeightPower } from "../../quantity/weighting.ts";
import type { ShapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { type Curve, readCurve } from "../response/curve.ts";
import { type Losses, lossParts } from "../response/losses.ts";
import { deviceAt } from "../system/coupled.ts";
import { type HeatSystem, heatSystem } from "./heatSystem.ts";
import { seenWidth } from "./structuralNoise.ts";
import { type ThermalNoise, thermalNoise } from "./thermalNoise.ts";
import { thermalParts } from "./thermalParts.ts";

export type NoiseSource = "thermal" | LightSource;
export const noiseSources: readonly NoiseSource[] = ["thermal", ...lightSources];

/** Why there is no noise of the light. */
export type WithoutLight = "no-launched-power" | "no-bias" | "no-slope";

export interface Noise {
  /** A-weighted output noise over |S| at the reference, dB re 20 uPa; null: the light's noise is not known, or |S| = 0. */
  readonly levelA: number | null;
  /** The same without weighting, 20 Hz to 20 kHz. */
  readonly levelZ: number | null;
  /** At the frequencies of the response [rad/sqrt(Hz)]; `total` holds what is known. */
  readonly thermal: readonly number[];
  readonly total: readonly number[];
  /** `total` over |S| there [Pa/sqrt(Hz)]; null where |S| = 0. */
  readonly pressure: readonly (number | null)[];
  readonly bySource: readonly {
    readonly source: NoiseSource;
    /** At the reference [rad/sqrt(Hz)]. */
    readonly density: number;
    /** A-weighted level of this source alone, dB re 20 uPa. */
    readonly levelA: number | null;
    /** Of the A-weighted power [-]. */
    readonly share: number;
  }[];
  /** Shares of the thermal noise at the reference, part by part [-]. */
  readonly byPart: Readonly<Losses>;
  readonly thirdOctaves: readonly {
    readonly nominal: number;
    /** Level in the band of noise over |S(f)|, dB re 20 uPa; null where the response vanishes. */
    readonly level: number | null;
  }[];
  /** From 20 Hz to 20 kHz, for a picture: densities by source and in all [rad/sqrt(Hz)], |S| [rad/Pa]. */
  readonly spectrum: {
    readonly frequency: readonly number[];
    readonly total: readonly number[];
    readonly bySource: readonly { readonly source: NoiseSource; readonly density: readonly number[] }[];
    readonly response: readonly number[];
  };
  /** Power at the detectors of one guide [W] and its current [A]; null without light. */
  readonly detected: { readonly power: number; readonly current: number } | null;
  readonly withoutLight: WithoutLight | null;
  /** Widths over which structural loss averages the light, one a guide [m]; null without a loss factor. */
  readonly averagedOver: readonly number[] | null;
  /** Frequencies solved for heat, and the curve's largest relative error at those that tested it [-]. */
  readonly resolution: { readonly samples: number; readonly curveError: number };
}

export interface NoiseQuestion {
  readonly microphone: Microphone;
  readonly entry: ShapeEntry;
  /** Response and its frequencies [Hz], [rad/Pa]. */
  readonly curve: Curve;
  readonly response: {
    readonly frequency: readonly number[];
    readonly re: readonly number[];
    readonly im: readonly number[];
  };
  /** Frequency that levels are referred to [Hz] and |S| there [rad/Pa]. */
  readonly reference: number;
  readonly magnitude: number;
  /** Where the spectrum is narrow. */
  readonly peaks: readonly Peak[];
  /** Retardation at rest of each guide [rad]; null: unknown. */
  readonly bias: readonly (number | null)[];
}

const audible = { from: 20, to: 20e3 };
/** Largest error of the curve at frequencies that tested it (thermalNoise.ts); the curve through them all is a hundred times better. */
const tolerance = 1e-3;
const solvedOneByOne = 24;

export function noiseOf(question: NoiseQuestion): Noise {
  const { microphone, entry, reference, magnitude, peaks, response } = question;
  const temperature = microphone.air.temperature;
  const system = heatSystem(entry, microphone);
  const inReach = response.frequency.filter((frequency) => frequency <= question.curve.to);
  const range = { from: Math.min(10, ...inReach), to: Math.max(outermost, ...inReach) };
  const thermal = thermalNoise(system, { ...range, tolerance });
  const { light, withoutLight } = lightOf(microphone, question.bias);
  const spectra = spectraOf(thermal, light, range);
  const weighted = spectra(frequencyRule(audible.from, audible.to, { peaks }));
  const powers = weighted.map(({ powerA }) => powerA);
  const sum = powers.reduce((total, power) => total + power, 0);
  const level = (power: number) => (magnitude > 0 && power > 0 ? soundLevelDb(Math.sqrt(power) / magnitude) : null);
  const flat = weighted.reduce((total, { power }) => total + power, 0);
  const atReference = densities(thermal, light, Float64Array.of(reference), range);
  const asked = Float64Array.from(response.frequency);
  const there = densities(thermal, light, asked, range, asked.length <= solvedOneByOne);
  const total = Array.from(response.frequency, (_, i) => Math.sqrt(sumAt(there, i)));
  return {
    levelA: withoutLight ? null : level(sum),
    levelZ: withoutLight ? null : level(flat),
    thermal: Array.from(there[0]!, Math.sqrt),
    total,
    pressure: total.map((density, i) => over(density, Math.hypot(response.re[i]!, response.im[i]!))),
    bySource: noiseSources.map((source, i) => ({
      source,
      density: Math.sqrt(atReference[i]![0]!),
      levelA: level(powers[i]!),
      share: sum > 0 ? powers[i]! / sum : 0,
    })),
    byPart: sharesOf(system, { reference, temperature, density: atReference[0]![0]! }),
    thirdOctaves: octaves(question, system, thermal, light, range),
    spectrum: pictured(question, system, thermal, light, range),
    detected: light && { power: light.power, current: light.current },
    withoutLight,
    averagedOver:
      microphone.diaphragm.lossFactor > 0
        ? microphone.guides.map((guide) => seenWidth(guide, microphone.diaphragm.thickness))
        : null,
    resolution: { samples: thermal.curve.samples, curveError: thermal.curve.error },
  };
}

/** Upper edge of the highest third octave [Hz]. */
const outermost = pow(10, 4.35);

interface Range {
  readonly from: number;
  readonly to: number;
}

/** The light's noise, or why there is none. */
export function lightOf(
  { light, readout, guides, air }: Microphone,
  bias: readonly (number | null)[],
): { readonly light: LightNoise | null; readonly withoutLight: WithoutLight | null } {
  if (light.launched === null) return { light: null, withoutLight: "no-launched-power" };
  const transfer = transferOf(readout);
  const read: ReadGuide[] = [];
  for (const [i, guide] of guides.entries()) {
    const atRest = bias[i];
    if (atRest === null || atRest === undefined) return { light: null, withoutLight: "no-bias" };
    read.push({
      weight: guide.weight,
      point: operatingPoint(transfer, readout.outputs, atRest),
      pathDifference: readout.kind === "polarimetric" ? guide.birefringence * guide.length : readout.pathDifference,
    });
  }
  const noise = lightNoise({ light, readout, guides: read, temperature: air.temperature });
  return { light: noise, withoutLight: noise ? null : "no-slope" };
}

/** Densities by source, heat first, at frequencies [rad^2/Hz]; heat is read from the curve, and solved beyond it or where that is wanted. */
function densities(
  thermal: ThermalNoise,
  light: LightNoise | null,
  frequencies: Float64Array,
  range: Range,
  exactly = false,
): readonly Float64Array[] {
  const inside = frequencies.every((frequency) => frequency >= range.from && frequency <= range.to);
  const heat =
    inside && !exactly && thermal.curve.converged
      ? thermal.read(frequencies)
      : frequencies.map((frequency) => thermal.at(frequency));
  return [
    // A device that nothing damps has next to none between its resonances: the curve's round-off may lie on either side of 0.
    heat.map((power) => Math.max(0, power)),
    ...lightSources.map((source) =>
      frequencies.map((frequency) => (light ? sourceDensity(light.sources[source], frequency) : 0)),
    ),
  ];
}

const sumAt = (parts: readonly Float64Array[], i: number): number => parts.reduce((sum, part) => sum + part[i]!, 0);

const over = (density: number, magnitude: number): number | null => (magnitude > 0 ? density / magnitude : null);

/** Power of every source over a rule, plain and through A [rad^2]. */
const spectraOf =
  (thermal: ThermalNoise, light: LightNoise | null, range: Range) =>
  ({ f, df }: FrequencyRule): readonly { readonly power: number; readonly powerA: number }[] =>
    densities(thermal, light, f, range).map((density) => {
      let [power, powerA] = [0, 0];
      for (let i = 0; i < f.length; i++) {
        power += density[i]! * df[i]!;
        powerA += density[i]! * df[i]! * aWeightPower(f[i]!);
      }
      return { power, powerA };
    });

/** |S| at frequencies [rad/Pa]: from the curve, and solved in the bases for heat beyond it. */
function responseSizes(curve: Curve, { even }: HeatSystem, frequencies: Float64Array): Float64Array {
  const { re, im } = readCurve(curve, frequencies);
  return frequencies.map((frequency, i) => {
    if (frequency >= curve.from && frequency <= curve.to) return Math.hypot(re[i]!, im[i]!);
    const { response } = deviceAt(even.system, even.line, complex(2 * Math.PI * frequency));
    return Math.hypot(response.re, response.im);
  });
}

/** Bands of noise over |S(f)|. */
function octaves(
  { curve, peaks }: NoiseQuestion,
  system: HeatSystem,
  thermal: ThermalNoise,
  light: LightNoise | null,
  range: Range,
): Noise["thirdOctaves"] {
  return thirdOctaves(audible.from, audible.to).map(({ nominal, from, to }) => {
    const { f, df } = frequencyRule(from, to, { points: 4, peaks });
    const parts = densities(thermal, light, f, range);
    const sizes = responseSizes(curve, system, f);
    let power = 0;
    for (let i = 0; i < f.length; i++) power += (sumAt(parts, i) * df[i]!) / sizes[i]! ** 2;
    return { nominal, level: Number.isFinite(power) ? soundLevelDb(Math.sqrt(power)) : null };
  });
}

/** 120 frequencies in equal ratios. */
function pictured(
  { curve, peaks }: NoiseQuestion,
  system: HeatSystem,
  thermal: ThermalNoise,
  light: LightNoise | null,
  range: Range,
): Noise["spectrum"] {
  const even = Array.from({ length: 120 }, (_, i) => audible.from * pow(audible.to / audible.from, i / 119));
  const narrow = peaks.map(({ at }) => at).filter((at) => at > audible.from && at < audible.to);
  const frequency = [...even, ...narrow].sort((a, b) => a - b);
  const parts = densities(thermal, light, Float64Array.from(frequency), range);
  return {
    frequency,
    total: frequency.map((_, i) => Math.sqrt(sumAt(parts, i))),
    bySource: noiseSources.map((source, k) => ({ source, density: Array.from(parts[k]!, Math.sqrt) })),
    response: Array.from(responseSizes(curve, system, Float64Array.from(frequency))),
  };
}

/**
 * Shares of the heat at the reference by the second route; the diaphragm's own loss is what the viscous parts leave, because
 * its line needs a width (structuralNoise.ts).
 */
function sharesOf(
  system: HeatSystem,
  given: { readonly reference: number; readonly temperature: number; readonly density: number },
): Losses {
  const parts = thermalParts(system, given.reference, given.temperature);
  const viscous = lossParts.reduce((sum, part) => sum + (part === "structure" ? 0 : parts[part]), 0);
  const lossy = system.even.system.microphone.diaphragm.lossFactor > 0;
  const structure = lossy ? Math.max(0, given.density - viscous) : 0;
  const sum = viscous + structure;
  const share = (part: (typeof lossParts)[number]) =>
    sum > 0 ? (part === "structure" ? structure : parts[part]) / sum : 0;
  return Object.fromEntries(lossParts.map((part) => [part, share(part)])) as Record<keyof Losses, number>;
}
