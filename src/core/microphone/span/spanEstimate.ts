/**
 * Error of a device's response on the first functions of a span, from those that it left out.
 *
 *     dS = (l_Z - T_Zf y) . e,   T_ZZ e = b_Z - T_Zf x
 *
 * x is the answer and y that to the output itself, both on the functions used (f); Z are the functions left out, plate and film
 * kept apart, so that the matrix T is a sum with factors. What neither of them holds is not seen: spanShapes leaves far less of it.
 * Derivation: docs/theory/engine.md.
 */
import { type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { type ComplexVector, factorSymmetric, solveFactored, symmetricWork } from "../../numerics/complexSymmetric.ts";
import { termFactors } from "../../parts/diaphragm/plate.ts";
import { plateShape } from "../../parts/diaphragm/shape.ts";
import { type ReducedSystem, reducedState, solveReduced } from "../basis/reduced.ts";
import { filmNumbers } from "../system/coupled.ts";
import { apply, block, type ShapeSpan, type SpannedDevice } from "./shapeSpan.ts";

/** The matrices of a device on all functions of the span: stiffness without and with loss, film. */
export interface WholeSpan {
  readonly stiffness: Float64Array;
  readonly bending: Float64Array;
  readonly waves: Float64Array;
}

export function wholeSpan(span: ShapeSpan, { microphone }: ReducedSystem): WholeSpan {
  const shape = plateShape(microphone.diaphragm);
  const { bending, tension } = termFactors(shape);
  const { count, filmCount } = span;
  return {
    stiffness: block([...span.bending, ...span.tension], [...bending, ...tension], count, count),
    bending: block(span.bending, bending, count, count),
    waves: block([span.filmAcross, span.filmAlong], [1, 1 / shape.aspect ** 2], filmCount, filmCount),
  };
}

/** |dS| at a frequency [rad/Pa]. */
export function spanEstimate(
  span: ShapeSpan,
  device: SpannedDevice,
  system: ReducedSystem,
  whole: WholeSpan,
  omega: Complex,
): number {
  const { count, filmCount, few } = span;
  const [nz, mz] = [count - few.count, filmCount - few.filmCount];
  if (nz + mz === 0) return 0;
  const { microphone, scales } = system;
  const eta = microphone.diaphragm.lossFactor;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const state = reducedState(system, omega);
  const numbers = microphone.film ? filmNumbers(microphone, scales, omega) : null;
  const over = complex(1, eta);
  // The output's own row, over 1 + i eta: mass and tension on the plate, the light's influence on the film.
  const { light } = span;
  const byLight = (matrix: Float64Array) => apply(matrix, device.light, device.light.length);
  const onMass = byLight(light.mass);
  const tensionFactors = termFactors(plateShape(microphone.diaphragm)).tension;
  const onTension = device.line.tension
    ? weightedRows(light.stretched.map(byLight), tensionFactors)
    : new Float64Array(count);
  const onFilm = byLight(light.film);
  const inverse = divide(complex(1), over);
  const dual = dualOf(system, device, lambda);
  const x = { plate: turnBack(device.turn, state.plate), film: turnBack(device.filmTurn, state.film) };
  const y = { plate: turnBack(device.turn, dual.plate), film: turnBack(device.filmTurn, dual.film) };
  const size = nz + mz;
  const right = zeros(size);
  const left = zeros(size);
  const net = subtract(state.front, state.back);
  // Plain numbers: these loops are run for each of thousands. An element of the plate is K + i eta K_b, and on the diagonal less lambda.
  for (let i = 0; i < nz; i++) {
    const row = few.count + i;
    let bRe = net.re * span.load[row]!;
    let bIm = net.im * span.load[row]!;
    const ownRe = lambda.re * onMass[row]!;
    const ownIm = lambda.im * onMass[row]! + eta * onTension[row]!;
    let lRe = ownRe * inverse.re - ownIm * inverse.im;
    let lIm = ownRe * inverse.im + ownIm * inverse.re;
    for (let k = 0; k < few.count; k++) {
      const place = row * count + k;
      const tRe = whole.stiffness[place]!;
      const tIm = eta * whole.bending[place]!;
      bRe -= tRe * x.plate.re[k]! - tIm * x.plate.im[k]!;
      bIm -= tRe * x.plate.im[k]! + tIm * x.plate.re[k]!;
      lRe -= tRe * y.plate.re[k]! - tIm * y.plate.im[k]!;
      lIm -= tRe * y.plate.im[k]! + tIm * y.plate.re[k]!;
    }
    for (let j = 0; j < few.filmCount; j++) {
      const c = span.coupling[row * filmCount + j]!;
      bRe -= c * x.film.re[j]!;
      bIm -= c * x.film.im[j]!;
      lRe -= c * y.film.re[j]!;
      lIm -= c * y.film.im[j]!;
    }
    right.re[i] = bRe;
    right.im[i] = bIm;
    left.re[i] = lRe;
    left.im[i] = lIm;
  }
  // An element of the film is -k^2 / K, and on the diagonal less what is the same for all.
  const { perK, uniform } = numbers ?? { perK: complex(0), uniform: complex(0) };
  const behind = numbers ? multiply(numbers.compression, state.back) : complex(0);
  for (let j = 0; j < mz; j++) {
    const row = few.filmCount + j;
    let bRe = behind.re * span.ones[row]!;
    let bIm = behind.im * span.ones[row]!;
    let lRe = -onFilm[row]! * inverse.re;
    let lIm = -onFilm[row]! * inverse.im;
    for (let k = 0; k < few.count; k++) {
      const c = span.coupling[k * filmCount + row]!;
      bRe -= c * x.plate.re[k]!;
      bIm -= c * x.plate.im[k]!;
      lRe -= c * y.plate.re[k]!;
      lIm -= c * y.plate.im[k]!;
    }
    for (let m = 0; m < few.filmCount; m++) {
      const wave = whole.waves[row * filmCount + m]!;
      const tRe = -wave * perK.re;
      const tIm = -wave * perK.im;
      bRe -= tRe * x.film.re[m]! - tIm * x.film.im[m]!;
      bIm -= tRe * x.film.im[m]! + tIm * x.film.re[m]!;
      lRe -= tRe * y.film.re[m]! - tIm * y.film.im[m]!;
      lIm -= tRe * y.film.im[m]! + tIm * y.film.re[m]!;
    }
    right.re[nz + j] = bRe;
    right.im[nz + j] = bIm;
    left.re[nz + j] = lRe;
    left.im[nz + j] = lIm;
  }
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  for (let i = 0; i < nz; i++) {
    for (let k = 0; k <= i; k++) {
      const place = (few.count + i) * count + few.count + k;
      re[i * size + k] = whole.stiffness[place]!;
      im[i * size + k] = eta * whole.bending[place]!;
    }
    re[i * size + i]! -= lambda.re;
    im[i * size + i]! -= lambda.im;
  }
  for (let j = 0; j < mz; j++) {
    const row = (nz + j) * size;
    const film = few.filmCount + j;
    for (let k = 0; k < nz; k++) re[row + k] = span.coupling[(few.count + k) * filmCount + film]!;
    for (let m = 0; m <= j; m++) {
      const wave = whole.waves[film * filmCount + few.filmCount + m]!;
      re[row + nz + m] = -wave * perK.re - (m === j ? uniform.re : 0);
      im[row + nz + m] = -wave * perK.im - (m === j ? uniform.im : 0);
    }
  }
  const work = symmetricWork(size);
  factorSymmetric(work, re, im);
  solveFactored(work, right);
  let [sumRe, sumIm] = [0, 0];
  for (let i = 0; i < size; i++) {
    sumRe += left.re[i]! * right.re[i]! - left.im[i]! * right.im[i]!;
    sumIm += left.re[i]! * right.im[i]! + left.im[i]! * right.re[i]!;
  }
  return Math.hypot(sumRe, sumIm);
}

/** The answer to the output as a load, at the frequency that was set. */
function dualOf(system: ReducedSystem, { line }: SpannedDevice, lambda: Complex) {
  const { basis, filmRe, filmIm, microphone } = system;
  const { count, filmCount, coupling } = basis;
  const eta = microphone.diaphragm.lossFactor;
  const over = complex(1, eta);
  const force = zeros(count);
  const pressed = zeros(filmCount);
  for (let j = 0; j < filmCount; j++) {
    put(pressed, j, multiply({ re: filmRe[j]!, im: filmIm[j]! }, divide(complex(-line.film[j]!), over)));
  }
  for (let i = 0; i < count; i++) {
    const stretched = line.tension ? eta * line.tension[i]! : 0;
    const own = divide({ re: lambda.re * line.mass[i]!, im: lambda.im * line.mass[i]! + stretched }, over);
    force.re[i] = own.re;
    force.im[i] = own.im;
    for (let j = 0; j < filmCount; j++) {
      force.re[i]! += coupling[i * filmCount + j]! * pressed.re[j]!;
      force.im[i]! += coupling[i * filmCount + j]! * pressed.im[j]!;
    }
  }
  const plate = solveReduced(system, force);
  const film = zeros(filmCount);
  for (let j = 0; j < filmCount; j++) {
    let [re, im] = [0, 0];
    for (let i = 0; i < count; i++) {
      re += coupling[i * filmCount + j]! * plate.re[i]!;
      im += coupling[i * filmCount + j]! * plate.im[i]!;
    }
    const own = multiply({ re: filmRe[j]!, im: filmIm[j]! }, { re, im });
    put(film, j, subtract(own, at(pressed, j)));
  }
  return { plate, film };
}

const zeros = (size: number): ComplexVector => ({ re: new Float64Array(size), im: new Float64Array(size) });
const at = ({ re, im }: ComplexVector, i: number): Complex => ({ re: re[i]!, im: im[i]! });
function put({ re, im }: ComplexVector, i: number, value: Complex): void {
  re[i] = value.re;
  im[i] = value.im;
}

/** Coefficients on the functions of the span, from those on turned ones. */
function turnBack(turn: Float64Array, values: ComplexVector): ComplexVector {
  const n = values.re.length;
  const result = zeros(n);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < n; k++) {
      const t = turn[i * n + k]!;
      result.re[k]! += t * values.re[i]!;
      result.im[k]! += t * values.im[i]!;
    }
  }
  return result;
}

function weightedRows(rows: readonly Float64Array[], factors: readonly number[]): Float64Array {
  return Float64Array.from(rows[0]!, (_, i) => rows.reduce((total, row, t) => total + factors[t]! * row[i]!, 0));
}
