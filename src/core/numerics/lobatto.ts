/** Gauss-Lobatto-Legendre nodes: the points of a spectral element, ends included. */
import { cos } from "./sine.ts";

export interface Lobatto {
  /** Degree p; there are p + 1 nodes on -1 .. 1. */
  readonly degree: number;
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
  /** Derivative at node i of the polynomial that is 1 at node j, row-major (p + 1)^2. */
  readonly derivative: Float64Array;
}

const made = new Map<number, Lobatto>();

/**
 * Nodes, weights and differentiation matrix of degree p.
 *
 *     (1 - x^2) P_p'(x) = 0,   w = 2 / (p (p + 1) P_p(x)^2),   D_ij = P_p(x_i) / (P_p(x_j) (x_i - x_j))
 *
 * Source: Canuto, Hussaini, Quarteroni, Zang, Spectral Methods, ch. 2 (from memory, to be confirmed). The rule integrates
 * polynomials up to degree 2 p - 1 exactly.
 */
export function lobatto(degree: number): Lobatto {
  const known = made.get(degree);
  if (known) return known;
  const count = degree + 1;
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const height = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let x = -cos((Math.PI * i) / degree);
    // Newton on x P_p - P_{p-1}, which is (p + 1) times the polynomial of the nodes over p; the ends stay.
    for (let step = 0; step < 50; step++) {
      const { last, before } = legendrePair(degree, x);
      const move = (x * last - before) / (count * last);
      x -= move;
      if (Math.abs(move) < 1e-16) break;
    }
    const { last } = legendrePair(degree, x);
    nodes[i] = x;
    height[i] = last;
    weights[i] = 2 / (degree * count * last * last);
  }
  const derivative = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      if (i !== j) derivative[i * count + j] = height[i]! / (height[j]! * (nodes[i]! - nodes[j]!));
    }
  }
  derivative[0] = (-degree * count) / 4;
  derivative[count * count - 1] = (degree * count) / 4;
  const rule = { degree, nodes, weights, derivative };
  made.set(degree, rule);
  return rule;
}

function legendrePair(degree: number, x: number): { readonly last: number; readonly before: number } {
  let before = 1;
  let last = x;
  for (let k = 2; k <= degree; k++) {
    const next = ((2 * k - 1) * x * last - (k - 1) * before) / k;
    before = last;
    last = next;
  }
  return { last, before };
}
