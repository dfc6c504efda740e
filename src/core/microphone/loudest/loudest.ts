/**
 * The loudest sound: where the output's total harmonic distortion comes to a given share, by readout, by the diaphragm's
 * stretching and stiffening, and by the film that is squeezed, each alone and all together.
 *
 * The linear device answers the tone and its multiples; what stretching and film make of it to the third power of its pressure
 * (overtones.ts) are phases that the readout's curve mixes. Complex amplitudes are summed, then the distortion is taken. One
 * level for all: verdict, chart, choose and spread read it, with steadyTone.ts as the second opinion.
 * Derivation: docs/theory/loudest.md. Holds: weak distortion, up to a tenth or so; jet loss in holes and sound's own
 * nonlinearity are left out.
 */

import { absolute, complex, scale, subtract } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import { type DistortedGuide, totalDistortion } from "../../parts/readout/distortion.ts";
import { outputCurve } from "../../parts/readout/operating.ts";
import { transferOf } from "../../parts/readout/transfer.ts";
import { referencePressure, soundLevelDb } from "../../quantity/kinds.ts";
import type { Microphone } from "../microphone.ts";
import {
  type FirstTerms,
  firstTerms,
  forcesToThird,
  type GuideReading,
  type Phases,
  phasesToFifth,
} from "./overtones.ts";
import type { Stretch } from "./phaseSeries.ts";
import { type LoudestEntry, partsOf, roomToWall, type Tone, toneAt } from "./tone.ts";

export type { LoudestEntry, LoudestParts } from "./tone.ts";

export const distortionCauses = ["readout", "diaphragm", "film"] as const;
export type DistortionCause = (typeof distortionCauses)[number];

export interface Loudest {
  /** Frequency of the tone [Hz], and the distortion asked for [-]. */
  readonly frequency: number;
  readonly distortion: number;
  /** Level at which it is reached, or at which the diaphragm meets the wall, dB re 20 uPa; null: no linear output at this bias. */
  readonly level: number | null;
  /** The level by all causes together, the wall left aside; null: not below 200 dB. */
  readonly summed: number | null;
  /** The same by each cause alone, null: not below 200 dB. */
  readonly byCause: Readonly<Record<DistortionCause, number | null>>;
  /** Level at which the diaphragm touches the wall behind the film; null: no film, or not below 200 dB. */
  readonly contact: number | null;
  /** Cause that comes first. */
  readonly first: DistortionCause | "contact" | null;
  /** Level at which a port's voltage leaves the converter's full scale, the steady part taken off; null: not given. */
  readonly converter: number | null;
  /** Level at which the air in the narrowest front hole moves as far as its radius: jet loss begins, which is not computed. */
  readonly jet: number | null;
  /** Mean deflection at the tone over that at rest under the same pressure [-]. */
  readonly moved: number;
}

const most = 200;

/** Level at which the distortion is reached at a frequency. `bias`: retardation at rest of each guide [rad]; null: unknown. */
export function loudestAt(
  entry: LoudestEntry,
  microphone: Microphone,
  question: { readonly frequency: number; readonly distortion: number; readonly bias: readonly (number | null)[] },
): Loudest {
  const { frequency, distortion, bias } = question;
  const parts = partsOf(entry, microphone);
  const tone = toneAt(entry, microphone, parts, frequency);
  const distorted = outputsOf(microphone, parts.stretch, tone, bias);
  const levelOf = (causes: ReadonlySet<DistortionCause>) => distorted && levelReaching(distorted(causes), distortion);
  const all = levelOf(new Set(distortionCauses));
  const alone = (cause: DistortionCause) => levelOf(new Set([cause]));
  const byCause = { readout: alone("readout"), diaphragm: alone("diaphragm"), film: alone("film") };
  const contact = contactLevel(microphone, tone.center);
  const level = distorted === null ? null : least([all, contact]);
  return {
    frequency,
    distortion,
    level,
    summed: all,
    byCause,
    contact,
    first: level === null ? null : firstOf({ ...byCause, contact }),
    converter: converterLevel(microphone, tone, bias),
    jet: jetLevel(microphone, tone, frequency),
    moved: tone.moved,
  };
}

/** Level, and deflection over that at rest, of a device whose tone is known; alone what a verdict needs. */
export function loudestLevel(
  microphone: Microphone,
  { tone, stretch }: { readonly tone: Tone; readonly stretch: Stretch },
  { distortion, bias }: { readonly distortion: number; readonly bias: readonly (number | null)[] },
): { readonly level: number | null; readonly moved: number } {
  const distorted = outputsOf(microphone, stretch, tone, bias);
  const reached = distorted && levelReaching(distorted(new Set(distortionCauses)), distortion);
  const level = distorted === null ? null : least([reached, contactLevel(microphone, tone.center)]);
  return { level, moved: tone.moved };
}

