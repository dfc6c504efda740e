/**
 * The device's own answers at many frequencies as a sum over poles (motionModel.ts).
 *
 * A constant loss factor is no cause of anything in time (its answer at rest has an imaginary part), so the device without it is
 * fitted and each pole then loses what it loses with it: as known, or half the factor of its size a radian.
 */
import { absolute, type Complex, complex, multiply, subtract } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { type FittedResponse, type VectorFit, vectorFit } from "../../numerics/vectorFit.ts";
import { type Answer, deviceAnswers, type LoudestEntry, partsOf } from "../loudest/tone.ts";
import type { Microphone } from "../microphone.ts";
import type { MotionModel } from "./motionModel.ts";

/** What is known of the device beforehand. */
export interface MotionQuestion {
  /** Lowest and highest frequency that counts [Hz]. */
  readonly from: number;
  readonly to: number;
  /** Poles to begin with, s [1/s]. */
  readonly known: readonly Complex[];
}

export interface FittedMotion {
  readonly model: MotionModel;
  /** Largest error of any answer at the frequencies that it was fitted to, relative to what counts as its size [-]. */
  readonly error: number;
  readonly samples: number;
}

/** Frequencies a decade, and how densely beside a known resonance. */
const perDecade = 14;
const beside = [-3, -1.5, -0.7, 0, 0.7, 1.5, 3] as const;
/** Poles besides the known ones: real ones and pairs, spread over the frequencies. */
const more = { real: 6, pairs: 7 } as const;
/** Rounds of moving the poles at most. */
const rounds = 12;
/** An error of all answers that is small enough [-]. */
const within = 1e-7;
/** Below this share of its largest an answer counts as if it were as large. */
const floor = 1e-3;

export function fitMotion(
  entry: LoudestEntry,
  microphone: Microphone,
  { from, to, known }: MotionQuestion,
): FittedMotion {
  const { lossFactor } = microphone.diaphragm;
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const answers = deviceAnswers(entry, lossless, partsOf(entry, microphone));
  const omega = sampled({ from, to, known });
  const found = omega.map((one) => {
    const { pressed, slow, bySound } = answers.at(one);
    return { pressed, slow, sound: bySound() };
  });
  const of = (read: (answer: Answer, slow: Complex) => Complex, constant: boolean): FittedResponse[] =>
    (["sound", "pressed"] as const).map((drive) => ({
      values: found.map((one) => read(one[drive], one.slow)),
      constant,
      floor,
    }));
  // The film of a plate that moves fast is its air's mass: a pressure with the acceleration, so of the force on the plate.
  const responses = [
    ...of(({ moved }) => moved, false),
    ...of(({ film }, slow) => multiply(slow, film), false),
    ...of(({ film }, slow) => subtract(film, multiply(slow, film)), true),
    ...microphone.guides.flatMap((_, g) => of(({ phase }) => phase[g]!, true)),
  ];
  const fit = vectorFit(omega, responses, {
    start: starts({ from, to, known }),
    unit: 2 * Math.PI * to,
    rounds,
    within,
  });
  const poles = fit.poles.map((pole) => lossy(pole, lossFactor, known));
  return {
    model: modelOf({ ...fit, poles }, microphone.film !== null),
    error: Math.max(...fit.errors),
    samples: omega.length,
  };
}

/** A pole of the device without its loss factor, with it. */
function lossy(pole: Complex, lossFactor: number, known: readonly Complex[]): Complex {
  if (pole.im === 0 || lossFactor === 0) return pole;
  const size = absolute(pole);
  const [nearest] = known
    .filter(({ im }) => im > 0)
    .map((one) => ({ one, off: absolute(subtract(one, pole)) }))
    .sort((a, b) => a.off - b.off);
  if (nearest && nearest.off < 2 * lossFactor * size) return nearest.one;
  return { re: pole.re - (lossFactor / 2) * size, im: pole.im };
}

function modelOf({ poles, terms }: VectorFit, film: boolean): MotionModel {
  const none = { residues: poles.map(() => complex(0)), constant: 0 };
  const driven = (at: number) => ({ sound: terms[2 * at] ?? none, plate: terms[2 * at + 1] ?? none });
  const nothing = { sound: none, plate: none };
  return {
    poles,
    moved: driven(0),
    slow: film ? driven(1) : nothing,
    spring: film ? driven(2) : nothing,
    phases: Array.from({ length: terms.length / 2 - 3 }, (_, g) => driven(3 + g)),
  };
}

/** Evenly over the logarithm, and around every known resonance in units of its half width [rad/s]. */
function sampled({ from, to, known }: MotionQuestion): readonly number[] {
  const decades = Math.log10(to / from);
  const count = Math.ceil(decades * perDecade);
  const even = Array.from({ length: count + 1 }, (_, i) => 2 * Math.PI * from * pow(to / from, i / count));
  const around = known
    .filter(({ im }) => im > 0)
    .flatMap(({ re, im }) => beside.map((width) => im + width * Math.abs(re)))
    .filter((omega) => omega > even[0]! && omega < even.at(-1)!);
  return [...even, ...around].sort((a, b) => a - b);
}

function starts({ from, to, known }: MotionQuestion): Complex[] {
  const spread = (low: number, high: number, count: number) =>
    Array.from({ length: count }, (_, i) => 2 * Math.PI * low * pow(high / low, (i + 0.5) / count));
  return [
    ...known,
    ...spread(from, to, more.real).map((rate) => complex(-rate)),
    ...spread(to / 40, to, more.pairs).map((omega) => ({ re: -omega / 20, im: omega })),
  ];
}
