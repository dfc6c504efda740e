/**
 * Motion in the plane of the plate, eliminated: what strain remains once u and v have moved to where they cost least.
 *
 * Without dimension: w = h omega, (u, v) = (h^2 / a) (U, V), strains in h^2 / a^2, xi = 2 x / a, eta = 2 y / b, alpha = a / b:
 *
 *     e_x = 2 U_xi + 2 omega_xi^2,   e_y = 2 alpha V_eta + 2 alpha^2 omega_eta^2
 *     gamma = 2 alpha U_eta + 2 V_xi + 4 alpha omega_xi omega_eta
 *     energy ~ integral (e_x^2 + 2 c12 e_x e_y + c22 e_y^2 + c66 gamma^2),   c_ij = A_ij / A11
 *
 * U and V are sums of f_k(xi) g_l(eta). Held directions use f_k' = s_k P_k, k >= 1, which vanish at both ends; where edge
 * points may slide along the edge the functions along it are P_l themselves. The energy is quadratic in U, V by one constant
 * matrix, so given any strain e0 their best answer is one solve. Derivation: docs/theory/largeDeflection.md.
 */
import { type BandCholesky, bandSolve, factoredBand } from "../../numerics/kronecker.ts";
import { legendreValues } from "../../numerics/legendre.ts";
import { expand, type Grid, project, type Table, tabulate } from "./largeDeflectionGrid.ts";
import type { Side } from "./polynomials.ts";

/**
 * How the frame holds the edges in their plane. "immovable": no motion at all; "sliding": none across an edge, but points may
 * slide along it.
 */
export type InPlaneEdges = "immovable" | "sliding";

/** Strain or stress on the grid. */
export interface Field {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly xy: Float64Array;
}

/** Membrane stiffnesses over A11 [-]. */
export interface MembraneRatios {
  readonly c12: number;
  readonly c22: number;
  readonly c66: number;
}

/** Coefficients of U and V. */
export interface Motion {
  readonly u: Float64Array;
  readonly v: Float64Array;
}

/** One direction of one component. */
interface Line {
  readonly table: Table;
  at(xi: number): { readonly value: Float64Array; readonly slope: Float64Array };
}

export interface InPlane {
  readonly grid: Grid;
  readonly ratios: MembraneRatios;
  readonly alpha: number;
  readonly u: { readonly across: Line; readonly along: Line };
  readonly v: { readonly across: Line; readonly along: Line };
  /** Of U and V by turns: functions meet their neighbors only, so that the matrix is a band where all edges are held. */
  readonly factor: BandCholesky;
}

const opposite = (side: Side): Side => (side === "even" ? "odd" : "even");

function line(grid: Grid, options: { side: Side; held: boolean; count: number }): Line {
  const { side, held, count } = options;
  // f_k has the parity of k + 1 where it is held (f' = P_k), of k where it is free.
  const first = held ? (side === "even" ? 1 : 2) : side === "even" ? 0 : 1;
  const at = (xi: number) => {
    const p = legendreValues(first + 2 * count + 2, xi);
    const value = new Float64Array(count);
    const slope = new Float64Array(count);
    // P_k' = (2 k - 1) P_{k-1} + P_{k-2}'
    const derivative = new Float64Array(p.length);
    for (let k = 1; k < p.length; k++) derivative[k] = (2 * k - 1) * p[k - 1]! + (k > 1 ? derivative[k - 2]! : 0);
    for (let i = 0; i < count; i++) {
      const k = first + 2 * i;
      const s = Math.sqrt((2 * k + 1) / 2);
      value[i] = held ? (s * (p[k + 1]! - p[k - 1]!)) / (2 * k + 1) : s * p[k]!;
      slope[i] = s * (held ? p[k]! : derivative[k]!);
    }
    return { value, slope };
  };
  return { table: tabulate(grid, count, at), at };
}

/**
 * The plane's functions and factored matrix for strains of one parity: `across` and `along` are the parity of e_x and e_y in xi
 * and eta, "even" for a static load, the plate's own class for a small motion about it. `count` functions a direction.
 */
