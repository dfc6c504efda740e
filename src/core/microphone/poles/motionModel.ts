/**
 * The linear device as a sum over poles, for steps in time: what sound and an even pressure on the plate do to deflection, film
 * and light.
 *
 *     H(s) = constant + sum over k of r_k / (s - a_k), mirror images of complex poles included,   Re a_k <= 0
 *
 * Fitted to the device's own answers on the imaginary axis (vectorFit.ts): what its film, holes and cavities remember lies in the
 * real poles. Derivation: docs/theory/loudest.md.
 */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";

export interface Terms {
  /** One for each pole. */
  readonly residues: readonly Complex[];
  readonly constant: number;
}

/** By a pascal of sound, and by a pascal on the plate. */
export interface Driven {
  readonly sound: Terms;
  readonly plate: Terms;
}

export interface MotionModel {
  /** s [1/s]: of the upper half plane, and real ones. */
  readonly poles: readonly Complex[];
  /** x of harmonicBalance.ts [Pa/Pa]. */
  readonly moved: Driven;
  /** The film's mean pressure in slow flow, and of the air's spring and mass [Pa/Pa]. */
  readonly slow: Driven;
  readonly spring: Driven;
  /** Of each guide [rad/Pa]. */
  readonly phases: readonly Driven[];
}

/** H at s [1/s]. */
export function termsAt(poles: readonly Complex[], { residues, constant }: Terms, s: Complex): Complex {
  let sum = complex(constant);
  poles.forEach((pole, k) => {
    const residue = residues[k]!;
    sum = add(sum, divide(residue, subtract(s, pole)));
    if (pole.im !== 0) sum = add(sum, divide(conjugate(residue), subtract(s, conjugate(pole))));
  });
  return sum;
}

/** State of every pole driven by Re amplitude e^{s t} of an input, steady, at t = 0: part turning forward and part turning back. */
export function steadyStates(poles: readonly Complex[], amplitude: Complex, s: Complex): Complex[] {
  const back = conjugate(s);
  return poles.map((pole) =>
    scale(add(divide(amplitude, subtract(s, pole)), divide(conjugate(amplitude), subtract(back, pole))), 0.5),
  );
}

/** What the states of all poles put out: sum over k of Re r_k z_k, twice where a mirror image belongs to it. */
export function outputOf(poles: readonly Complex[], { residues }: Terms, states: readonly Complex[]): number {
  return poles.reduce((sum, pole, k) => sum + (pole.im === 0 ? 1 : 2) * multiply(residues[k]!, states[k]!).re, 0);
}

export const conjugate = ({ re, im }: Complex): Complex => ({ re, im: -im });
