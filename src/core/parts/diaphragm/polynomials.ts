/**
 * One-dimensional shape functions on xi = -1 .. 1 whose second derivatives are Legendre polynomials, and their integrals.
 *
 *     phi_k'' = s_k P_k,   s_k = sqrt((2 k + 1) / 2), so that integral phi_k'' phi_l'' = delta_kl
 *     clamped: k = 2, 3, ...          phi(+-1) = phi'(+-1) = 0
 *     free to rotate: k = 0, 1, ...   phi(+-1) = 0; k = 0 and 1 are the only ones with a slope at the ends
 *
 * Within one parity k goes up in steps of two. Functions and slopes are kept as Legendre series, so every integral is a
 * closed form by orthogonality. Derivation: docs/theory/diaphragm.md.
 */
import { legendreProduct, legendreSum, legendreValues } from "../../numerics/legendre.ts";

export type Side = "even" | "odd";

/** Plain arrays, so that they can travel to a worker. Matrices are row-major, count x count. */
export interface Polynomials {
  readonly side: Side;
  readonly count: number;
  /** Degree k of each function's second derivative. */
  readonly degrees: Int32Array;
  /** s_k, the factor of P_k in the second derivative. */
  readonly factors: Float64Array;
  /** Legendre series of phi and of phi', one row of `width` a function. */
  readonly width: number;
  readonly values: Float64Array;
  readonly slopes: Float64Array;
  /** phi'(1); phi'(-1) is minus that for even functions, the same for odd ones. */
  readonly endSlopes: Float64Array;
  /** integral of phi over -1 .. 1. */
  readonly integrals: Float64Array;
  /** integral phi' phi' and integral phi phi. */
  readonly slopeProducts: Float64Array;
  readonly products: Float64Array;
}

/** By what they depend on: a plate of any shape asks for the same ones. */
const known = new Map<string, Polynomials>();

/** Not to be written into. */
export function polynomials({ side, count, rotates }: PolynomialsWanted): Polynomials {
  const key = `${side} ${count} ${rotates}`;
  const made = known.get(key) ?? makePolynomials({ side, count, rotates });
  known.set(key, made);
  return made;
}

interface PolynomialsWanted {
  readonly side: Side;
  readonly count: number;
  readonly rotates: boolean;
}

function makePolynomials(options: PolynomialsWanted): Polynomials {
  const { side, rotates } = options;
  const first = (rotates ? 0 : 2) + (side === "odd" ? 1 : 0);
  const degrees = Int32Array.from({ length: options.count }, (_, i) => first + 2 * i);
  // An array's length is known to be whole: loops that count by it run twice as fast as by a number that came from a formula.
  const count = degrees.length;
  const width = first + 2 * count + 2;
  const factors = Float64Array.from(degrees, (k) => Math.sqrt((2 * k + 1) / 2));
  const values = new Float64Array(count * width);
  const slopes = new Float64Array(count * width);
  degrees.forEach((k, i) => {
    const value = values.subarray(i * width, (i + 1) * width);
    const slope = slopes.subarray(i * width, (i + 1) * width);
    integratedTwice(k, factors[i]!, value, slope);
  });
  const row = (all: Float64Array, i: number) => all.subarray(i * width, (i + 1) * width);
  const products = new Float64Array(count * count);
  const slopeProducts = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    // A function is a sum of three Legendre polynomials, of degrees k - 2 to k + 2.
    for (let j = Math.max(0, i - 2); j <= Math.min(i + 2, count - 1); j++) {
      products[i * count + j] = legendreProduct(row(values, i), row(values, j));
      slopeProducts[i * count + j] = legendreProduct(row(slopes, i), row(slopes, j));
    }
  }
  return {
    side,
    count,
    degrees,
    factors,
    width,
    values,
    slopes,
    // Exactly 0 from k = 2 on, so that the stiffness of an edge keeps the matrices banded.
    endSlopes: Float64Array.from(degrees, (k, i) => (k < 2 ? legendreSum(row(slopes, i), 1) : 0)),
    integrals: Float64Array.from(degrees, (_, i) => 2 * values[i * width]!),
    slopeProducts,
    products,
  };
}

/** Legendre series of the function with second derivative s P_k, and of its slope: integral P_n = (P_{n+1} - P_{n-1}) / (2 n + 1). */
function integratedTwice(k: number, s: number, value: Float64Array, slope: Float64Array): void {
  if (k === 0) {
    slope[1] = s;
    value[0] = -s / 3;
    value[2] = s / 3;
    return;
  }
  if (k === 1) {
    slope[2] = s / 3;
    value[1] = -s / 15;
    value[3] = s / 15;
    return;
  }
  const outer = s / (2 * k + 1);
  slope[k + 1] = outer;
  slope[k - 1] = -outer;
  value[k + 2] = outer / (2 * k + 3);
  value[k] = -outer / (2 * k + 3) - outer / (2 * k - 1);
  value[k - 2] = outer / (2 * k - 1);
}

/** phi'' of every function at xi. */
export function curvaturesAt(basis: Polynomials, xi: number): Float64Array {
  const legendre = legendreValues((basis.degrees[basis.count - 1] ?? 0) + 1, xi);
  const result = new Float64Array(basis.count);
  for (let i = 0; i < basis.count; i++) result[i] = basis.factors[i]! * legendre[basis.degrees[i]!]!;
  return result;
}

/** phi, phi' and phi'' of every function at xi. */
export function valuesAt(basis: Polynomials, xi: number) {
  const { count, width } = basis;
  const legendre = legendreValues(width, xi);
  const value = new Float64Array(count);
  const slope = new Float64Array(count);
  const curvature = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const k = basis.degrees[i]!;
    // A function has Legendre polynomials of degrees k - 2 to k + 2 alone.
    for (let n = Math.max(0, k - 2); n <= k + 2; n++) {
      value[i]! += basis.values[i * width + n]! * legendre[n]!;
      slope[i]! += basis.slopes[i * width + n]! * legendre[n]!;
    }
    curvature[i] = basis.factors[i]! * legendre[k]!;
  }
  return { value, slope, curvature };
}

/** Sums over places xi of phi'' and of phi of every function, each with the weights of its own. */
export function weightedValues(
  { count, width, values, factors, degrees }: Polynomials,
  places: readonly { readonly xi: number; readonly toCurvature: number; readonly toValue: number }[],
): { readonly curvature: Float64Array; readonly value: Float64Array } {
  const ofCurvature = new Float64Array(width);
  const ofValue = new Float64Array(width);
  for (const { xi, toCurvature, toValue } of places) {
    let [here, before] = [1, 0];
    for (let n = 0; n < width; n++) {
      ofCurvature[n]! += toCurvature * here;
      ofValue[n]! += toValue * here;
      const next = ((2 * n + 1) * xi * here - n * before) / (n + 1);
      before = here;
      here = next;
    }
  }
  const curvature = new Float64Array(count);
  const value = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let n = 0; n < width; n++) sum += values[i * width + n]! * ofValue[n]!;
    value[i] = sum;
    curvature[i] = factors[i]! * ofCurvature[degrees[i]!]!;
  }
  return { curvature, value };
}
