/**
 * A film whose gap is not the same everywhere: what its pressure functions feel of a gap h(x, y) = g + d(x, y), d zero on average.
 *
 * Psi and chi depend on the gap alone, so each is a polynomial in d through its values at four gaps h_j between the least and the
 * most, and the film's equation, tested with G_m, takes one matrix of numbers for each of them, whatever the frequency:
 *
 *     D_mn = sum_j Psi(h_j) K_j + chi(h_j) M_j,   K_j = integral L_j(d) grad G_m . grad G_n,   M_j = integral L_j(d) G_m G_n
 *
 * L_j is Lagrange's polynomial, 1 at d_j and 0 at the others; sum_j L_j = 1. Of third degree: exact for h^3, where friction holds
 * the air, and for h, where inertia does; else off by the fourth power of d / g. Only functions of low wavenumber feel where the
 * gap is: the others take the mean of Psi and of chi over the area, `shares` of the four gaps.
 * Derivation: docs/theory/film.md. Holds: slopes of the gap small against 1.
 */
import { gaussLegendre } from "../../numerics/legendre.ts";
import { cos, sin } from "../../numerics/sine.ts";
import type { Side } from "../diaphragm/polynomials.ts";
import type { PressureTerms } from "./pressureTerms.ts";

/** Gauss points of a quarter, 0 < xi, eta < 1, and weights of one direction that sum to 2: fields here are even both ways. */
export interface QuarterPoints {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

export function quarterPoints(count: number): QuarterPoints {
  const { nodes, weights } = gaussLegendre(count);
  return { nodes: nodes.map((x) => (1 + x) / 2), weights };
}

/** A gap's departure from its mean, in the unit that it was given in. */
export interface GapField {
  readonly points: QuarterPoints;
  /** L_j at the points, times both weights: one row a j, row-major xi by eta. */
  readonly weighted: readonly Float64Array[];
  /** d_j, and the mean of L_j over the area [-]. */
  readonly heights: readonly number[];
  readonly shares: readonly number[];
}

/** Gaps at which the film's functions are taken: a cubic through them is exact for h^3 and for h. */
const gaps = 4;

/** Of heights at the points, row-major xi by eta; their mean is taken off. */
export function gapField(points: QuarterPoints, height: Float64Array): GapField {
  const { weights } = points;
  const n = weights.length;
  const weight = (i: number) => weights[Math.floor(i / n)]! * weights[i % n]!;
  const mean = height.reduce((sum, value, i) => sum + weight(i) * value, 0) / 4;
  const d = height.map((value) => value - mean);
  const [low, high] = [Math.min(...d), Math.max(...d)];
  const heights = Array.from(
    { length: gaps },
    (_, j) => (low + high) / 2 - ((high - low) / 2) * cos((Math.PI * (j + 0.5)) / gaps),
  );
  const weighted = heights.map((at, j) =>
    d.map((value, i) => {
      let product = weight(i);
      if (high > low)
        for (const [k, other] of heights.entries()) if (k !== j) product *= (value - other) / (at - other);
      return high > low ? product : product / gaps;
    }),
  );
  return { points, weighted, heights, shares: weighted.map((row) => row.reduce((sum, value) => sum + value, 0) / 4) };
}

/** What functions of low wavenumber feel beyond the mean: K_j less its share of k^2, M_j less its share. Plain typed arrays. */
export interface ReliefMatrices {
  /** Which of the film's functions, ascending. */
  readonly index: Int32Array;
  /** One square matrix a gap, row-major, of `index.length`; wavenumbers in units of 2 / across. */
  readonly kappa: readonly Float64Array[];
  readonly mass: readonly Float64Array[];
}

/** `most` functions at most, those of the least wavenumbers; `aspect` along over across. */
export function reliefMatrices(
  { points, weighted, shares }: GapField,
  film: {
    readonly across: PressureTerms;
    readonly along: PressureTerms;
    readonly sides: { readonly across: Side; readonly along: Side };
    readonly aspect: number;
  },
  most: number,
): ReliefMatrices {
  const { across, along, sides, aspect } = film;
  const width = along.count;
  const kSquared = (at: number) =>
    across.wavenumbers[Math.floor(at / width)]! ** 2 + (along.wavenumbers[at % width]! / aspect) ** 2;
  const index = Int32Array.from(
    Array.from({ length: across.count * width }, (_, at) => at)
      .sort((a, b) => kSquared(a) - kSquared(b) || a - b)
      .slice(0, most),
  ).sort();
  const x = pairs(
    points,
    across,
    sides.across,
    1 + index.reduce((far, at) => Math.max(far, Math.floor(at / width)), 0),
  );
  const y = pairs(points, along, sides.along, 1 + index.reduce((far, at) => Math.max(far, at % width), 0));
  const n = points.nodes.length;
  const size = index.length;
  const made = weighted.map((field, j) => {
    // First pass: the field with each pair of functions along, at every xi.
    const [values, slopes] = [overEta(field, y.values, n), overEta(field, y.slopes, n)];
    const kappa = new Float64Array(size * size);
    const mass = new Float64Array(size * size);
    for (let a = 0; a < size; a++) {
      for (let b = 0; b <= a; b++) {
        const [p, q] = [index[a]!, index[b]!];
        const inX = pairAt(Math.floor(p / width), Math.floor(q / width)) * n;
        const inY = pairAt(p % width, q % width) * n;
        let [k, l, m] = [0, 0, 0];
        for (let i = 0; i < n; i++) {
          const value = x.values[inX + i]!;
          k += x.slopes[inX + i]! * values[inY + i]!;
          l += value * slopes[inY + i]!;
          m += value * values[inY + i]!;
        }
        kappa[a * size + b] = kappa[b * size + a] = k + l / aspect ** 2 - (a === b ? shares[j]! * kSquared(p) : 0);
        mass[a * size + b] = mass[b * size + a] = m - (a === b ? shares[j]! : 0);
      }
    }
    return { kappa, mass };
  });
  return { index, kappa: made.map(({ kappa }) => kappa), mass: made.map(({ mass }) => mass) };
}

const pairAt = (a: number, b: number): number => (a >= b ? (a * (a + 1)) / 2 + b : (b * (b + 1)) / 2 + a);

/** Products of the first functions of one direction, and of their slopes, at the points: one row a pair. */
function pairs({ nodes }: QuarterPoints, { wavenumbers }: PressureTerms, side: Side, count: number) {
  const n = nodes.length;
  const value = (c: number, xi: number) => (side === "odd" ? sin(c * xi) : c === 0 ? Math.SQRT1_2 : cos(c * xi));
  const slope = (c: number, xi: number) => (side === "odd" ? c * cos(c * xi) : -c * sin(c * xi));
  const table = (of: typeof value) =>
    Array.from({ length: count }, (_, m) => Float64Array.from(nodes, (xi) => of(wavenumbers[m]!, xi)));
  const [v, s] = [table(value), table(slope)];
  const values = new Float64Array(((count * (count + 1)) / 2) * n);
  const slopes = new Float64Array(values.length);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b <= a; b++) {
      const row = pairAt(a, b) * n;
      for (let i = 0; i < n; i++) {
        values[row + i] = v[a]![i]! * v[b]![i]!;
        slopes[row + i] = s[a]![i]! * s[b]![i]!;
      }
    }
  }
  return { values, slopes };
}

/** Sums over eta of a field times each pair, at every xi: one row a pair. */
function overEta(field: Float64Array, pairsOf: Float64Array, n: number): Float64Array {
  const result = new Float64Array(pairsOf.length);
  for (let pair = 0; pair < pairsOf.length / n; pair++) {
    for (let p = 0; p < n; p++) {
      let sum = 0;
      for (let q = 0; q < n; q++) sum += field[p * n + q]! * pairsOf[pair * n + q]!;
      result[pair * n + p] = sum;
    }
  }
  return result;
}

/**
 * The gaps at which a film's coefficients are taken, less its mean gap [m], and what share of the area each stands for; of a film
 * under a bent plate. They belong to the plate's state at rest, as the matrices do.
 */
export interface Relief {
  readonly heights: readonly number[];
  readonly shares: readonly number[];
  /** The gap over the one hole in the wall, less the mean gap [m]; absent: no such hole. */
  readonly atHole?: number;
}
