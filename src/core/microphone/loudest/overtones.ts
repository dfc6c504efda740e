/**
 * What stretching and the squeezed film make of a tone, in closed form and fast: the balance of harmonicBalance.ts at 0 to 3 times
 * the tone, first by powers of its pressure (Volterra's kernels to the third), then twice from the motion that these lead to.
 *
 *     N_0 = -(s_2 |X|^2 + c Re A X*) / 2,   N_2 = -(s_2 X^2 + c A X) / 2,   x_k = R_k N_k,   a_k = (1 + 2 sigma_k) G_k N_k
 *     N_1 = -s_2 (2 X x_0 + X* x_2) - 3 s_3 |X|^2 X / 4 - c (A x_0 + a_0 X + (A* x_2 + a_2 X*) / 2) - c^2 (2 |X|^2 B + B* X^2) / 4
 *     N_3 = -s_2 X x_2 - s_3 X^3 / 4 - c (A x_2 + a_2 X) / 2 - c^2 B X^2 / 4
 *
 * A = (1 + 2 sigma) F and B = (1 + 5 sigma) F: the slopes of the film's two parts in the gap, 3 and 1, 6 and 1.
 * Derivation: docs/theory/loudest.md. Holds: weak forces, where Picard's steps come closer; multiples beyond three left out.
 */

import { absolute, add, type Complex, complex, multiply, scale } from "../../numerics/complex.ts";
import { cube as thirdPower } from "../../numerics/power.ts";
import { type Balance, bentAmplitudes, forcesAgain, type Multiple, movement, packed } from "./harmonicBalance.ts";

/** How a guide reads the device: linear parts, and what it reads of x^2 and x^3 at once. */
export interface GuideReading {
  /** Per pascal of sound at the tone [rad/Pa]. */
  readonly sound: Complex;
  /** Per pascal on the plate at each multiple [rad/Pa]. */
  readonly plate: readonly Complex[];
  /** [rad/Pa^2], [rad/Pa^3]. */
  readonly square: number;
  readonly cube: number;
}

const sum = (...terms: readonly Complex[]): Complex => terms.reduce(add);
const times = (...factors: readonly Complex[]): Complex => factors.reduce(multiply);
const conjugate = ({ re, im }: Complex): Complex => ({ re, im: -im });
/** 1 + factor sigma */
const slope = ({ slow }: Multiple, factor: number): Complex => add(complex(1), scale(slow, factor));

/** N_0 .. N_3 over p^2, p^3, p^2, p^3. */
export type ThirdPowers = readonly [Complex, Complex, Complex, Complex];

/** `multiples`: 0 to 2 at least. */
export function forcesToThird(balance: Balance): ThirdPowers {
  const { closing: c } = balance;
  const { square: s2, cube: s3 } = balance.stiffening;
  const [still, once, twice] = balance.multiples as readonly [Multiple, Multiple, Multiple];
  const x = once.moved.sound;
  const size = absolute(x) ** 2;
  const a = multiply(slope(once, 2), once.film.sound);
  const b = multiply(slope(once, 5), once.film.sound);
  const n0 = -(s2 * size + c * multiply(a, conjugate(x)).re) / 2;
  const n2 = scale(sum(scale(times(x, x), s2), scale(times(a, x), c)), -0.5);
  const x0 = still.moved.plate.re * n0;
  const a0 = multiply(slope(still, 2), still.film.plate).re * n0;
  const x2 = multiply(twice.moved.plate, n2);
  const a2 = times(slope(twice, 2), twice.film.plate, n2);
  // What x^2 has of the third power, at the tone; and at three times it.
  const mixed = sum(scale(x, 2 * x0), times(conjugate(x), x2));
  const n1 = scale(
    sum(
      scale(mixed, s2),
      scale(x, 0.75 * s3 * size),
      scale(sum(scale(a, 2 * x0), scale(x, 2 * a0), times(conjugate(a), x2), times(a2, conjugate(x))), c / 2),
      scale(sum(scale(b, 2 * size), times(conjugate(b), x, x)), (c * c) / 4),
    ),
    -1,
  );
  const n3 = scale(
    sum(
      scale(times(x, x2), s2),
      scale(times(x, x, x), s3 / 4),
      scale(sum(times(a, x2), times(a2, x)), c / 2),
      scale(times(b, x, x), (c * c) / 4),
    ),
    -1,
  );
  return [complex(n0), n1, n2, n3];
}

