/**
 * Plate and film at one frequency by the plain double sum: a second judge of `src/core/microphone/system/coupled.ts`.
 *
 *     Z_ij = i omega s sum_m C_im C_jm / d_m,   d_m = Psi k_m^2 + chi,   m over all film terms
 *
 * Nothing is factored by direction: C is one matrix of plate functions by film terms, and every pair of functions sums over
 * every term, 1.6 million products for 64 functions and 784 terms.
 */

import type { Microphone } from "../src/core/microphone/microphone.ts";
import { type CoupledSystem, coupledSystem } from "../src/core/microphone/system/coupled.ts";
import type { Prepared } from "../src/core/microphone/system/prepare.ts";
import { add, type Complex, complex, divide, multiply, scale } from "../src/core/numerics/complex.ts";
import { factorSymmetric } from "../src/core/numerics/complexSymmetric.ts";
import { filmCoefficients } from "../src/core/parts/film/coefficients.ts";

export interface DirectSystem {
  /** Filled here instead of by `setFrequency`; `solveLoad` and `readPhase` then work on it as usual. */
  readonly system: CoupledSystem;
  /** C: one row a plate function, one column a film term. */
  readonly projections: Float64Array;
  /** k_m^2 of each term [1/m2]. */
  readonly squaredWavenumbers: Float64Array;
}

export function directSystem(prepared: Prepared, microphone: Microphone): DirectSystem {
  const { plate, film } = prepared;
  if (film === null) throw new Error("A direct sum over film terms needs a film.");
  const { diaphragm } = microphone;
  const [mx, my] = [film.across.count, film.along.count];
  const ny = plate.along.count;
  const projections = new Float64Array(plate.size * mx * my);
  const squaredWavenumbers = new Float64Array(mx * my);
  for (let m = 0; m < mx; m++) {
    for (let n = 0; n < my; n++) {
      const term = m * my + n;
      squaredWavenumbers[term] =
        ((2 * film.across.wavenumbers[m]!) / diaphragm.across) ** 2 +
        ((2 * film.along.wavenumbers[n]!) / diaphragm.along) ** 2;
      for (let i = 0; i < plate.size; i++) {
        const [row, column] = [Math.floor(i / ny), i % ny];
        projections[i * mx * my + term] = film.projectAcross[row * mx + m]! * film.projectAlong[column * my + n]!;
      }
    }
  }
  return { system: coupledSystem(prepared, microphone), projections, squaredWavenumbers };
}

/** Fills and factors the whole system, lower triangle. */
export function setFrequencyDirectly({ system, projections, squaredWavenumbers }: DirectSystem, omega: Complex): void {
  const { microphone, prepared, scales, re, im, filmRe, filmIm } = system;
  const { bending, tension, mass, plate } = prepared;
  const { gap } = microphone.film ?? { gap: Number.NaN };
  const { psi, chi } = filmCoefficients({ gap, air: microphone.air, omega });
  const iOmegaS = multiply(complex(0, scales.deflection), omega);
  const terms = squaredWavenumbers.length;
  for (let m = 0; m < terms; m++) {
    const answer = divide(iOmegaS, add(scale(psi, squaredWavenumbers[m]!), chi));
    filmRe[m] = answer.re;
    filmIm[m] = answer.im;
  }
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const eta = microphone.diaphragm.lossFactor;
  for (let i = 0; i < plate.size; i++) {
    for (let j = 0; j <= i; j++) {
      let sumRe = 0;
      let sumIm = 0;
      for (let m = 0; m < terms; m++) {
        const both = projections[i * terms + m]! * projections[j * terms + m]!;
        sumRe += both * filmRe[m]!;
        sumIm += both * filmIm[m]!;
      }
      const at = i * plate.size + j;
      re[at] = bending[at]! + (tension ? tension[at]! : 0) - lambda.re * mass[at]! + sumRe;
      im[at] = eta * bending[at]! - lambda.im * mass[at]! + sumIm;
    }
  }
  factorSymmetric(system.work, re, im);
}
