/**
 * Answers in time, from poles and residues.
 *
 *     S(omega) = sum R_k / (omega - omega_k) + rest,   h(t) = i sum R_k e^(i omega_k t), mirror images included
 *
 * What the listed poles leave of the static output ("rest") is given to one critically damped pair above them all, so that a
 * step begins at zero and what a tone leaves behind at the tone: a lump for the higher modes, not a mode. Derivation: docs/theory/poles.md.
 */

import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";

export interface PoleWithResidue {
  /** [rad/s]; on the imaginary axis for a real pole. */
  readonly omega: Complex;
  /** [rad/Pa rad/s] */
  readonly residue: Complex;
}

export interface TimeModel {
  readonly poles: readonly PoleWithResidue[];
  /** Static output [rad/Pa]. */
  readonly static: number;
  /** Part of it that the poles do not carry [rad/Pa], and the rate of the lump that gets it [1/s]. */
  readonly rest: number;
  readonly restRate: number;
}

/** `above`: a frequency above all the listed poles [Hz]. */
export function timeModel(poles: readonly PoleWithResidue[], staticOutput: number, above: number): TimeModel {
  const carried = poles.reduce((sum, { omega, residue }) => sum - weightOf(omega) * divide(residue, omega).re, 0);
  return { poles, static: staticOutput, rest: staticOutput - carried, restRate: 2 * Math.PI * above };
}

/** A pole off the imaginary axis stands for itself and its mirror image. */
const weightOf = (omega: Complex): number => (omega.re === 0 ? 1 : 2);

const turning = ({ omega }: PoleWithResidue, time: number): Complex =>
  scale(complex(cos(omega.re * time), sin(omega.re * time)), Math.exp(-omega.im * time));

/** Phase after a pressure step of 1 Pa at time 0 [rad]; times >= 0 [s]. */
export function stepAnswer(model: TimeModel, times: readonly number[]): number[] {
  const { poles, rest, restRate } = model;
  return times.map((time) => {
    let value = model.static - rest * (1 + restRate * time) * Math.exp(-restRate * time);
    for (const pole of poles) {
      value += weightOf(pole.omega) * multiply(divide(pole.residue, pole.omega), turning(pole, time)).re;
    }
    return value;
  });
}

/** Phase after a pressure impulse of 1 Pa s at time 0 [rad/s]; times >= 0 [s]. */
export function impulseAnswer(model: TimeModel, times: readonly number[]): number[] {
  const { poles, rest, restRate } = model;
  return times.map((time) => {
    let value = rest * restRate ** 2 * time * Math.exp(-restRate * time);
    for (const pole of poles) {
      value += weightOf(pole.omega) * multiply(multiply(complex(0, 1), pole.residue), turning(pole, time)).re;
    }
    return value;
  });
}

/**
 * Phase after a steady tone stops at time 0, over its amplitude before [-]; the tone stops where its output is largest.
 *
 *     y(t) = Re e^(-i arg S) sum R_k e^(i omega_k t) / (omega_t - omega_k), mirror images included
 */
export function ringDown(
  model: TimeModel,
  tone: { omega: number; response: Complex },
  times: readonly number[],
): number[] {
  const size = absolute(tone.response);
  const turn = { re: tone.response.re / size, im: -tone.response.im / size };
  return times.map((time) => multiply(turn, freeAnswer(model, tone, time)).re / size);
}

/**
 * What a tone e^(i omega t), switched off at time 0, leaves behind: sum R_k e^(i omega_k t) / (omega - omega_k). What that leaves of
 * S(omega) at time 0, the share of higher modes in it, falls as a critically damped pair of the lump's rate r does:
 *
 *     (S - sum) (1 + (r + i omega) t) e^(-r t)
 */
function freeAnswer(
  model: TimeModel,
  tone: { readonly omega: number; readonly response: Complex },
  time: number,
): Complex {
  const rate = model.restRate;
  const lump = scale(complex(1 + rate * time, tone.omega * time), Math.exp(-rate * time));
  return plus(carried(model, tone.omega, time), multiply(subtract(tone.response, carried(model, tone.omega, 0)), lump));
}

/** Share of the lump in what a tone leaves behind at first [-]: what the listed poles do not tell. */
export const lumpedShare = (model: TimeModel, tone: { readonly omega: number; readonly response: Complex }): number =>
  absolute(subtract(tone.response, carried(model, tone.omega, 0))) / absolute(tone.response);

/** The poles' part of it. */
function carried(model: TimeModel, omega: number, time: number): Complex {
  const driven = complex(omega);
  let value = complex(0);
  for (const pole of model.poles) {
    const now = multiply(pole.residue, turning(pole, time));
    value = plus(value, divide(now, subtract(driven, pole.omega)));
    if (pole.omega.re !== 0) {
      // The mirror image -omega*, its residue -R*.
      const mirrored = complex(-now.re, now.im);
      value = plus(value, divide(mirrored, plus(driven, complex(pole.omega.re, -pole.omega.im))));
    }
  }
  return value;
}

/**
 * Phase during and after a burst of a tone, over its steady amplitude [-]: sin(omega t) from time 0 to `length` [s], as the
 * steady answer less what it would ring down by, and after the burst's end the ring-down alone.
 */
export function toneBurst(
  model: TimeModel,
  tone: { omega: number; response: Complex; length: number },
  times: readonly number[],
): number[] {
  const size = absolute(tone.response);
  const steady = (time: number): Complex =>
    multiply(tone.response, complex(cos(tone.omega * time), sin(tone.omega * time)));
  const turn = complex(cos(tone.omega * tone.length), sin(tone.omega * tone.length));
  return times.map((time) => {
    const begun = time < tone.length ? steady(time) : multiply(turn, freeAnswer(model, tone, time - tone.length));
    return subtract(begun, freeAnswer(model, tone, time)).im / size;
  });
}

const plus = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);