export function inPlane(
  grid: Grid,
  options: {
    readonly alpha: number;
    readonly ratios: MembraneRatios;
    readonly edges: InPlaneEdges;
    readonly across: Side;
    readonly along: Side;
    readonly count: number;
  },
): InPlane {
  const { alpha, ratios, edges, across, along, count } = options;
  const held = edges === "immovable";
  const u = {
    across: line(grid, { side: opposite(across), held: true, count }),
    along: line(grid, { side: along, held, count }),
  };
  const v = {
    across: line(grid, { side: across, held, count }),
    along: line(grid, { side: opposite(along), held: true, count }),
  };
  // Held functions meet their neighbors only; P_l and their slopes meet all.
  const reach = held ? 1 : count - 1;
  const size = 2 * count * count;
  const half = Math.min(2 * reach * (count + 1) + 1, size - 1);
  const lower = new Float64Array(size * (half + 1));
  const put = (row: number, column: number, factor: number, x: Float64Array, y: Float64Array) => {
    for (let i = 0; i < count; i++) {
      for (let k = Math.max(0, i - reach); k <= Math.min(count - 1, i + reach); k++) {
        const by = factor * x[i * count + k]!;
        for (let j = 0; j < count; j++) {
          for (let l = Math.max(0, j - reach); l <= Math.min(count - 1, j + reach); l++) {
            const of = 2 * (i * count + j) + row;
            const on = 2 * (k * count + l) + column;
            if (row === column && on > of) continue;
            const low = Math.max(of, on);
            lower[low * half + Math.min(of, on) + half]! += by * y[j * count + l]!;
          }
        }
      }
    }
  };
  const [ux, uy, vx, vy] = [u.across.table, u.along.table, v.across.table, v.along.table];
  const by = (a: Float64Array, b: Float64Array) => products(grid, a, b, { count, reach });
  const shear = 4 * ratios.c66;
  put(0, 0, 4, by(ux.slopes, ux.slopes), by(uy.values, uy.values));
  put(0, 0, shear * alpha ** 2, by(ux.values, ux.values), by(uy.slopes, uy.slopes));
  put(1, 1, 4 * alpha ** 2 * ratios.c22, by(vx.values, vx.values), by(vy.slopes, vy.slopes));
  put(1, 1, shear, by(vx.slopes, vx.slopes), by(vy.values, vy.values));
  put(1, 0, 4 * alpha * ratios.c12, by(vx.values, ux.slopes), by(vy.slopes, uy.values));
  put(1, 0, shear * alpha, by(vx.slopes, ux.values), by(vy.values, uy.slopes));
  const factor = factoredBand({ size, half, lower });
  if (factor === null) throw new Error(`In-plane stiffness is not positive definite: ${JSON.stringify(ratios)}.`);
  return { grid, ratios, alpha, u, v, factor };
}

/** integral of each function of `a` with those of `b` within its reach; the products are even. */
function products(
  grid: Grid,
  a: Float64Array,
  b: Float64Array,
  { count, reach }: { readonly count: number; readonly reach: number },
): Float64Array {
  const g = grid.count;
  const result = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    const last = Math.min(count - 1, i + reach);
    for (let j = Math.max(0, i - reach); j <= last; j++) {
      let sum = 0;
      for (let p = 0; p < g; p++) sum += grid.weights[p]! * a[i * g + p]! * b[j * g + p]!;
      result[i * count + j] = sum;
    }
  }
  return result;
}

/** Stress over A11 h^2 / a^2, times the weights of the grid, of a strain. */
export function weightedStress({ grid, ratios }: Pick<InPlane, "grid" | "ratios">, strain: Field): Field {
  const g = grid.count;
  const { c12, c22, c66 } = ratios;
  const result = { x: new Float64Array(g * g), y: new Float64Array(g * g), xy: new Float64Array(g * g) };
  for (let p = 0; p < g; p++) {
    for (let q = 0; q < g; q++) {
      const i = p * g + q;
      const weight = grid.weights[p]! * grid.weights[q]!;
      result.x[i] = weight * (strain.x[i]! + c12 * strain.y[i]!);
      result.y[i] = weight * (c12 * strain.x[i]! + c22 * strain.y[i]!);
      result.xy[i] = weight * c66 * strain.xy[i]!;
    }
  }
  return result;
}

