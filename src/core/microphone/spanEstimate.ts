/**
 * Error of a device's response on the first functions of a span, from those that it left out.
 *
 *     dS = (l_Z - T_Zf y) . e,   T_ZZ e = b_Z - T_Zf x
 *
 * x is the answer and y that to the output itself, both on the functions used (f); Z are the functions left out, plate and film
 * kept apart, so that the matrix T is a sum with factors. What neither of them holds is not seen: spanShapes leaves far less of it.
 * Derivation: docs/theory/engine.md.
 */
import { type Complex, complex, divide, multiply, scale, subtract } from "../numerics/complex.ts";
import { type ComplexVector, factorSymmetric, solveFactored, symmetricWork } from "../numerics/complexSymmetric.ts";
import { termFactors } from "../parts/diaphragm/plate.ts";
import { plateShape } from "../parts/diaphragm/shape.ts";
import { filmNumbers } from "./coupled.ts";
import { type ReducedSystem, reducedState, solveReduced } from "./reduced.ts";
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
  const output = (i: number): Complex =>
    divide({ re: lambda.re * onMass[i]!, im: lambda.im * onMass[i]! + eta * onTension[i]! }, over);
  const outputFilm = (j: number): Complex => divide(complex(-onFilm[j]!), over);
  const dual = dualOf(system, device, lambda);

  const x = { plate: turnBack(device.turn, state.plate), film: turnBack(device.filmTurn, state.film) };
  const y = { plate: turnBack(device.turn, dual.plate), film: turnBack(device.filmTurn, dual.film) };
  const size = nz + mz;
  const right = zeros(size);
  const left = zeros(size);
  const element = (i: number, k: number): Complex => {
    const m = span.mass[i * count + k]!;
    const at = i * count + k;
    return {
      re: whole.stiffness[at]! - lambda.re * m,
      im: eta * whole.bending[at]! - lambda.im * m,
    };
  };
  const wave = (j: number, l: number): Complex => {
    const value = numbers ? scale(numbers.perK, -whole.waves[j * filmCount + l]!) : complex(0);
    return j === l && numbers ? subtract(value, numbers.uniform) : value;
  };
  const net = subtract(state.front, state.back);
  for (let i = 0; i < nz; i++) {
    const row = few.count + i;
    let b = scale(net, span.load[row]!);
    let l = output(row);
    for (let k = 0; k < few.count; k++) {
      const t = element(row, k);
      b = subtract(b, multiply(t, at(x.plate, k)));
      l = subtract(l, multiply(t, at(y.plate, k)));
    }
    for (let j = 0; j < few.filmCount; j++) {
      const c = span.coupling[row * filmCount + j]!;
      b = subtract(b, scale(at(x.film, j), c));
      l = subtract(l, scale(at(y.film, j), c));
    }
    put(right, i, b);
    put(left, i, l);
  }
  for (let j = 0; j < mz; j++) {
    const row = few.filmCount + j;
    let b = numbers ? scale(multiply(numbers.compression, state.back), span.ones[row]!) : complex(0);
    let l = outputFilm(row);
    for (let k = 0; k < few.count; k++) {
      const c = span.coupling[k * filmCount + row]!;
      b = subtract(b, scale(at(x.plate, k), c));
      l = subtract(l, scale(at(y.plate, k), c));
    }
    for (let m = 0; m < few.filmCount; m++) {
      const t = wave(row, m);
      b = subtract(b, multiply(t, at(x.film, m)));
      l = subtract(l, multiply(t, at(y.film, m)));
    }
    put(right, nz + j, b);
    put(left, nz + j, l);
  }
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k <= i; k++) {
      let value: Complex;
      if (i < nz) value = element(few.count + i, few.count + k);
      else if (k < nz) value = complex(span.coupling[(few.count + k) * filmCount + few.filmCount + i - nz]!);
      else value = wave(few.filmCount + i - nz, few.filmCount + k - nz);
      re[i * size + k] = value.re;
      im[i * size + k] = value.im;
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
