import { cos } from "./sine.ts";

/** Values P_0 .. P_{count - 1} of the Legendre polynomials at xi. */
export function legendreValues(count: number, xi: number): Float64Array {
  const values = new Float64Array(count);
  if (count > 0) values[0] = 1;
  if (count > 1) values[1] = xi;
  for (let n = 1; n + 1 < count; n++) {
    values[n + 1] = ((2 * n + 1) * xi * values[n]! - n * values[n - 1]!) / (n + 1);
  }
  return values;
}

/**
 * Sum of coefficients times Legendre polynomials at xi, by Clenshaw's recurrence from the highest down.
 *
 *     b_n = c_n + (2 n + 1) / (n + 1) xi b_(n+1) - (n + 1) / (n + 2) b_(n+2),   sum = b_0
 *
 * Source: Clenshaw 1955, from (n + 1) P_(n+1) = (2 n + 1) xi P_n - n P_(n-1).
 */
export function legendreSum(coefficients: Float64Array, xi: number): number {
  let next = 0;
  let afterNext = 0;
  for (let n = coefficients.length - 1; n >= 0; n--) {
    const here = coefficients[n]! + ((2 * n + 1) / (n + 1)) * xi * next - ((n + 1) / (n + 2)) * afterNext;
    afterNext = next;
    next = here;
  }
  return next;
}

/** integral of the product of two Legendre series over -1 .. 1, by orthogonality: integral P_n^2 = 2 / (2 n + 1). */
export function legendreProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < Math.min(a.length, b.length); n++) sum += (2 * a[n]! * b[n]!) / (2 * n + 1);
  return sum;
}

export interface GaussRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/** Rules by their count: each is asked for again and again. */
const rules = new Map<number, GaussRule>();

/** Nodes and weights of Gauss-Legendre quadrature on -1 .. 1, not to be written into. */
export function gaussLegendre(count: number): GaussRule {
  const known = rules.get(count) ?? gaussRule(count);
  rules.set(count, known);
  return known;
}

/** By Newton from the Chebyshev guess. */
function gaussRule(count: number): GaussRule {
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let x = cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 20; step++) {
      const p = legendreValues(count + 1, x);
      slope = (count * (p[count - 1]! - x * p[count]!)) / (1 - x * x);
      const change = p[count]! / slope;
      x -= change;
      if (Math.abs(change) < 1e-16) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}
