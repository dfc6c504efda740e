/**
 * The output under a steady tone with readout, stretched diaphragm and squeezed film at once (harmonicBalance.ts), and the level
 * at which its distortion comes to a share: a second opinion on loudest.ts where its causes come close to each other.
 */

import { absolute, type Complex, complex, divide, scale } from "../numerics/complex.ts";
import { cube } from "../numerics/power.ts";
import { sin } from "../numerics/sine.ts";
import { isBowed } from "../parts/diaphragm/diaphragm.ts";
import { type DistortedGuide, totalDistortion } from "../parts/readout/distortion.ts";
import { outputCurve } from "../parts/readout/operating.ts";
import { transferOf } from "../parts/readout/transfer.ts";
import { type CoupledSystem, coupledSystem, setFrequency } from "./coupled.ts";
import { type Balance, type Balanced, balanceTone, cosines, type Multiple, samples, sines } from "./harmonicBalance.ts";
import { amplitudeOf } from "./loudest.ts";
import type { Microphone } from "./microphone.ts";
import { type Drive, readState, stateAt } from "./state.ts";
import { dot, filmExponent, type LoudestEntry, type LoudestParts, partsOf, toneAt } from "./tone.ts";

export interface SteadyTone {
  /** Distortion asked for [-], and the level where the simulated output has it, dB re 20 uPa; null: not found. */
  readonly distortion: number;
  readonly level: number | null;
  /** Why the search ended: found; the film closes or nothing balances there; not below 200 dB, or above the share at 40 dB. */
  readonly stopped: "reached" | "no-balance" | "out-of-range";
  /** Multiples of the tone counted, and the last one's share of the forces off the straight line at that level [-]. */
  readonly multiples: number;
  readonly left: number;
}

/** The device made ready for tones of one frequency. */
interface Ready {
  readonly balance: Balance;
  /** Phase of each guide [rad/Pa]: per pascal of sound at the tone, per pascal on the plate at each multiple. */
  readonly sound: readonly Complex[];
  readonly plate: readonly (readonly Complex[])[];
  /** What each guide reads at once of x^2 and x^3 [rad/Pa^2, rad/Pa^3]. */
  readonly read: readonly { readonly square: number; readonly cube: number }[];
  readonly guide: readonly Omit<DistortedGuide, "phases" | "shift">[];
}

/** So slow that every vent has let its air through [Hz]. */
const restFrequency = 1e-3;
/** Multiples at first and at most, and the last one's share of the forces that is small enough. */
const counts = [8, 16] as const;
const small = 1e-3;

/** Levels of the shares asked for; null where a bias is unknown or a readout stands in its null. */
export function steadyTones(
  entry: LoudestEntry,
  microphone: Microphone,
  question: {
    readonly frequency: number;
    readonly distortions: readonly number[];
    readonly bias: readonly (number | null)[];
  },
): readonly SteadyTone[] | null {
  const { frequency, distortions, bias } = question;
  const made = new Map<number, Ready>();
  const readyFor = (count: number): Ready | null => {
    const known = made.get(count);
    if (known) return known;
    const fresh = ready(entry, microphone, { frequency, bias, count });
    if (fresh) made.set(count, fresh);
    return fresh;
  };
  if (readyFor(counts[0]) === null) return null;
  return distortions.map((distortion) => {
    let answer: SteadyTone | null = null;
    for (const count of counts) {
      answer = searchLevel(readyFor(count)!, distortion, count);
      if (answer.left <= small) break;
    }
    return answer!;
  });
}

function ready(
  entry: LoudestEntry,
  microphone: Microphone,
  { frequency, bias, count }: { frequency: number; bias: readonly (number | null)[]; count: number },
): Ready | null {
  const { amplitude, angle } = outputCurve(transferOf(microphone.readout), microphone.readout.outputs);
  if (amplitude === 0 || bias.some((one) => one === null || Math.abs(sin(one + angle)) < 1e-9)) return null;
  const parts = partsOf(entry, microphone);
  const system = coupledSystem(entry.prepared, microphone);
  const atRest = dot(entry.prepared.fine.load, entry.static);
  const zero = complex(0);
  const answers = Array.from({ length: count + 1 }, (_, k) =>
    answerAt(system, parts, complex(2 * Math.PI * (k === 0 ? restFrequency : k * frequency)), atRest),
  );
  const { film: squeezed, moved } = toneAt(entry, microphone, parts, frequency);
  const once = answers[1]!;
  const multiples = answers.map(
    ({ plate, exponent }, k): Multiple => ({
      moved: { sound: k === 1 ? once.sound.moved : zero, plate: k === 0 ? complex(plate.moved.re) : plate.moved },
      film: { sound: k === 1 ? once.sound.film : zero, plate: k === 0 ? complex(plate.film.re) : plate.film },
      exponent,
    }),
  );
  const stiffening = stiffeningAbout(microphone, parts);
  return {
    balance: { multiples, stiffening, closing: squeezed ? divide(squeezed.closing, moved).re : 0 },
    sound: once.sound.phase,
    plate: answers.map(({ plate }) => plate.phase),
    read: parts.series.map(({ linear, quadratic, cubic }) => ({
      // The series is one in the pressure p = x + s2 x^2 + s3 x^3; what the forces move is read through the device.
      square: quadratic,
      cube: cubic + 2 * quadratic * stiffening.square + linear * stiffening.cube,
    })),
    guide: microphone.guides.map(({ weight }, i) => {
      const rest = (bias[i] ?? 0) + angle;
      return { weight, amplitude, rest, slope: -amplitude * sin(rest) };
    }),
  };
}

