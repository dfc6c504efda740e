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
import { sin } from "../../numerics/sine.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import { type DistortedGuide, totalDistortion } from "../../parts/readout/distortion.ts";
import { outputCurve } from "../../parts/readout/operating.ts";
import { transferOf } from "../../parts/readout/transfer.ts";
import { referencePressure, soundLevelDb } from "../../quantity/kinds.ts";
import type { Microphone } from "../microphone.ts";
import { forcesToThird, type GuideReading, phasesToFifth } from "./overtones.ts";
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
  const distorted = guidesOf(microphone, parts.stretch, tone, bias);
  const levelOf = (causes: ReadonlySet<DistortionCause>) =>
    distorted && firstLevel(shareOf(distorted(causes)), distortion);
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

/** Level, and deflection over that at rest, of a device whose tone is known; alone what a verdict needs. `near`: a guess [dB]. */
export function loudestLevel(
  microphone: Microphone,
  { tone, stretch }: { readonly tone: Tone; readonly stretch: Stretch },
  question: { readonly distortion: number; readonly bias: readonly (number | null)[]; readonly near: number | null },
): { readonly level: number | null; readonly moved: number } {
  const { distortion, bias, near } = question;
  const distorted = guidesOf(microphone, stretch, tone, bias);
  const share = distorted && shareOf(distorted(new Set(distortionCauses)));
  const reached = share && (levelNear(share, distortion, near) ?? firstLevel(share, distortion));
  const level = share === null ? null : least([reached, contactLevel(microphone, tone.center)]);
  return { level, moved: tone.moved };
}

/** Distortion of the output over the tone's amplitude [Pa]. */
const shareOf = (guides: (pressure: number) => readonly DistortedGuide[]) => (pressure: number) =>
  totalDistortion(guides(pressure)) ?? 1;

/** The same level from a guess by the secant rule; null where the share does not grow evenly around it, or nobody guesses. */
function levelNear(share: (pressure: number) => number, asked: number, near: number | null): number | null {
  if (near === null) return null;
  const at = (level: number) => Math.log(share(amplitudeOf(level)) / asked);
  let [before, here] = [near - 1, near];
  let [valueBefore, value] = [at(before), at(here)];
  for (let step = 0; step < 6; step++) {
    // Harmonics grow with the first or second power of the pressure: 0.115 to 0.23 a decibel.
    const slope = (value - valueBefore) / (here - before);
    if (!(slope > 0.08 && slope < 0.6)) return null;
    const move = -value / slope;
    if (Math.abs(move) > 40) return null;
    [before, valueBefore] = [here, value];
    here += move;
    if (Math.abs(move) < 2e-4) return here > 40 && here < most ? here : null;
    value = at(here);
  }
  return null;
}

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

/** The lowest level where a share is reached, dB re 20 uPa: in steps of 20 dB from 100 dB, or from 40 dB, then by the false position to 1e-4 dB. */
function firstLevel(share: (pressure: number) => number, asked: number): number | null {
  // No harmonics at all lie as far below any share as these do.
  const at = (level: number) => Math.log(Math.max(share(amplitudeOf(level)), 1e-12) / asked);
  let [low, below] = [100, at(100)];
  if (below >= 0) [low, below] = [40, at(40)];
  if (below >= 0) return null;
  for (let level = low + 20; level <= most; level += 20) {
    const above = at(level);
    if (above >= 0) return between(at, { low, below, high: level, above });
    [low, below] = [level, above];
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

type Distorted = (causes: ReadonlySet<DistortionCause>) => (pressure: number) => readonly DistortedGuide[];

/** Null where a bias is unknown or a readout stands in its null. */
function guidesOf(
  { guides, readout }: Microphone,
  stretch: Stretch,
  tone: Tone,
  bias: readonly (number | null)[],
): Distorted | null {
  const { amplitude, angle } = outputCurve(transferOf(readout), readout.outputs);
  if (amplitude === 0 || bias.some((one) => one === null || Math.abs(sin(one + angle)) < 1e-9)) return null;
  return (causes) => {
    const counted = {
      stretch: causes.has("diaphragm") ? stretch : unstretched(stretch),
      closing: causes.has("film") ? tone.closing : 0,
    };
    const balance = { multiples: tone.multiples, stiffening: counted.stretch.stiffening, closing: counted.closing };
    const readings = readingsBy(tone, counted.stretch);
    const forces = forcesToThird(balance);
    return (pressure) =>
      phasesToFifth(balance, readings, forces, pressure).map(({ phases, shift }, i) => {
        const rest = (bias[i] ?? 0) + angle;
        const { weight } = guides[i]!;
        if (causes.has("readout")) return { weight, amplitude, rest, slope: -amplitude * sin(rest), phases, shift };
        // Without the readout's own curve a small phase stands for the large one.
        const small = 1e-4 / Math.max(absolute(phases[0]!), 1e-30);
        return {
          weight,
          amplitude,
          rest: -Math.PI / 2,
          slope: amplitude,
          phases: phases.map((phase) => scale(phase, small)),
          shift: 0,
        };
      });
  };
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
