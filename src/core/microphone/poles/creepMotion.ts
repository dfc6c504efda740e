/**
 * Rate and motion of a real pole of plate and film, by Rayleigh's quotient as in ownMotion.ts: at omega = i rate, without loss factor
 * and with no air around, everything is real,
 *
 *     R(rate; q, p) = q q + rate^2 m q q + 2 q C p - perK p kappa p - uniform p p,     T(rate) x_new = T'(rate) x
 *
 * Derivation: docs/theory/poles.md.
 */
import { complex } from "../../numerics/complex.ts";
import { solveFactoredReal } from "../../numerics/complexSymmetric.ts";
import { type ReducedSystem, setReducedFrequency } from "../basis/reduced.ts";
import { dot } from "../basis/reducedBasis.ts";
import { filmNumbers } from "../system/coupled.ts";

/** A free motion e^(-rate t), in units of its own. */
export interface CreepMotion {
  /** [1/s] */
  readonly rate: number;
  readonly plate: Float64Array;
  readonly film: Float64Array;
}

/** One that was just polished; the system is still factored where it was last. */
export interface PolishedCreep extends CreepMotion {
  /** [1/s] */
  readonly factoredAt: number;
}

/** Steps of the polishing at most. */
const mostSteps = 4;
/** Relative step of a derivative by central differences. */
const derivativeStep = 1e-4;
/** A rate is looked for no farther from its start than this share of it. */
const farthest = 0.3;
/** sin^2 of the turn beyond which a motion has not settled on one pole. */
const mostTurned = 0.1;

/**
 * The pole that a motion leads to; null where it leads nowhere within a third of itself. It ends where the error is estimated below
 * `off` of the rate: a step that turns the motion by an angle e and moves the pole by d leaves about e^4 d.
 */
export function creepMotion(system: ReducedSystem, start: CreepMotion, off: number): PolishedCreep | null {
  let rate = rootOf(system, start, start.rate);
  if (rate === null) return null;
  let motion: CreepMotion = { ...start, rate };
  for (let step = 0; step < mostSteps; step++) {
    const factoredAt = rate;
    const next: CreepMotion | null = improved(system, motion);
    const root: number | null = next && rootOf(system, next, rate);
    if (next === null || root === null || Math.abs(root - start.rate) > farthest * start.rate) return null;
    const turned = turnedBy(motion, next);
    const moved = Math.abs(root - rate) / root;
    rate = root;
    motion = { ...next, rate };
    if (turned < mostTurned && turned ** 2 * moved < off) return { ...motion, factoredAt };
  }
  return null;
}

/** perK and uniform of coupled.ts, which are real there. */
function filmAt({ microphone, scales, layer }: ReducedSystem, rate: number) {
  if (microphone.film === null) return { perK: 0, uniform: 0 };
  const { perK, uniform } = filmNumbers(microphone, scales, complex(0, rate), layer);
  return { perK: perK.re, uniform: uniform.re };
}

/** Root of the quotient next to a rate, by the secant; null where there is none near. */
function rootOf(system: ReducedSystem, { plate, film }: CreepMotion, start: number): number | null {
  const { basis, scales } = system;
  const { count, filmCount, coupling, mass, kappa } = basis;
  let [fixed, inert, stored, spread] = [0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const q = plate[i]!;
    inert += mass[i]! * q * q;
    let under = 0;
    for (let j = 0; j < filmCount; j++) under += coupling[i * filmCount + j]! * film[j]!;
    fixed += q * (q + 2 * under);
  }
  for (let j = 0; j < filmCount; j++) {
    const p = film[j]!;
    stored += p * p;
    spread += kappa[j]! * p * p;
  }
  const quotient = (rate: number) => {
    const { perK, uniform } = filmAt(system, rate);
    return fixed + rate * rate * scales.lambda * inert - perK * spread - uniform * stored;
  };
  let before = start;
  let valueBefore = quotient(before);
  let here = start * (1 + 1e-4);
  let moved = 1e-4 * start;
  for (let step = 0; step < 12; step++) {
    const value = quotient(here);
    const change = (value * (here - before)) / (value - valueBefore);
    if (!Number.isFinite(change)) return null;
    before = here;
    valueBefore = value;
    here -= change;
    if (Math.abs(here - start) > farthest * start) return null;
    // What the secant leaves is about the product of its last two steps.
    if (moved * Math.abs(change) < 1e-12 * here * here) return here;
    moved = Math.abs(change);
  }
  return null;
}

/** Solves T x_new = T' x at the motion's rate. Scaled to size 1; null where there is none. */
function improved(system: ReducedSystem, { rate, plate, film }: CreepMotion): CreepMotion | null {
  setReducedFrequency(system, complex(0, rate));
  const { basis, scales, work, filmRe } = system;
  const { count, filmCount, coupling, mass, kappa } = basis;
  const [above, below] = [filmAt(system, rate * (1 + derivativeStep)), filmAt(system, rate * (1 - derivativeStep))];
  const over = 2 * derivativeStep * rate;
  const perK = (above.perK - below.perK) / over;
  const uniform = (above.uniform - below.uniform) / over;
  const [q, p, turned] = [new Float64Array(count), new Float64Array(filmCount), new Float64Array(filmCount)];
  for (let j = 0; j < filmCount; j++) {
    p[j] = (perK * kappa[j]! + uniform) * film[j]!;
    turned[j] = p[j]! * filmRe[j]!;
  }
  const inert = 2 * rate * scales.lambda;
  for (let i = 0; i < count; i++) {
    let force = inert * mass[i]! * plate[i]!;
    for (let j = 0, at = i * filmCount; j < filmCount; j++, at++) force -= coupling[at]! * turned[j]!;
    q[i] = force;
  }
  solveFactoredReal(work, q);
  for (let i = 0; i < count; i++) {
    const moved = q[i]!;
    for (let j = 0, at = i * filmCount; j < filmCount; j++, at++) p[j]! += coupling[at]! * moved;
  }
  let squared = dot(q, q);
  for (let j = 0; j < filmCount; j++) {
    p[j]! *= filmRe[j]!;
    squared += p[j]! * p[j]!;
  }
  const size = 1 / Math.sqrt(squared);
  if (!(size > 0) || !Number.isFinite(size)) return null;
  for (let i = 0; i < count; i++) q[i]! *= size;
  for (let j = 0; j < filmCount; j++) p[j]! *= size;
  return { rate, plate: q, film: p };
}

/** sin^2 of the angle between two motions. */
function turnedBy(a: CreepMotion, b: CreepMotion): number {
  const product = dot(a.plate, b.plate) + dot(a.film, b.film);
  const sizes = (dot(a.plate, a.plate) + dot(a.film, a.film)) * (dot(b.plate, b.plate) + dot(b.film, b.film));
  return 1 - product ** 2 / sizes;
}
