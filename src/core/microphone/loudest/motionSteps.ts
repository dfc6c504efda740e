/**
 * A device stepped in time: the linear one exactly, by its poles, and the pressure off its straight line (harmonicBalance.ts)
 *
 *     N(t) = -(s_2 x^2 + s_3 x^3) - f_s ((1 - c x)^-3 - 1) - f_a ((1 - c x)^-1 - 1)
 *
 * as a cubic through its last values, the one at the step's end among them (an implicit step, solved for that one number). What the
 * sound does to the linear device is no step at all but its sum of poles.
 *
 * Derivation: docs/theory/loudest.md. Holds: error of the fourth power of the step, of the third after a sound begins or stops; the plate
 * moves in its static shape as far as the forces are concerned.
 */
import { type Complex, complex, multiply } from "../../numerics/complex.ts";
import { exponentialWeights } from "../../numerics/exponentialWeights.ts";
import { cube } from "../../numerics/power.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { type Driven, type MotionModel, outputOf, steadyStates, termsAt } from "../poles/motionModel.ts";
import type { Balance } from "./harmonicBalance.ts";

/** Re amplitude e^{i omega t} [Pa], t from the beginning of the steps. */
export interface SteppedSound {
  readonly omega: number;
  readonly amplitude: Complex;
}

/** What the forces are made of. */
export type OffTheLine = Pick<Balance, "stiffening" | "closing">;

export interface MotionSteps {
  /** [s] */
  time(): number;
  /** x [Pa], N [Pa], and the phase of each guide [rad], now. */
  moved(): number;
  force(): number;
  phases(): readonly number[];
  /** From now on this sound, or none; what rang before goes on ringing. */
  sound(sound: SteppedSound | null): void;
  /** This sound as if it had stood for ever, with its balanced forces N_0 .. N_K at t = 0. Only before the first step. */
  stand(sound: SteppedSound, forces: readonly Complex[]): void;
  /** Adds free motion: a state for each pole. */
  release(states: readonly Complex[]): void;
  /** One step on; false where the film closes, after which there is no further one. */
  advance(): boolean;
  /** The states of all poles by sound that is gone, and by the forces. */
  states(): { readonly free: readonly Complex[]; readonly forced: readonly Complex[] };
}

/** A film this thin, over its gap, is none. */
const thinnest = 0.02;

interface Row {
  /** Residues, twice where a mirror image belongs to a pole. */
  readonly soundRe: Float64Array;
  readonly soundIm: Float64Array;
  readonly plateRe: Float64Array;
  readonly plateIm: Float64Array;
  readonly soundConstant: number;
  readonly plateConstant: number;
}

