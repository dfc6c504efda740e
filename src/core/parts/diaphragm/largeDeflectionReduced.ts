/**
 * A stretched plate in a handful of its own shapes.
 *
 * With omega = sum z_a psi_a the strain left after the plane's answer is sum z_a z_b e_ab, so energy and force are exact sums
 * over a table of numbers, S_(ab)(cd) = mu integral e_ab . c e_cd:
 *
 *     force_a = 2 sum S_(ab)(cd) z_b z_c z_d,   tangent_ae = 2 sum S_(ae)(cd) z_c z_d + 4 sum S_(ab)(ed) z_b z_d
 *
 * The shapes are chosen as they are needed: the flat plate's answer first, then at a load where the residual of the whole equations
 * is too large the step that Newton would take, until all loads looked at pass one after the other. Source: [noor-1980] for the
 * idea. Holds to the residual asked for, which is checked.
 */

import { cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import { bandSolve, multiplyKronecker } from "../../numerics/kronecker.ts";
import { cube, pow } from "../../numerics/power.ts";
import { pairStrain, type Slopes, slopesOf } from "./largeDeflectionForce.ts";
import { relaxed, weightedStress } from "./largeDeflectionPlane.ts";
import { balance, dot, type Equations, loadOf, tangentSolve } from "./largeDeflectionSolve.ts";

export interface Reduced {
  /** Shapes, orthonormal in energy: psi_a K psi_b = delta_ab. */
  readonly shapes: readonly Float64Array[];
  /** S, row-major over pairs a >= b in order 00, 10, 11, 20, ... */
  readonly table: Float64Array;
  /** Answer of each shape to the load of size one. */
  readonly load: Float64Array;
  /** And to the moment of stressed layers; null: none. */
  readonly built: Float64Array | null;
}

const pairs = (count: number) => (count * (count + 1)) / 2;
const pair = (a: number, b: number) => (a > b ? (a * (a + 1)) / 2 + b : (b * (b + 1)) / 2 + a);

/** Most shapes; ten suffice for deflections of twice the thickness. */
const mostShapes = 16;

/** Loads as shares of the largest at which the shapes must do; about a bow of the plate's own, of either sign and none. */
const shares = [1, 0.7, 0.45, 0.25, 0.1, 0.03];
const aboutBow = [1, 0.45, 0.1, 0, -0.1, -0.45, -1];

export function reduce(equations: Equations, largest: number, within: number): Reduced {
  const builder = new Builder(equations);
  builder.add(bandSolve(equations.factor, equations.load));
  if (equations.built) builder.add(bandSolve(equations.factor, equations.built));
  const tried = equations.built ? aboutBow : shares;
  let reduced = builder.reduced();
  let [at, passed] = [0, 0];
  while (passed < tried.length && builder.count < mostShapes) {
    const size = tried[at % tried.length]! * largest;
    const { error, state, residual } = balance(equations, combine(reduced, solveReduced(reduced, size)), size);
    if (error <= within || !builder.add(tangentSolve(equations, state, residual, 0.01))) {
      at++;
      passed++;
    } else {
      reduced = builder.reduced();
      passed = 0;
    }
  }
  return reduced;
}

/** Gathers shapes and the table that grows with them. */
class Builder {
  readonly #equations: Equations;
  readonly #shapes: Float64Array[] = [];
  readonly #slopes: Slopes[] = [];
  readonly #strains: Float64Array[] = [];
  readonly #stresses: Float64Array[] = [];
  readonly #table: Float64Array[] = [];

  constructor(equations: Equations) {
    this.#equations = equations;
  }

  get count() {
    return this.#shapes.length;
  }

  /** False where the vector holds nothing new. */
  add(vector: Float64Array): boolean {
    const { plane, shapes, stiffness, mu } = this.#equations;
    const energy = (v: Float64Array) => Math.sqrt(dot(v, multiplyKronecker(stiffness, v)));
    const given = energy(vector);
    let rest = vector;
    // Twice, because one pass leaves what cancellation took.
    for (let pass = 0; pass < 2; pass++) {
      for (const shape of this.#shapes) {
        const share = dot(shape, multiplyKronecker(stiffness, rest));
        rest = rest.map((value, i) => value - share * shape[i]!);
      }
    }
    const size = energy(rest);
    if (!(size > 1e-9 * given)) return false;
    const shape = rest.map((value) => value / size);
    const slopes = slopesOf(plane.grid, shapes, shape);
    this.#shapes.push(shape);
    this.#slopes.push(slopes);
    for (const other of this.#slopes) {
      const { strain } = relaxed(plane, pairStrain(plane.alpha, slopes, other));
      const stress = weightedStress(plane, strain);
      this.#strains.push(joined(strain));
      this.#stresses.push(joined(stress));
      const last = this.#stresses.at(-1)!;
      this.#table.push(Float64Array.from(this.#strains, (one) => mu * dot(one, last)));
    }
    return true;
  }

  reduced(): Reduced {
    const n = pairs(this.count);
    const { built } = this.#equations;
    const table = new Float64Array(n * n);
    this.#table.forEach((row, i) => {
      row.forEach((value, j) => {
        table[i * n + j] = value;
        table[j * n + i] = value;
      });
    });
    return {
      shapes: this.#shapes.slice(),
      table,
      load: Float64Array.from(this.#shapes, (shape) => dot(shape, this.#equations.load)),
      built: built && Float64Array.from(this.#shapes, (shape) => dot(shape, built)),
    };
  }
}

function joined({ x, y, xy }: { x: Float64Array; y: Float64Array; xy: Float64Array }): Float64Array {
  const all = new Float64Array(3 * x.length);
  all.set(x);
  all.set(y, x.length);
  all.set(xy, 2 * x.length);
  return all;
}

/** sum z_a psi_a. */
export function combine({ shapes }: Reduced, z: Float64Array): Float64Array {
  const result = new Float64Array(shapes[0]!.length);
  shapes.forEach((shape, a) => {
    for (let i = 0; i < result.length; i++) result[i]! += z[a]! * shape[i]!;
  });
  return result;
}

/** z + force(z) = size * load, by Newton from the answer of the first shape alone. */
export function solveReduced(reduced: Reduced, size: number): Float64Array {
  const load = loadOf(reduced, size);
  const n = load.length;
  let z = new Float64Array(n);
  z[0] = oneShape(reduced.table[0]!, load[0]!);
  const round = 1e-14 * Math.sqrt(dot(load, load));
  let norm = Number.POSITIVE_INFINITY;
  for (let step = 0; step < 40; step++) {
    const { force, tangent } = forceAndTangent(reduced, z);
    const left = load.map((value, a) => value - z[a]! - force[a]!);
    const now = Math.sqrt(dot(left, left));
    // Round-off reached, or no longer falling.
    if (now <= round || (step > 8 && now >= norm)) break;
    norm = now;
    const factor = cholesky(tangent, n);
    if (factor === null) break;
    const change = choleskySolve(factor, left);
    z = z.map((value, a) => value + change[a]!);
  }
  return z;
}

/** z + 2 s z^3 = l. */
function oneShape(s: number, l: number): number {
  let z = l / (1 + pow(2 * s * l * l, 1 / 3));
  for (let step = 0; step < 60; step++) {
    const change = (l - z - 2 * s * cube(z)) / (1 + 6 * s * z * z);
    z += change;
    if (Math.abs(change) <= 1e-15 * Math.abs(z)) break;
  }
  return z;
}

function forceAndTangent({ table, load }: Reduced, z: Float64Array) {
  const n = load.length;
  const count = pairs(n);
  // Stress of the state, on pairs: sum over (cd) of S z_c z_d; each pair c > d counts twice.
  const products = new Float64Array(count);
  for (let c = 0, p = 0; c < n; c++) for (let d = 0; d <= c; d++) products[p++] = (c === d ? 1 : 2) * z[c]! * z[d]!;
  const stress = new Float64Array(count);
  for (let p = 0; p < count; p++) {
    let sum = 0;
    for (let q = 0; q < count; q++) sum += table[p * count + q]! * products[q]!;
    stress[p] = sum;
  }
  // half[p, e] = sum over d of S_p(ed) z_d
  const half = new Float64Array(count * n);
  for (let p = 0; p < count; p++) {
    for (let e = 0; e < n; e++) {
      let sum = 0;
      let at = p * count + pair(e, 0);
      // Pairs with d <= e stand side by side, each later one a row further.
      for (let d = 0; d < n; d++, at += d <= e ? 1 : d) sum += table[at]! * z[d]!;
      half[p * n + e] = sum;
    }
  }
  const force = new Float64Array(n);
  const tangent = new Float64Array(n * n);
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < n; b++) force[a]! += 2 * stress[pair(a, b)]! * z[b]!;
    for (let e = 0; e < n; e++) {
      let sum = (a === e ? 1 : 0) + 2 * stress[pair(a, e)]!;
      for (let b = 0; b < n; b++) sum += 4 * half[pair(a, b) * n + e]! * z[b]!;
      tangent[a * n + e] = sum;
    }
  }
  return { force, tangent };
}
