/**
 * Quarter of the plate as Gauss points, and sums of products over it.
 *
 * All integrands here are even in xi and in eta, so the points lie in 0 < xi, eta < 1 and the weights count four times.
 * A field on the grid is row-major, xi by eta. A table holds functions at the points, one row of `count` a function.
 */
import { gaussLegendre } from "../../numerics/legendre.ts";
import { type Polynomials, valuesAt } from "./polynomials.ts";

export interface Grid {
  /** Points a direction. */
  readonly count: number;
  readonly nodes: Float64Array;
  /** Weights of one direction; they sum to 2, the length of -1 .. 1. */
  readonly weights: Float64Array;
}

export function quarterGrid(count: number): Grid {
  const { nodes, weights } = gaussLegendre(2 * count);
  const kept = Array.from(nodes.keys()).filter((i) => nodes[i]! > 0);
  return {
    count,
    nodes: Float64Array.from(kept, (i) => nodes[i]!),
    weights: Float64Array.from(kept, (i) => 2 * weights[i]!),
  };
}

/** Values and slopes of one direction's functions at the points. */
export interface Table {
  readonly count: number;
  readonly values: Float64Array;
  readonly slopes: Float64Array;
}

/** Table of functions of which `at` gives values and slopes at one point. */
export function tabulate(
  grid: Grid,
  count: number,
  at: (xi: number) => { readonly value: Float64Array; readonly slope: Float64Array },
): Table {
  const values = new Float64Array(count * grid.count);
  const slopes = new Float64Array(count * grid.count);
  grid.nodes.forEach((xi, g) => {
    const { value, slope } = at(xi);
    for (let i = 0; i < count; i++) {
      values[i * grid.count + g] = value[i]!;
      slopes[i * grid.count + g] = slope[i]!;
    }
  });
  return { count, values, slopes };
}

export const tabulatePolynomials = (grid: Grid, basis: Polynomials): Table =>
  tabulate(grid, basis.count, (xi) => valuesAt(basis, xi));

/** Field sum_ij c_ij X_i(xi) Y_j(eta), added to `into`, times `factor`. */
export function expand(
  grid: Grid,
  coefficients: Float64Array,
  across: Float64Array,
  along: Float64Array,
  factor: number,
  into: Float64Array,
): void {
  const g = grid.count;
  const nx = across.length / g;
  const ny = along.length / g;
  const row = new Float64Array(g);
  for (let i = 0; i < nx; i++) {
    row.fill(0);
    for (let j = 0; j < ny; j++) {
      const c = factor * coefficients[i * ny + j]!;
      if (c === 0) continue;
      for (let q = 0; q < g; q++) row[q]! += c * along[j * g + q]!;
    }
    for (let p = 0; p < g; p++) {
      const x = across[i * g + p]!;
      for (let q = 0; q < g; q++) into[p * g + q]! += x * row[q]!;
    }
  }
}

/** Coefficients sum over points of field X_i(xi) Y_j(eta), added to `into`, times `factor`; weights belong to the field. */
export function project(
  grid: Grid,
  field: Float64Array,
  across: Float64Array,
  along: Float64Array,
  factor: number,
  into: Float64Array,
): void {
  const g = grid.count;
  const nx = across.length / g;
  const ny = along.length / g;
  const row = new Float64Array(g);
  for (let i = 0; i < nx; i++) {
    row.fill(0);
    for (let p = 0; p < g; p++) {
      const x = factor * across[i * g + p]!;
      for (let q = 0; q < g; q++) row[q]! += x * field[p * g + q]!;
    }
    for (let j = 0; j < ny; j++) {
      let sum = 0;
      for (let q = 0; q < g; q++) sum += row[q]! * along[j * g + q]!;
      into[i * ny + j]! += sum;
    }
  }
}
