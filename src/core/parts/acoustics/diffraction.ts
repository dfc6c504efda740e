/** What a body does to the sound that meets it: pressure on it over the pressure that would be there without it. */

import { sphericalHankelSlopes } from "../../numerics/besselSpherical.ts";
import { type Complex, complex, divide, multiply } from "../../numerics/complex.ts";
import { cos } from "../../numerics/sine.ts";
import type { Body } from "./acoustics.ts";
import { cylinderEnd } from "./cylinderEnd.ts";

/**
 * Pressure on a rigid sphere over that of the plane wave at its center without it [-].
 *
 *     p / p_i = (-i / (ka)^2) sum_n (2 n + 1) i^n P_n(cos angle) / h_n^(2)'(ka)
 *
 * `angle` from the direction that the sound comes from [rad]: 0 faces it. Source: [morse-ingard-1968] section 8.2 (from
 * memory, to be confirmed), e^{+i omega t}; numbers in truth/. Takes some ka steps.
 */
export function spherePressure({ ka, angle }: { readonly ka: number; readonly angle: number }): Complex {
  if (ka < 1e-6) return complex(1);
  const slopes = sphericalHankelSlopes(termsFor(ka), ka);
  const cosine = cos(angle);
  let re = 0;
  let im = 0;
  let below = 0;
  let legendre = 1;
  slopes.forEach((slope, n) => {
    const term = divide(complex((2 * n + 1) * legendre), slope);
    const turned = multiply(term, quarterTurns[n % 4]!);
    re += turned.re;
    im += turned.im;
    const next = ((2 * n + 1) * cosine * legendre - n * below) / (n + 1);
    below = legendre;
    legendre = next;
  });
  return { re: im / (ka * ka), im: -re / (ka * ka) };
}

/**
 * The same for sound from all directions alike, root of the mean square [-].
 *
 *     sqrt(sum_n (2 n + 1) / |h_n'(ka)|^2) / (ka)^2
 *
 * Derivation: the square of the series above, averaged over the sphere; Legendre polynomials are orthogonal.
 */
export function sphereRandom(ka: number): number {
  if (ka < 1e-6) return 1;
  const sum = sphericalHankelSlopes(termsFor(ka), ka).reduce(
    (total, { re, im }, n) => total + (2 * n + 1) / (re * re + im * im),
    0,
  );
  return Math.sqrt(sum) / (ka * ka);
}

/** i^n. */
const quarterTurns: readonly Complex[] = [complex(1), complex(0, 1), complex(-1), complex(0, -1)];

// Terms beyond order ka fall within some ka^(1/3) orders; 12 of those and 25 more leave round-off alone.
const termsFor = (ka: number): number => Math.ceil(ka + 12 * Math.cbrt(ka) + 25);

export interface Diffraction {
  /** Sound on axis, from the front: pressure over that without the body, at its center (sphere) or front end (cylinder) [-]. */
  readonly facing: Complex;
  /** Sound from all directions alike, root of the mean square [-]. */
  readonly random: number;
  /** True where a number is an estimate and not a solution: the cylinder. */
  readonly approximate: boolean;
}

/**
 * Factors of a body at a real frequency; the pressure field is the response without them. Levels: 20 log10 of the magnitude [dB].
 * The microphone is taken as a point in the middle of the front. A cylinder is long, and from a table: approximate.
 */
export function bodyDiffraction(given: {
  readonly body: Body;
  readonly frequency: number;
  readonly soundSpeed: number;
}): Diffraction {
  const { body, frequency, soundSpeed } = given;
  const ka = (Math.PI * frequency * body.diameter) / soundSpeed;
  if (body.shape === "cylinder") return { ...cylinderEnd(ka), approximate: true };
  return { facing: spherePressure({ ka, angle: 0 }), random: sphereRandom(ka), approximate: false };
}