/** What remains of the strain `e0` once U and V have answered, and that answer. */
export function relaxed(plane: InPlane, e0: Field): { readonly strain: Field; readonly motion: Motion } {
  const { grid, alpha } = plane;
  const { u, v } = tables(plane);
  const size = plane.factor.size / 2;
  const stress = weightedStress(plane, e0);
  const [onU, onV] = [new Float64Array(size), new Float64Array(size)];
  project(grid, stress.x, u.across.slopes, u.along.values, -2, onU);
  project(grid, stress.xy, u.across.values, u.along.slopes, -2 * alpha, onU);
  project(grid, stress.y, v.across.values, v.along.slopes, -2 * alpha, onV);
  project(grid, stress.xy, v.across.slopes, v.along.values, -2, onV);
  const motion = answerTo(plane, { u: onU, v: onV });
  const strain = { x: e0.x.slice(), y: e0.y.slice(), xy: e0.xy.slice() };
  addMotion(plane, motion, strain);
  return { strain, motion };
}

/** Motion that a force on U and V makes. */
function answerTo({ factor }: InPlane, force: Motion): Motion {
  const right = new Float64Array(factor.size);
  force.u.forEach((value, i) => {
    right[2 * i] = value;
    right[2 * i + 1] = force.v[i]!;
  });
  const answer = bandSolve(factor, right);
  return { u: force.u.map((_, i) => answer[2 * i]!), v: force.v.map((_, i) => answer[2 * i + 1]!) };
}

/** Adds the strain of a motion. */
function addMotion(plane: InPlane, motion: Motion, strain: Field): void {
  const { grid, alpha } = plane;
  const { u, v } = tables(plane);
  expand(grid, motion.u, u.across.slopes, u.along.values, 2, strain.x);
  expand(grid, motion.v, v.across.values, v.along.slopes, 2 * alpha, strain.y);
  expand(grid, motion.u, u.across.values, u.along.slopes, 2 * alpha, strain.xy);
  expand(grid, motion.v, v.across.slopes, v.along.values, 2, strain.xy);
}

const tables = ({ u, v }: InPlane) => ({
  u: { across: u.across.table, along: u.along.table },
  v: { across: v.across.table, along: v.along.table },
});

/** Average over eta of 2 U_xi on the line at xi; U must be even in eta. */
export function lineMotion(plane: InPlane, motion: Motion, xi: number): number {
  const weights = lineWeights(plane, xi);
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]! * motion.u[i]!;
  return sum;
}

/** How each unknown of U enters that average. */
function lineWeights({ grid, u }: InPlane, xi: number): Float64Array {
  const { count, values } = u.along.table;
  const { slope } = u.across.at(xi);
  const weights = new Float64Array(count * count);
  for (let l = 0; l < count; l++) {
    let mean = 0;
    for (let q = 0; q < grid.count; q++) mean += (grid.weights[q]! * values[l * grid.count + q]!) / 2;
    for (let k = 0; k < count; k++) weights[k * count + l] = 2 * slope[k]! * mean;
  }
  return weights;
}

/**
 * Stress, times the weights of the grid, that turns any strain e0 into the average over eta of 2 U_xi which answers it:
 * lineMotion = -integral of it times e0. One solve for a line, by the symmetry of the plane's matrix.
 */
export function lineStress(plane: InPlane, xi: number): Field {
  const n = plane.grid.count ** 2;
  const weights = lineWeights(plane, xi);
  const force = { u: weights, v: new Float64Array(weights.length) };
  const strain = { x: new Float64Array(n), y: new Float64Array(n), xy: new Float64Array(n) };
  addMotion(plane, answerTo(plane, force), strain);
  return weightedStress(plane, strain);
}

/** 2 U_xi, 2 alpha V_eta and 2 alpha U_eta + 2 V_xi at a point. */
export function motionStrain({ alpha, u, v }: InPlane, motion: Motion, xi: number, eta: number) {
  const [ux, uy, vx, vy] = [u.across.at(xi), u.along.at(eta), v.across.at(xi), v.along.at(eta)];
  const n = u.across.table.count;
  const sum = (c: Float64Array, x: Float64Array, y: Float64Array) => {
    let total = 0;
    for (let k = 0; k < n; k++) for (let l = 0; l < n; l++) total += c[k * n + l]! * x[k]! * y[l]!;
    return total;
  };
  return {
    x: 2 * sum(motion.u, ux.slope, uy.value),
    y: 2 * alpha * sum(motion.v, vx.value, vy.slope),
    xy: 2 * alpha * sum(motion.u, ux.value, uy.slope) + 2 * sum(motion.v, vx.slope, vy.value),
  };
}