/** p = x + s2 x^2 + s3 x^3 about the state at rest, from p = k1 w + k3 w^3 of the flat plate. */
function stiffeningAbout(
  { diaphragm, load }: Microphone,
  { stiffening: { linear, cubic } }: LoudestParts,
): Balance["stiffening"] {
  // A bow of stressed layers counts as the pressure that would bend the plate as far.
  const bow = isBowed(diaphragm) ? load?.settled?.center : undefined;
  const difference = bow === undefined ? (load?.difference ?? 0) : linear * bow + cubic * cube(bow);
  let w = difference / linear;
  for (let step = 0; step < 60; step++) w -= (linear * w + cubic * cube(w) - difference) / (linear + 3 * cubic * w * w);
  const slope = linear + 3 * cubic * w * w;
  return { square: (3 * cubic * w) / slope ** 2, cube: cubic / cube(slope) };
}

/** What sound and an even pressure on the plate do at one frequency. */
function answerAt(system: CoupledSystem, { lines }: LoudestParts, omega: Complex, atRest: number) {
  const { prepared, microphone, ones } = system;
  const { load } = prepared.plate;
  setFrequency(system, omega);
  const to = (drive: Drive, even: number) => {
    const state = stateAt(system, omega, drive);
    // What the influence function reads of an even load on the plate comes by the pushes.
    const read = { ...state, pushes: { ...state.pushes, plate: complex(even) } };
    return {
      moved: scale({ re: dot(load, state.q.re), im: dot(load, state.q.im) }, 1 / atRest),
      film: state.film && ones ? { re: dot(ones, state.film.re) / 4, im: dot(ones, state.film.im) / 4 } : complex(0),
      phase: lines.map((line) => readState(system, line, read)),
    };
  };
  return {
    sound: to({ sound: complex(1) }, 0),
    plate: to({ load: { re: load, im: new Float64Array(load.length) } }, 1),
    exponent: filmExponent(microphone, omega),
  };
}

/** Harmonics of the phase of each guide under a balanced tone. */
function phasesOf({ balance, sound, plate, read }: Ready, pressure: number, { forces, moved }: Balanced) {
  return read.map(({ square, cube }, g) => {
    const phases: { re: number; im: number }[] = [];
    let shift = 0;
    for (let k = 0; k < balance.multiples.length; k++) {
      let [re, im] = [0, 0];
      for (let i = 0; i < samples; i++) {
        const x = moved[i]!;
        const bent = (square + cube * x) * x * x;
        re += bent * cosines[(k * i) % samples]!;
        im -= bent * sines[(k * i) % samples]!;
      }
      const by = plate[k]![g]!;
      const force = forces[k]!;
      const share = (k === 0 ? 1 : 2) / samples;
      const own = k === 1 ? scale(sound[g]!, pressure) : complex(0);
      const sum = {
        re: own.re + by.re * force.re - by.im * force.im + re * share,
        im: own.im + by.re * force.im + by.im * force.re + im * share,
      };
      if (k === 0) shift = sum.re;
      else phases.push(sum);
    }
    return { phases, shift };
  });
}

/** In steps of 5 dB from 40 dB, then by halves to 0.005 dB; each state begins at its neighbor's. */
function searchLevel(ready: Ready, distortion: number, multiples: number): SteadyTone {
  let near: Balanced | null = null;
  const at = (level: number): { readonly share: number; readonly state: Balanced } | null => {
    const pressure = amplitudeOf(level);
    const state = balanceTone(ready.balance, pressure, near?.forces ?? null);
    if (state === null) return null;
    const guides = phasesOf(ready, pressure, state).map((phase, g) => ({ ...ready.guide[g]!, ...phase }));
    return { share: totalDistortion(guides) ?? 1, state };
  };
  const done = (level: number | null, stopped: SteadyTone["stopped"]): SteadyTone => ({
    distortion,
    level,
    stopped,
    multiples,
    left: near === null ? 0 : lastShare(near.forces),
  });
  const begin = at(40);
  if (begin === null || begin.share >= distortion) return done(null, "out-of-range");
  near = begin.state;
  for (let level = 40; level < 200; level += 5) {
    const above = at(level + 5);
    if (above !== null && above.share < distortion) {
      near = above.state;
      continue;
    }
    let [low, high, broken] = [level, level + 5, above === null];
    while (high - low > 5e-3) {
      const middle = (low + high) / 2;
      const here = at(middle);
      if (here !== null && here.share < distortion) {
        low = middle;
        near = here.state;
      } else {
        high = middle;
        broken = here === null;
      }
    }
    return done((low + high) / 2, broken ? "no-balance" : "reached");
  }
  return done(null, "out-of-range");
}

function lastShare(forces: readonly Complex[]): number {
  const most = Math.max(...forces.map(absolute));
  return most === 0 ? 0 : absolute(forces.at(-1)!) / most;
}

/** Sum of the forces off the straight line over the sound's pressure under a tone of a level [-]; null: no steady state found. */
export function forcesUnder(
  entry: LoudestEntry,
  microphone: Microphone,
  question: { readonly frequency: number; readonly bias: readonly (number | null)[]; readonly level: number },
): number | null {
  const made = ready(entry, microphone, { ...question, count: counts[0] });
  if (made === null) return null;
  // Up to the level in steps, so that each state begins near its neighbor's.
  let state: Balanced | null = null;
  const steps = 12;
  for (let step = steps; step >= 0; step--) {
    state = balanceTone(made.balance, amplitudeOf(question.level - 2 * step), state?.forces ?? null);
    if (state === null) return null;
  }
  return state!.forces.reduce((sum, force) => sum + absolute(force), 0) / amplitudeOf(question.level);
}