/** An output under tones of one frequency. */
interface Output {
  /** Distortion under an amplitude [Pa]. */
  readonly share: (pressure: number) => number;
  readonly first: FirstTerms;
}

const levelReaching = ({ share, first }: Output, asked: number): number | null =>
  levelNear(share, asked, first) ?? firstLevel(share, asked, first);

/** Natural logarithm of an amplitude a decibel. */
const perDecibel = Math.LN10 / 20;

/** Changes of a level that the search ends with [dB]. */
const fine = 1e-4;

/**
 * Where the first terms reach a share, dB re 20 uPa, and how fast its logarithm grows there [1/dB]; infinitely far without any.
 *
 *     share^2 = second^2 p^2 + third^2 p^4
 */
function firstGuess({ second, third }: FirstTerms, asked: number): { readonly level: number; readonly slope: number } {
  const [a, b] = [second ** 2, third ** 2];
  const squared = (2 * asked ** 2) / (a + Math.sqrt(a ** 2 + 4 * b * asked ** 2));
  return {
    level: levelOfAmplitude(Math.sqrt(squared)),
    slope: (perDecibel * (a * squared + 2 * b * squared ** 2)) / asked ** 2,
  };
}

/** Where a share is reached, by the secant rule from there; null where it does not grow evenly around that. */
function levelNear(share: (pressure: number) => number, asked: number, first: FirstTerms): number | null {
  let { level: here, slope } = firstGuess(first, asked);
  let value = 0;
  let moved = Number.POSITIVE_INFINITY;
  for (let step = 0; step < 6 && here > 40 && here < most; step++) {
    const valueBefore = value;
    value = Math.log(share(amplitudeOf(here)) / asked);
    if (step > 0) slope = (value - valueBefore) / moved;
    // Harmonics grow with the first or second power of the pressure, 0.115 to 0.23 a decibel, slower where two come to cancel.
    if (!(slope > 0.04 && slope < 0.3)) return null;
    const move = -value / slope;
    here += move;
    // What is left after a secant's step is the product of the last two, times a few hundredths a decibel.
    if (Math.abs(move) < fine || (step > 0 && bending * Math.abs(move * moved) < fine)) return here;
    moved = move;
  }
  return null;
}

/** Half the curvature of ln share over its slope, at most [1/dB]: between a slope of one power and of two it is 0.02. */
const bending = 0.05;

const least = (levels: readonly (number | null)[]): number | null => {
  const known = levels.filter((level) => level !== null);
  return known.length === 0 ? null : Math.min(...known);
};

function firstOf(levels: Readonly<Record<DistortionCause | "contact", number | null>>): Loudest["first"] {
  let first: Loudest["first"] = null;
  for (const cause of [...distortionCauses, "contact"] as const) {
    const level = levels[cause];
    if (level !== null && level < (first === null ? Number.POSITIVE_INFINITY : (levels[first] ?? 0))) first = cause;
  }
  return first;
}

/** Amplitude of a tone of a level [Pa], and the level of a tone of an amplitude: levels are of root mean squares. */
export const amplitudeOf = (level: number): number => Math.SQRT2 * referencePressure * pow(10, level / 20);
const levelOfAmplitude = (amplitude: number): number => soundLevelDb(amplitude / Math.SQRT2);

/** Steps in which the lowest level is looked for [dB]: the share of a film that all but closes goes up and down. */
const stride = 2.5;

/**
 * The lowest level where a share is reached, dB re 20 uPa, in steps from 20 dB below the one where its first terms reach it (from
 * 40 dB at least and 140 dB at most), then by the false position to 1e-4 dB.
 */
function firstLevel(share: (pressure: number) => number, asked: number, first: FirstTerms): number | null {
  // No harmonics at all lie as far below any share as these do.
  const at = (level: number) => Math.log(Math.max(share(amplitudeOf(level)), 1e-12) / asked);
  let low = Math.max(40, Math.min(140, firstGuess(first, asked).level - 20));
  let below = at(low);
  if (below >= 0 && low > 40) [low, below] = [40, at(40)];
  if (below >= 0) return null;
  while (low < most) {
    const high = Math.min(most, low + stride);
    const above = at(high);
    if (above >= 0) return between(at, { low, below, high, above });
    [low, below] = [high, above];
  }
  return null;
}

/** A zero between two levels of unlike sign: the false position, the end that stays counted half (Illinois). */
function between(
  at: (level: number) => number,
  { low, below, high, above }: { low: number; below: number; high: number; above: number },
): number {
  for (let step = 0, stayed = 0; step < 60; step++) {
    const level = low - (below * (high - low)) / (above - below);
    const value = at(level);
    if (Math.min(level - low, high - level) < 1e-4 || value === 0) return level;
    if (value < 0) {
      [low, below] = [level, value];
      if (stayed === 1) above /= 2;
      stayed = 1;
    } else {
      [high, above] = [level, value];
      if (stayed === -1) below /= 2;
      stayed = -1;
    }
  }
  return (low + high) / 2;
}

