/** Equilibrium of a stretched plate in the whole polynomial basis: residual, and Newton with conjugate gradients inside. */
import { type BandCholesky, bandSolve, type KroneckerSum, multiplyKronecker } from "../../numerics/kronecker.ts";
import {
  addChange,
  addForce,
  changed,
  type Shapes,
  type Stretched,
  slopesOf,
  stretched,
} from "./largeDeflectionForce.ts";
import type { InPlane } from "./largeDeflectionPlane.ts";

/** K omega + force(omega) = load, the load being its size times `load`, and `built` besides. */
export interface Equations {
  readonly plane: InPlane;
  readonly shapes: Shapes;
  readonly mu: number;
  /** Bending and tension, and its factor. */
  readonly stiffness: KroneckerSum;
  readonly factor: BandCholesky;
  /** Answer of each unknown to the load of size one. */
  readonly load: Float64Array;
  /** What the moment of stressed layers loads each unknown with, whatever the pressure; null: none, or nothing turns. */
  readonly built: Float64Array | null;
}

/** Load of a size, on the functions. */
export const loadOf = ({ load, built }: Pick<Equations, "load" | "built">, size: number): Float64Array =>
  built ? load.map((value, i) => size * value + built[i]!) : load.map((value) => size * value);

export interface Balance {
  readonly state: Stretched;
  /** Load less resistance. */
  readonly residual: Float64Array;
  /** Its size over that of the deflection, both in energy: sqrt(r K^-1 r / omega K omega) [-]. */
  readonly error: number;
}

export const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};

export function balance(equations: Equations, unknowns: Float64Array, size: number): Balance {
  const { plane, shapes, mu, stiffness, factor } = equations;
  const state = stretched(plane, shapes, unknowns);
  const bent = multiplyKronecker(stiffness, unknowns);
  const held = bent.slice();
  addForce(plane, { mu, stress: state.stress, slopes: state.slopes, shapes }, held);
  const residual = loadOf(equations, size).map((value, i) => value - held[i]!);
  const energy = dot(unknowns, bent);
  const left = dot(residual, bandSolve(factor, residual));
  return { state, residual, error: energy > 0 ? Math.sqrt(left / energy) : left > 0 ? Number.POSITIVE_INFINITY : 0 };
}

/** Stiffness about a state, times a vector. */
function tangentTimes(equations: Equations, about: Stretched, vector: Float64Array): Float64Array {
  const { plane, shapes, mu, stiffness } = equations;
  const result = multiplyKronecker(stiffness, vector);
  const change = changed(plane, about.slopes, slopesOf(plane.grid, shapes, vector));
  addChange(plane, { mu, about, change, shapes }, result);
  return result;
}

/** Solves with the stiffness about a state by conjugate gradients, led by the factor of the flat plate, to `within`. */
export function tangentSolve(
  equations: Equations,
  about: Stretched,
  right: Float64Array,
  within: number,
): Float64Array {
  const n = right.length;
  const x = new Float64Array(n);
  const r = right.slice();
  let z = bandSolve(equations.factor, r);
  let p = z.slice();
  let rz = dot(r, z);
  const enough = within ** 2 * rz;
  // Stiffening by stretch is smooth: some 10 to 20 steps; 100 only where a plate is near buckling.
  for (let step = 0; step < 100 && rz > enough; step++) {
    const ap = tangentTimes(equations, about, p);
    const length = rz / dot(p, ap);
    for (let i = 0; i < n; i++) {
      x[i]! += length * p[i]!;
      r[i]! -= length * ap[i]!;
    }
    z = bandSolve(equations.factor, r);
    const next = dot(r, z);
    p = z.map((value, i) => value + (next / rz) * p[i]!);
    rz = next;
  }
  return x;
}

export interface Solution extends Balance {
  readonly steps: number;
  readonly converged: boolean;
}

const mostSteps = 30;

/** Newton from `start`, with steps halved while they don't help, until the error is below `within`. */
export function equilibrium(equations: Equations, size: number, start: Float64Array, within: number): Solution {
  let now = balance(equations, start, size);
  let steps = 0;
  while (now.error > within && steps < mostSteps) {
    const step = tangentSolve(equations, now.state, now.residual, Math.max(1e-10, Math.min(0.1, 0.1 * now.error)));
    let share = 1;
    const from = now;
    const moved = () =>
      balance(
        equations,
        from.state.unknowns.map((value, i) => value + share * step[i]!),
        size,
      );
    let next = moved();
    while (!(next.error < from.error) && share > 1e-3) {
      share /= 2;
      next = moved();
    }
    steps++;
    if (!(next.error < from.error)) break;
    now = next;
  }
  return { ...now, steps, converged: now.error <= within };
}