export function motionSteps(model: MotionModel, { stiffening, closing }: OffTheLine, step: number): MotionSteps {
  const { poles } = model;
  const count = poles.length;
  const driven = [model.moved, model.slow, model.spring];
  const rows = driven.map((one) => rowOf(poles, one));
  const orders = ([1, 2, 3] as const).map((order) => poles.map((pole) => exponentialWeights(pole, step, order)));
  // What one pascal at the step's end does to each row by its end.
  const ends = orders.map((ways) =>
    rows.map(
      ({ plateRe, plateIm, plateConstant }) =>
        plateConstant +
        ways.reduce((sum, { weights }, k) => sum + plateRe[k]! * weights[0]!.re - plateIm[k]! * weights[0]!.im, 0),
    ),
  );
  const free = { re: new Float64Array(count), im: new Float64Array(count) };
  const forced = { re: new Float64Array(count), im: new Float64Array(count) };
  let steps = 0;
  let standing: SteppedSound | null = null;
  // Of the sound that stands, by row.
  let answers: readonly Complex[] = [];
  let pressures: number[] = [];
  let here = [0, 0, 0];
  const time = () => steps * step;

  const turned = ({ omega }: SteppedSound, at: number): Complex => complex(cos(omega * at), sin(omega * at));
  /** Rows by what is left of past sound and forces, and by the sound that stands. */
  const readRows = () => {
    const turn = standing && turned(standing, time());
    return rows.map(({ soundRe, soundIm, plateRe, plateIm }, i) => {
      let sum = turn ? multiply(answers[i]!, turn).re : 0;
      for (let k = 0; k < count; k++)
        sum +=
          soundRe[k]! * free.re[k]! -
          soundIm[k]! * free.im[k]! +
          plateRe[k]! * forced.re[k]! -
          plateIm[k]! * forced.im[k]!;
      return sum;
    });
  };
  /** N for rows that are base + slope N; null where the film closes. */
  const solved = (base: readonly number[], slope: readonly number[], start: number): number | null => {
    const { square, cube: third } = stiffening;
    let force = start;
    for (let round = 0; round < 50; round++) {
      const [x, slow, spring] = base.map((value, i) => value + slope[i]! * force) as [number, number, number];
      const left = 1 - closing * x;
      if (!(left > thinnest)) return null;
      const [cubed, once] = [1 / cube(left) - 1, 1 / left - 1];
      const off = force + (square + third * x) * x * x + slow * cubed + spring * once;
      const rise =
        1 +
        (2 * square + 3 * third * x) * x * slope[0]! +
        slope[1]! * cubed +
        slope[2]! * once +
        closing * slope[0]! * ((3 * slow) / (left * cube(left)) + spring / (left * left));
      const change = off / rise;
      force -= change;
      if (Math.abs(change) <= 1e-13 * (Math.abs(force) + Math.abs(x) * 1e-6)) break;
    }
    return force;
  };
  const begin = () => {
    const base = readRows();
    const slope = rows.map(({ plateConstant }) => plateConstant);
    const force = solved(base, slope, pressures[0] ?? 0) ?? 0;
    here = base.map((value, i) => value + slope[i]! * force);
    pressures = [force];
  };
  const change = (states: readonly Complex[], sign: 1 | -1) => {
    states.forEach(({ re, im }, k) => {
      free.re[k]! += sign * re;
      free.im[k]! += sign * im;
    });
  };
  const steadyNow = (sound: SteppedSound) =>
    steadyStates(poles, multiply(sound.amplitude, turned(sound, time())), complex(0, sound.omega));
  const put = (sound: SteppedSound | null) => {
    standing = sound;
    answers = sound
      ? driven.map((one) => multiply(termsAt(poles, one.sound, complex(0, sound.omega)), sound.amplitude))
      : [];
  };
  begin();
  return {
    time,
    moved: () => here[0]!,
    force: () => pressures[0]!,
    phases: () => {
      const states = { free: listed(free), forced: listed(forced) };
      const turn = standing && turned(standing, time());
      return model.phases.map(({ sound, plate }) => {
        const steady =
          turn && standing
            ? multiply(multiply(termsAt(poles, sound, complex(0, standing.omega)), standing.amplitude), turn).re
            : 0;
        return (
          steady +
          outputOf(poles, sound, states.free) +
          outputOf(poles, plate, states.forced) +
          plate.constant * pressures[0]!
        );
      });
    },
    sound: (sound) => {
      if (standing) change(steadyNow(standing), 1);
      if (sound) change(steadyNow(sound), -1);
      put(sound);
      begin();
    },
    stand: (sound, forces) => {
      put(sound);
      forces.forEach((force, k) => {
        const states = steadyStates(poles, force, complex(0, k * sound.omega));
        states.forEach(({ re, im }, at) => {
          forced.re[at]! += re;
          forced.im[at]! += im;
        });
      });
      const at = (moment: number) =>
        forces.reduce(
          (sum, force, k) => sum + multiply(force, turned({ ...sound, omega: k * sound.omega }, moment)).re,
          0,
        );
      pressures = [at(0)];
      begin();
      pressures = [pressures[0]!, at(-step), at(-2 * step)];
    },
    release: (states) => {
      change(states, 1);
      begin();
    },
    advance: () => {
      const order = Math.min(pressures.length, 3);
      const ways = orders[order - 1]!;
      const [n0, n1 = 0, n2 = 0] = pressures as [number, number?, number?];
      for (let k = 0; k < count; k++) {
        const { grown, weights } = ways[k]!;
        const [fRe, fIm, gRe, gIm] = [free.re[k]!, free.im[k]!, forced.re[k]!, forced.im[k]!];
        free.re[k] = grown.re * fRe - grown.im * fIm;
        free.im[k] = grown.re * fIm + grown.im * fRe;
        let re = grown.re * gRe - grown.im * gIm + weights[1]!.re * n0;
        let im = grown.re * gIm + grown.im * gRe + weights[1]!.im * n0;
        if (order > 1) {
          re += weights[2]!.re * n1;
          im += weights[2]!.im * n1;
        }
        if (order > 2) {
          re += weights[3]!.re * n2;
          im += weights[3]!.im * n2;
        }
        forced.re[k] = re;
        forced.im[k] = im;
      }
      steps++;
      const base = readRows();
      const slope = ends[order - 1]!;
      const force = solved(base, slope, n0);
      if (force === null) return false;
      for (let k = 0; k < count; k++) {
        forced.re[k]! += ways[k]!.weights[0]!.re * force;
        forced.im[k]! += ways[k]!.weights[0]!.im * force;
      }
      here = base.map((value, i) => value + slope[i]! * force);
      pressures = order < 3 ? [force, ...pressures] : [force, n0, n1];
      return true;
    },
    states: () => ({ free: listed(free), forced: listed(forced) }),
  };
}

function rowOf(poles: readonly Complex[], { sound, plate }: Driven): Row {
  const of = (residues: readonly Complex[], part: "re" | "im") =>
    Float64Array.from(residues, (residue, k) => (poles[k]!.im === 0 ? 1 : 2) * residue[part]);
  return {
    soundRe: of(sound.residues, "re"),
    soundIm: of(sound.residues, "im"),
    plateRe: of(plate.residues, "re"),
    plateIm: of(plate.residues, "im"),
    soundConstant: sound.constant,
    plateConstant: plate.constant,
  };
}

const listed = ({ re, im }: { readonly re: Float64Array; readonly im: Float64Array }): Complex[] =>
  Array.from(re, (value, k) => ({ re: value, im: im[k]! }));
