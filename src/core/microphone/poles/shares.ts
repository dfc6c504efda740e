/** Residues of the response at its poles, and how much of the static output each carries. */

import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";

/**
 * Residue R of S(omega) = R / (omega - omega_p) + ... [rad/Pa rad/s]: the mean of S (omega - omega_p) at four points around the
 * pole, exact to the fourth order in their distance. `others` are the poles to keep away from.
 */
export function poleResidue(respond: (omega: Complex) => Complex, pole: Complex, others: readonly Complex[]): Complex {
  const size = absolute(pole);
  const nearest = others.reduce((least, other) => {
    const distance = absolute(subtract(other, pole));
    return distance > 0 ? Math.min(least, distance) : least;
  }, size);
  const radius = Math.min(0.02 * size, nearest / 4);
  let residue = complex(0);
  for (let quarter = 0; quarter < 4; quarter++) {
    const angle = (Math.PI / 2) * (quarter + 0.5);
    const step = { re: radius * cos(angle), im: radius * sin(angle) };
    const value = respond({ re: pole.re + step.re, im: pole.im + step.im });
    const part = scale(multiply(value, step), 0.25);
    residue = { re: residue.re + part.re, im: residue.im + part.im };
  }
  return residue;
}

/**
 * Share of a pole in the static output: its part R / (omega - omega_p) is -R / omega_p at omega = 0; a pole off the imaginary
 * axis comes with its mirror image, whose part is the conjugate.
 *
 *     share = Re(-R / omega_p) * (2 for a pair, 1 for a real pole) / S_static
 */
export function poleShare(residue: Complex, pole: Complex, staticOutput: number): number {
  const part = divide(scale(residue, -1), pole);
  return (part.re * (pole.re === 0 ? 1 : 2)) / staticOutput;
}
