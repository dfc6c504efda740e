/**
 * Where to look for poles when nobody knows: one motion at a time, everything else following it.
 *
 *     plate function j:  1 + i eta - Lambda m_j + sum over m of C_jm^2 / d_m = 0        the film follows, other shapes do not move
 *     film function m:   d_m + sum over j of C_jm^2 / (1 + i eta - Lambda m_j) = 0      the plate follows, other pressures do not act
 *
 * Both are Rayleigh quotients of a motion, so a motion that is right to e gives its pole to e^2. Starts only: ownMotion.ts polishes
 * them, contour.ts says whether one is missing. Air in front and behind is left out. Derivation: docs/theory/poles.md.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import type { ReducedSystem } from "../basis/reduced.ts";
import { filmNumbers } from "../system/coupled.ts";
import type { Parts } from "./ownMotion.ts";
import { filmModes, type PoleModel } from "./poleModel.ts";

/** A pole, nearly [rad/s], and about how plate and film move there. */
export interface PoleStart {
  readonly omega: Complex;
  readonly like: Parts;
}

/** Starts with |omega| < top; plate functions that ring below twice that in vacuum are tried. */
export function poleStarts(model: PoleModel, system: ReducedSystem, top: number): readonly PoleStart[] {
  const { basis, microphone } = system;
  const { lambda } = plateScales(microphone.diaphragm);
  const starts: PoleStart[] = [];
  const inside = (omega: Complex | null): omega is Complex =>
    omega !== null && omega.re > 0 && omega.im > -0.05 * omega.re && absolute(omega) < top;
  for (let j = 0; j < basis.count; j++) {
    const vacuum = 1 / Math.sqrt(lambda * basis.mass[j]!);
    if (vacuum > 2 * top) continue;
    const omega = rootNear((at) => plateQuotient(system, j, at), complex(vacuum, 0.02 * vacuum));
    if (inside(omega)) starts.push({ omega, like: plateMoves(system, j, omega) });
  }
  for (const { index, omega: own } of filmModes(model, top)) {
    const omega = rootNear((at) => filmQuotient(system, index, at), own) ?? own;
    if (inside(omega)) starts.push({ omega, like: filmMoves(system, index, omega) });
  }
  return starts;
}

/** Settled to this share of itself it is a start; so many steps at most. */
const settled = 1e-3;
const mostSteps = 12;

/** Zero of a function by the secant; null where it leads away by more than the start itself, or does not settle. */
function rootNear(f: (omega: Complex) => Complex, start: Complex): Complex | null {
  let before = start;
  let valueBefore = f(before);
  let here = multiply(start, complex(1.01, 0.01));
  for (let step = 0; step < mostSteps; step++) {
    const value = f(here);
    const change = divide(multiply(value, subtract(here, before)), subtract(value, valueBefore));
    if (!Number.isFinite(change.re + change.im)) return null;
    before = here;
    valueBefore = value;
    here = subtract(here, change);
    if (absolute(subtract(here, start)) > 2 * absolute(start)) return null;
    if (absolute(change) < settled * absolute(here)) return here;
  }
  return null;
}

/** 1 + i eta - Lambda m_j */
const plateAlone = ({ basis, microphone, scales }: ReducedSystem, j: number, omega: Complex): Complex =>
  subtract(complex(1, microphone.diaphragm.lossFactor), scale(multiply(omega, omega), scales.lambda * basis.mass[j]!));

/** 1 + i eta - Lambda m_j + sum over m of C_jm^2 / d_m */
function plateQuotient(system: ReducedSystem, j: number, omega: Complex): Complex {
  const { filmCount, coupling, kappa } = system.basis;
  const alone = plateAlone(system, j, omega);
  if (filmCount === 0) return alone;
  const { perK, uniform } = filmAt(system, omega);
  let { re, im } = alone;
  for (let m = 0; m < filmCount; m++) {
    const dRe = perK.re * kappa[m]! + uniform.re;
    const dIm = perK.im * kappa[m]! + uniform.im;
    const over = coupling[j * filmCount + m]! ** 2 / (dRe * dRe + dIm * dIm);
    re += dRe * over;
    im -= dIm * over;
  }
  return { re, im };
}

/** d_m + sum over j of C_jm^2 / (1 + i eta - Lambda m_j) */
function filmQuotient(system: ReducedSystem, m: number, omega: Complex): Complex {
  const { basis, microphone, scales } = system;
  const { count, filmCount, coupling, mass } = basis;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const eta = microphone.diaphragm.lossFactor;
  let { re, im } = filmFactor(system, m, omega);
  for (let j = 0; j < count; j++) {
    const pRe = 1 - lambda.re * mass[j]!;
    const pIm = eta - lambda.im * mass[j]!;
    const over = coupling[j * filmCount + m]! ** 2 / (pRe * pRe + pIm * pIm);
    re += pRe * over;
    im -= pIm * over;
  }
  return { re, im };
}

const filmAt = ({ microphone, scales, layer }: ReducedSystem, omega: Complex) =>
  filmNumbers(microphone, scales, omega, layer);

/** d_m */
function filmFactor(system: ReducedSystem, m: number, omega: Complex): Complex {
  const { perK, uniform } = filmAt(system, omega);
  return add(scale(perK, system.basis.kappa[m]!), uniform);
}

const still = { front: complex(0), back: complex(0), through: complex(0) };
const vector = (count: number) => ({ re: new Float64Array(count), im: new Float64Array(count) });

/** One plate function, and the film under it. */
function plateMoves(system: ReducedSystem, j: number, omega: Complex): Parts {
  const { count, filmCount, coupling, kappa } = system.basis;
  const [plate, film] = [vector(count), vector(filmCount)];
  plate.re[j] = 1;
  if (filmCount > 0) {
    const { perK, uniform } = filmAt(system, omega);
    for (let m = 0; m < filmCount; m++) {
      const factor = add(scale(perK, kappa[m]!), uniform);
      const { re, im } = divide(complex(coupling[j * filmCount + m]!), factor);
      film.re[m] = re;
      film.im[m] = im;
    }
  }
  return { plate, film, ...still };
}

/** One film function, and the plate over it. */
function filmMoves(system: ReducedSystem, m: number, omega: Complex): Parts {
  const { count, filmCount, coupling } = system.basis;
  const [plate, film] = [vector(count), vector(filmCount)];
  film.re[m] = 1;
  for (let j = 0; j < count; j++) {
    const { re, im } = divide(complex(-coupling[j * filmCount + m]!), plateAlone(system, j, omega));
    plate.re[j] = re;
    plate.im[j] = im;
  }
  return { plate, film, ...still };
}