/** Second and third harmonic of the output over its fundamental, over p [1/Pa] and p^2 [1/Pa^2]: what is left of faint tones. */
export interface FirstTerms {
  readonly second: number;
  readonly third: number;
}

/**
 * Of the guides' phases phi_k through cosines at rest, each with a weight; `cotangent` of the argument there, null: a straight line.
 *
 *     o_1 = phi_1,   o_2 = phi_2 + cot phi_1^2 / 4,   o_3 = phi_3 + cot phi_1 phi_2 / 2 - phi_1^3 / 24
 */
export function firstTerms(
  { multiples }: Balance,
  guides: readonly GuideReading[],
  [, , n2, n3]: ThirdPowers,
  curves: readonly { readonly weight: number; readonly cotangent: number | null }[],
): FirstTerms {
  const x = multiples[1]!.moved.sound;
  const squared = multiply(x, x);
  const x2 = multiply(multiples[2]!.moved.plate, n2);
  let [one, two, three] = [complex(0), complex(0), complex(0)];
  for (const [g, { sound, plate, square, cube }] of guides.entries()) {
    const { weight, cotangent } = curves[g]!;
    const second = add(multiply(plate[2]!, n2), scale(squared, square / 2));
    const third = sum(multiply(plate[3]!, n3), scale(multiply(x, x2), square), scale(multiply(squared, x), cube / 4));
    const cot = cotangent ?? 0;
    const bent = scale(times(sound, sound, sound), cotangent === null ? 0 : -1 / 24);
    one = add(one, scale(sound, weight));
    two = add(two, scale(add(second, scale(multiply(sound, sound), cot / 4)), weight));
    three = add(three, scale(sum(third, scale(multiply(sound, second), cot / 2), bent), weight));
  }
  const size = absolute(one);
  // Without a fundamental nothing is faint.
  return size > 0 ? { second: absolute(two) / size, third: absolute(three) / size } : { second: 0, third: 0 };
}

/** Steps after the third power: each leaves two powers of the pressure more. */
const steps = 2;

/** The phases of each guide under a tone of an amplitude [Pa], from the forces to the third power and two steps more. */
export function phasesToFifth(
  balance: Balance,
  guides: readonly GuideReading[],
  [n0, n1, n2, n3]: ThirdPowers,
  pressure: number,
): readonly Phases[] {
  const [square, cube] = [pressure ** 2, thirdPower(pressure)];
  let forces = packed([scale(n0, square), scale(n1, cube), scale(n2, square), scale(n3, cube)]);
  for (let step = 0; step < steps; step++) forces = forcesAgain(balance, pressure, forces) ?? forces;
  return phasesUnder(guides, { pressure, forces, moved: movement(balance, pressure, forces) });
}

/** Amplitudes of a phase at the tone and its multiples, and its steady shift [rad]. */
export interface Phases {
  readonly phases: readonly Complex[];
  readonly shift: number;
}

/** What each guide reads of forces, in a row, and motion over a period. */
export function phasesUnder(
  guides: readonly GuideReading[],
  state: { readonly pressure: number; readonly forces: Float64Array; readonly moved: Float64Array },
): readonly Phases[] {
  const { pressure, forces, moved } = state;
  const highest = forces.length / 2 - 1;
  return guides.map((guide) => {
    const { sound, plate } = guide;
    const read = bentAmplitudes(moved, guide, highest);
    const phases: Complex[] = [];
    for (let k = 0; k <= highest; k++) {
      const [re, im] = [forces[2 * k]!, forces[2 * k + 1]!];
      const { re: plateRe, im: plateIm } = plate[k]!;
      const ofTone = k === 1 ? pressure : 0;
      phases.push({
        re: read[2 * k]! + ofTone * sound.re + plateRe * re - plateIm * im,
        im: read[2 * k + 1]! + ofTone * sound.im + plateRe * im + plateIm * re,
      });
    }
    return { phases: phases.slice(1), shift: phases[0]!.re };
  });
}
