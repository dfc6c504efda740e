/** Plate and film of one microphone in a reduced basis: the same questions as coupled.ts, some twenty times faster. */
import { type Complex, complex, divide, multiply, scale } from "../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  factorSymmetric,
  type SymmetricWork,
  solveFactored,
  symmetricWork,
} from "../numerics/complexSymmetric.ts";
import { type PlateScales, plateScales } from "../parts/diaphragm/shape.ts";
import { filmCoefficients } from "../parts/film/coefficients.ts";
import type { Line } from "./line.ts";
import type { Microphone } from "./microphone.ts";
import { dot, type ReducedBasis } from "./reducedBasis.ts";

export interface ReducedSystem {
  readonly basis: ReducedBasis;
  readonly microphone: Microphone;
  readonly scales: PlateScales;
  readonly work: SymmetricWork;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** i omega s / (Psi kappa + chi) for every film function. */
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
  /** coupling times that, count x filmCount. */
  readonly passRe: Float64Array;
  readonly passIm: Float64Array;
  readonly answer: ComplexVector;
}

export function reducedSystem(basis: ReducedBasis, microphone: Microphone): ReducedSystem {
  const { count, filmCount } = basis;
  return {
    basis,
    microphone,
    scales: plateScales(microphone.diaphragm),
    work: symmetricWork(count),
    re: new Float64Array(count * count),
    im: new Float64Array(count * count),
    filmRe: new Float64Array(filmCount),
    filmIm: new Float64Array(filmCount),
    passRe: new Float64Array(count * filmCount),
    passIm: new Float64Array(count * filmCount),
    answer: complexVector(count),
  };
}

/** Fills and factors the system at a frequency, which may be complex [rad/s]. */
export function setReducedFrequency(system: ReducedSystem, omega: Complex): void {
  const { basis, microphone, scales, re, im } = system;
  const { count, filmCount, coupling } = basis;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const eta = microphone.diaphragm.lossFactor;
  if (filmCount > 0) reducedFilm(system, omega);
  const { passRe, passIm } = system;
  for (let i = 0; i < count; i++) {
    const rowI = i * filmCount;
    for (let k = 0; k <= i; k++) {
      const rowK = k * filmCount;
      let sumRe = 0;
      let sumIm = 0;
      for (let j = 0; j < filmCount; j++) {
        const c = coupling[rowK + j]!;
        sumRe += c * passRe[rowI + j]!;
        sumIm += c * passIm[rowI + j]!;
      }
      const at = i * count + k;
      re[at] = sumRe;
      im[at] = sumIm + (basis.bending ? eta * basis.bending[at]! : 0);
    }
    const diagonal = i * count + i;
    re[diagonal]! += 1 - lambda.re * basis.mass[i]!;
    im[diagonal]! += (basis.bending ? 0 : eta) - lambda.im * basis.mass[i]!;
  }
  factorSymmetric(system.work, re, im);
}

function reducedFilm(
  { basis, microphone, scales, filmRe, filmIm, passRe, passIm }: ReducedSystem,
  omega: Complex,
): void {
  const { count, filmCount, coupling, kappa } = basis;
  const { psi, chi } = filmCoefficients({ gap: microphone.film!.gap, air: microphone.air, omega });
  const iOmegaS = multiply(complex(0, scales.deflection), omega);
  const perK = divide(scale(psi, 4 / microphone.diaphragm.across ** 2), iOmegaS);
  const uniform = divide(chi, iOmegaS);
  for (let j = 0; j < filmCount; j++) {
    const re = perK.re * kappa[j]! + uniform.re;
    const im = perK.im * kappa[j]! + uniform.im;
    const squared = re * re + im * im;
    filmRe[j] = re / squared;
    filmIm[j] = -im / squared;
  }
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < filmCount; j++) {
      const at = i * filmCount + j;
      passRe[at] = coupling[at]! * filmRe[j]!;
      passIm[at] = coupling[at]! * filmIm[j]!;
    }
  }
}

/** Answer to a load on the reduced functions at the frequency that was set; overwritten by the next. */
export function solveReduced(system: ReducedSystem, load: Float64Array): ComplexVector {
  const { answer } = system;
  answer.re.set(load);
  answer.im.fill(0);
  solveFactored(system.work, answer);
  return answer;
}

/** The line of light (line.ts) on the reduced functions. */
export interface ReducedLine {
  readonly static: number;
  readonly mass: Float64Array;
  readonly tension: Float64Array | null;
  /** Influence function on the film functions. */
  readonly film: Float64Array;
}

export function reduceLine(basis: ReducedBasis, line: Line): ReducedLine {
  const { count, filmCount } = basis;
  const size = basis.plate.length / count;
  const onPlate = (row: Float64Array) =>
    Float64Array.from({ length: count }, (_, i) => dot(basis.plate.subarray(i * size, (i + 1) * size), row));
  const terms = filmCount === 0 ? 0 : basis.film.length / filmCount;
  return {
    static: line.static,
    mass: onPlate(line.mass),
    tension: line.tension && onPlate(line.tension),
    film: Float64Array.from({ length: line.film ? filmCount : 0 }, (_, j) =>
      dot(basis.film.subarray(j * terms, (j + 1) * terms), line.film!),
    ),
  };
}

/** S(f) [rad/Pa] at one frequency, which may be complex [rad/s]. */
export function reducedResponseAt(system: ReducedSystem, line: ReducedLine, omega: Complex): Complex {
  setReducedFrequency(system, omega);
  const q = solveReduced(system, system.basis.load);
  const { count, filmCount, coupling } = system.basis;
  const eta = system.microphone.diaphragm.lossFactor;
  const lambda = scale(multiply(omega, omega), system.scales.lambda);
  let [re, im] = [line.static, 0];
  for (let i = 0; i < count; i++) {
    const m = line.mass[i]!;
    re += m * (lambda.re * q.re[i]! - lambda.im * q.im[i]!);
    im += m * (lambda.re * q.im[i]! + lambda.im * q.re[i]!);
    if (line.tension) {
      re -= eta * line.tension[i]! * q.im[i]!;
      im += eta * line.tension[i]! * q.re[i]!;
    }
  }
  for (let j = 0; j < filmCount; j++) {
    let wRe = 0;
    let wIm = 0;
    for (let i = 0; i < count; i++) {
      const c = coupling[i * filmCount + j]!;
      wRe += c * q.re[i]!;
      wIm += c * q.im[i]!;
    }
    const weight = line.film[j]!;
    re -= weight * (system.filmRe[j]! * wRe - system.filmIm[j]! * wIm);
    im -= weight * (system.filmRe[j]! * wIm + system.filmIm[j]! * wRe);
  }
  return divide({ re, im }, complex(1, eta));
}
