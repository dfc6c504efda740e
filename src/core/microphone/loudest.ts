/**
 * The loudest sound: where the output's total harmonic distortion comes to a given share, by readout, by the diaphragm's
 * stretching and stiffening, and by the film that is squeezed, each alone and all together.
 *
 * The linear device gives the phase, deflection and film pressure at the tone; quadratic and cubic terms of diaphragm and film
 * make phases at twice and three times its frequency, which the readout's curve mixes. Complex amplitudes are summed, then
 * the distortion is taken. Derivation: docs/theory/loudest.md. Holds: weak distortion, up to a tenth or so; jet loss in holes
 * and sound's own nonlinearity are left out.
 */

import { absolute, complex, multiply, scale, subtract } from "../numerics/complex.ts";
import { pow } from "../numerics/power.ts";
import { sin } from "../numerics/sine.ts";
import { holeImpedance } from "../parts/acoustics/tube.ts";
import { type DistortedGuide, totalDistortion } from "../parts/readout/distortion.ts";
import { outputCurve } from "../parts/readout/operating.ts";
import { transferOf } from "../parts/readout/transfer.ts";
import { referencePressure, soundLevelDb } from "../quantity/kinds.ts";
import type { Microphone } from "./microphone.ts";
import type { PhaseSeries } from "./phaseSeries.ts";
import { type LoudestEntry, partsOf, type Tone, toneAt } from "./tone.ts";

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
  const distorted = guidesOf(microphone, parts.series, tone, bias);
  const levelOf = (causes: ReadonlySet<DistortionCause>) =>
    distorted && firstLevel((pressure) => totalDistortion(distorted(pressure, causes)) ?? 1, distortion);
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
    moved: absolute(tone.moved),
  };
}

/** Level, and deflection over that at rest, of a device whose tone is known; alone what a verdict needs. `near`: a guess [dB]. */
export function loudestLevel(
  microphone: Microphone,
  { tone, series }: { readonly tone: Tone; readonly series: readonly PhaseSeries[] },
  question: { readonly distortion: number; readonly bias: readonly (number | null)[]; readonly near: number | null },
): { readonly level: number | null; readonly moved: number } {
  const { distortion, bias, near } = question;
  const distorted = guidesOf(microphone, series, tone, bias);
  const causes = new Set(distortionCauses);
  const share = (pressure: number) => totalDistortion(distorted!(pressure, causes)) ?? 1;
  const reached = distorted && (levelNear(share, distortion, near) ?? firstLevel(share, distortion));
  const level = distorted === null ? null : least([reached, contactLevel(microphone, tone.center)]);
  return { level, moved: absolute(tone.moved) };
}

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

/** The lowest level where a share is reached, dB re 20 uPa: in steps of 5 dB from 40 dB, then halved to 1e-3 dB. */
function firstLevel(share: (pressure: number) => number, asked: number): number | null {
  const at = (level: number) => share(amplitudeOf(level)) - asked;
  if (at(40) >= 0) return null;
  for (let level = 40; level < most; level += 5) {
    if (at(level + 5) < 0) continue;
    let [low, high] = [level, level + 5];
    while (high - low > 1e-3) {
      const middle = (low + high) / 2;
      if (at(middle) < 0) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }
  return null;
}

type Distorted = (pressure: number, causes: ReadonlySet<DistortionCause>) => readonly DistortedGuide[];

/** Null where a bias is unknown or a readout stands in its null. */
function guidesOf(
  { guides, readout }: Microphone,
  series: readonly PhaseSeries[],
  tone: Tone,
  bias: readonly (number | null)[],
): Distorted | null {
  const { amplitude, angle } = outputCurve(transferOf(readout), readout.outputs);
  if (amplitude === 0 || bias.some((one) => one === null || Math.abs(sin(one + angle)) < 1e-9)) return null;
  return (pressure, causes) =>
    guides.map((guide, i) => {
      const rest = (bias[i] ?? 0) + angle;
      const slope = -amplitude * sin(rest);
      const first = scale(tone.phase[i]!, pressure);
      const { second, third, shift } = overtones(tone, series[i]!, i, pressure, causes);
      // Without the readout's own curve a small phase stands for the large one.
      const small = causes.has("readout") ? 1 : 1e-4 / Math.max(absolute(first), 1e-30);
      return {
        weight: guide.weight,
        amplitude,
        rest: causes.has("readout") ? rest : -Math.PI / 2,
        slope: causes.has("readout") ? slope : amplitude,
        phases: [scale(first, small), scale(second, small), scale(third, small)],
        shift: causes.has("readout") ? shift : 0,
      };
    });
}

/** Phases at twice and three times the tone, and the steady shift [rad]. */
function overtones(
  { moved, plateThrice, film, plateTwice }: Tone,
  { quadratic, cubic }: PhaseSeries,
  i: number,
  pressure: number,
  causes: ReadonlySet<DistortionCause>,
) {
  let [second, third] = [complex(0), complex(0)];
  let shift = 0;
  const load = scale(moved, pressure);
  if (causes.has("diaphragm")) {
    // (Re W e^{i omega t})^2 = |W|^2 / 2 + Re W^2 e^{2 i omega t} / 2, and the cube's part at three times is W^3 / 4.
    second = scale(multiply(load, load), quadratic / 2);
    third = scale(multiply(multiply(multiply(load, load), load), plateThrice), cubic / 4);
    shift = (quadratic * absolute(load) ** 2) / 2;
  }
  if (causes.has("film") && film) {
    const force = scale(multiply(multiply(film.closing, film.pressure), film.exponent), pressure ** 2 / 2);
    second = subtract(second, multiply(plateTwice[i]!, force));
  }
  return { second, third, shift };
}

/** The wall is met where the static deflection and the amplitude at the center use up the gap. */
function contactLevel({ film, load }: Microphone, center: number): number | null {
  if (!film || center === 0) return null;
  const settled = load?.settled;
  const room = settled ? (settled.gap ?? film.gap) - settled.center : film.gap;
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
