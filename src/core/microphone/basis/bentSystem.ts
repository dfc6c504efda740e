/**
 * Plate and film of a bent diaphragm in one matrix, where only compliances are asked for: the functions of an uneven film are
 * coupled to each other anyway, so nothing is gained by answering with them first.
 *
 *     [ D   C^T ]
 *     [ C   -K  ],   K = (1 + i eta) K_b + K_t - Lambda diag mass:   x^T M^-1 y = x_f D^-1 y_f - (x_p - C D^-1 x_f) A^-1 (y_p - C D^-1 y_f)
 *
 * A = K + C D^-1 C^T is the plate over its film (reduced.ts). One factoring gives all that the sound asks of both. A hole in the
 * wall is one row more of the film, [g, -i omega s (a b / 4) (what the short waves and the hole itself ask of its flow)], wallHole.ts.
 */
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  factorSymmetric,
  leadingForm,
  type SymmetricWork,
  symmetricForms,
  symmetricWork,
} from "../../numerics/complexSymmetric.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import { filmNumbers } from "../system/coupled.ts";
import { type CoupledState, flowPerAnswer } from "../system/coupledState.ts";
import type { Ports } from "../system/network.ts";
import { fillRelief } from "../system/relief.ts";
import { holeOf, restImpedance } from "../system/wallHole.ts";
import type { ReducedLine } from "./reduced.ts";
import type { ReducedMatrices } from "./reducedBasis.ts";

/** Room for one such matrix, film first, then its hole, and for the three vectors that products are made of: F, the light's row, B. */
export interface BentSystem {
  /** Rows before those of the plate. */
  readonly before: number;
  readonly work: SymmetricWork;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly rows: ComplexVector;
  readonly forms: ComplexVector;
}

/** With all in it that no frequency changes. */
export function bentSystem(basis: ReducedMatrices, lossFactor: number): BentSystem {
  const { count, filmCount, coupling, bending, hole } = basis;
  const before = filmCount + (hole ? 1 : 0);
  const size = before + count;
  const [re, im] = [new Float64Array(size * size), new Float64Array(size * size)];
  if (hole) re.set(hole.means, filmCount * size);
  for (let i = 0; i < count; i++) {
    const row = (before + i) * size;
    re.set(coupling.subarray(i * filmCount, (i + 1) * filmCount), row);
    if (!bending) im[row + before + i] = -lossFactor;
    else for (let k = 0; k < count; k++) im[row + before + k] = -lossFactor * bending[i * count + k]!;
  }
  return { before, work: symmetricWork(size), re, im, rows: complexVector(3 * size), forms: complexVector(9) };
}

/**
 * What `reducedSides` gives:
 *
 *     S by front = force / (1 + i eta) - r^T M^-1 F,   by back the same with B;   flows: -F M^-1 F, -F M^-1 B, B_f D^-1 B_f - B M^-1 B
 */
export function bentSides(
  { microphone, scales, basis }: Pick<CoupledState, "microphone" | "scales"> & { readonly basis: ReducedMatrices },
  bent: BentSystem,
  line: ReducedLine,
  omega: Complex,
): { readonly byFront: Complex; readonly byBack: Complex; readonly ports: Ports } {
  const { before, work, re, im, rows, forms } = bent;
  const { count, filmCount, kappa, mass, bending, load, hole } = basis;
  const size = before + count;
  const { lossFactor, across, along } = microphone.diaphragm;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const numbers = filmNumbers(microphone, scales, omega);
  const flow = flowPerAnswer({ microphone, scales }, omega);
  fillRelief(basis.relief!, (j) => kappa[j]!, numbers, { re, im, width: size });
  if (hole) {
    const at = filmCount * (size + 1);
    const rest = restImpedance(hole.prepared, microphone.diaphragm, numbers);
    const own = holeImpedance({ ...holeOf(hole.prepared, microphone).hole, air: microphone.air, omega });
    const beyond = multiply(flow, add(rest, own));
    re[at] = -beyond.re;
    im[at] = -beyond.im;
  }
  for (let i = 0; i < count; i++) {
    const at = (before + i) * (size + 1);
    re[at] = lambda.re * mass[i]! - 1;
    im[at] = lambda.im * mass[i]! - lossFactor * (bending ? bending[i * count + i]! : 1);
  }
  factorSymmetric(work, re, im);

  const inverse = divide(complex(1), complex(1, lossFactor));
  const { re: rowRe, im: rowIm } = rows;
  const [r, b] = [size, 2 * size];
  const { pieces, compression } = numbers;
  const { ones, relief } = basis;
  for (let j = 0; j < filmCount; j++) {
    const g = line.film[j]!;
    rowRe[r + j] = g * inverse.re;
    rowIm[r + j] = g * inverse.im;
    let storedRe = compression.re * ones[j]!;
    let storedIm = compression.im * ones[j]!;
    for (let k = 0; k < pieces.length; k++) {
      const one = relief!.ones[k]![j]!;
      const piece = pieces[k]!.compression;
      storedRe += piece.re * one;
      storedIm += piece.im * one;
    }
    rowRe[b + j] = storedRe;
    rowIm[b + j] = storedIm;
  }
  for (let i = 0; i < count; i++) {
    const at = before + i;
    const m = line.mass[i]!;
    const ofRe = lambda.re * m - (line.stretched ? line.stretched.force[i]! : 0);
    const ofIm = lambda.im * m + (line.tension ? lossFactor * line.tension[i]! : 0);
    rowRe[at] = load[i]!;
    rowRe[r + at] = ofRe * inverse.re - ofIm * inverse.im + (line.stretched ? line.stretched.strain[i]! : 0);
    rowIm[r + at] = ofRe * inverse.im + ofIm * inverse.re;
    rowRe[b + at] = load[i]!;
  }
  symmetricForms(work, rows, 3, forms);
  const by = (at: number): Complex => ({
    re: line.force * inverse.re - forms.re[at]!,
    im: line.force * inverse.im - forms.im[at]!,
  });
  const stored = leadingForm(work, 2, before);
  const flowOf = (re: number, im: number): Complex => multiply(flow, { re, im });
  const within = multiply(flow, stored);
  return {
    byFront: by(3),
    byBack: by(7),
    ports: {
      frontFront: flowOf(-forms.re[0]!, -forms.im[0]!),
      frontBack: flowOf(-forms.re[6]!, -forms.im[6]!),
      backBack: flowOf(stored.re - forms.re[8]!, stored.im - forms.im[8]!),
      film: {
        re: numbers.chi.re * across * along - within.re,
        im: numbers.chi.im * across * along - within.im,
      },
    },
  };
}