type Distorted = (causes: ReadonlySet<DistortionCause>) => Output;

/** Null where a bias is unknown or a readout stands in its null. */
function outputsOf(
  { guides, readout }: Microphone,
  stretch: Stretch,
  tone: Tone,
  bias: readonly (number | null)[],
): Distorted | null {
  const { amplitude, angle } = outputCurve(transferOf(readout), readout.outputs);
  const rests = bias.map((one) => (one === null ? null : one + angle));
  if (amplitude === 0 || rests.some((rest) => rest === null || Math.abs(sin(rest)) < 1e-9)) return null;
  return (causes) => {
    const counted = {
      stretch: causes.has("diaphragm") ? stretch : unstretched(stretch),
      closing: causes.has("film") ? tone.closing : 0,
    };
    const balance = { multiples: tone.multiples, stiffening: counted.stretch.stiffening, closing: counted.closing };
    const readings = readingsBy(tone, counted.stretch);
    const forces = forcesToThird(balance);
    const curved = causes.has("readout");
    const curves = guides.map(({ weight }, i) => {
      const rest = curved ? (rests[i] ?? 0) : -Math.PI / 2;
      return { weight, rest, slope: -amplitude * sin(rest) };
    });
    return {
      first: firstTerms(
        balance,
        readings,
        forces,
        curves.map(({ weight, rest }) => ({ weight, cotangent: curved ? cos(rest) / sin(rest) : null })),
      ),
      share: (pressure) => {
        const distorted = phasesToFifth(balance, readings, forces, pressure).map((read, i): DistortedGuide => {
          const { weight, rest, slope } = curves[i]!;
          return { weight, amplitude, rest, slope, ...(curved ? read : faint(read)) };
        });
        return totalDistortion(distorted) ?? 1;
      },
    };
  };
}

/** A small phase in place of a large one, so that the readout's curve is straight. */
function faint({ phases }: Phases): Phases {
  const small = 1e-4 / Math.max(absolute(phases[0]!), 1e-30);
  return { phases: phases.map((phase) => scale(phase, small)), shift: 0 };
}

/** The same plate without stretching. */
const unstretched = ({ series }: Stretch): Stretch => ({
  series: series.map(({ linear }) => ({ linear, quadratic: 0, cubic: 0 })),
  stiffening: { square: 0, cube: 0 },
});

/** How each guide reads the balance: phi = l x + (q + l s_2) x^2 + (c + 2 q s_2 + l s_3) x^3, l as the device at rest has it. */
export function readingsBy(
  { phase, plate, multiples }: Tone,
  { series, stiffening }: Stretch,
): readonly GuideReading[] {
  const { square, cube } = stiffening;
  return series.map(({ quadratic, cubic }, g) => {
    const linear = plate[0]![g]!.re / multiples[0]!.moved.plate.re;
    return {
      sound: phase[g]!,
      plate: plate.map((guides) => guides[g]!),
      square: quadratic + linear * square,
      cube: cubic + 2 * quadratic * square + linear * cube,
    };
  });
}

/** The wall is met where the static deflection and the amplitude at the center use up the gap. */
function contactLevel(microphone: Microphone, center: number): number | null {
  const room = roomToWall(microphone);
  if (room === null || center === 0) return null;
  const level = levelOfAmplitude(room / center);
  return level < most ? level : null;
}

/** Half the full scale against the swing of one port's voltage, a linear estimate. */
function converterLevel(
  { light, readout }: Microphone,
  { phase }: Tone,
  bias: readonly (number | null)[],
): number | null {
  const { responsivity, resistor, fullScale } = readout.receiver;
  const [atRest] = bias;
  const [first] = phase;
  if (light.launched === null || responsivity === null || resistor === null || fullScale === null) return null;
  if (atRest === null || atRest === undefined || first === undefined) return null;
  const port = transferOf(readout).first;
  const power = (light.launched * light.transmission) / phase.length;
  const perRadian = responsivity * power * resistor * port.amplitude * Math.abs(sin(atRest + port.angle));
  const perPascal = perRadian * absolute(first);
  return perPascal > 0 ? levelOfAmplitude(fullScale / 2 / perPascal) : null;
}

/** Air in a hole moves by |p_s - p_f| / |Z_h| / (omega S). */
function jetLevel({ front, air }: Microphone, tone: Tone, frequency: number): number | null {
  const omega = 2 * Math.PI * frequency;
  const across = absolute(subtract(complex(1), tone.front));
  const levels = (front?.holes ?? []).map((hole) => {
    const area = (Math.PI * hole.diameter ** 2) / 4;
    const moved = across / absolute(holeImpedance({ ...hole, air, omega: complex(omega) })) / (omega * area);
    return moved > 0 ? levelOfAmplitude(hole.diameter / 2 / moved) : null;
  });
  return least(levels);
}
