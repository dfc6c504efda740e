/** Spectral elements along one direction: intervals, each with the Gauss-Lobatto nodes of one degree. */
import { type Lobatto, lobatto } from "../../../numerics/lobatto.ts";

export interface Elements {
  readonly rule: Lobatto;
  /** Ends of the elements, ascending; one more than elements. */
  readonly ends: readonly number[];
  /** Nodes; neighbors share theirs. */
  readonly nodes: Float64Array;
  /** Quadrature weight of each node, both neighbors' shares summed. */
  readonly weights: Float64Array;
}

export function elementsOf(ends: readonly number[], degree: number): Elements {
  const rule = lobatto(degree);
  const count = ends.length - 1;
  const nodes = new Float64Array(count * degree + 1);
  const weights = new Float64Array(count * degree + 1);
  for (let e = 0; e < count; e++) {
    const half = (ends[e + 1]! - ends[e]!) / 2;
    const middle = (ends[e + 1]! + ends[e]!) / 2;
    for (let i = 0; i <= degree; i++) {
      nodes[e * degree + i] = middle + half * rule.nodes[i]!;
      weights[e * degree + i]! += half * rule.weights[i]!;
    }
  }
  return { rule, ends, nodes, weights };
}

/** Ends with no step longer than `longest`: each interval is cut into equal parts. */
export function cut(ends: readonly number[], longest: number): number[] {
  const result = [ends[0]!];
  for (let i = 1; i < ends.length; i++) {
    const [from, to] = [ends[i - 1]!, ends[i]!];
    const parts = Math.max(1, Math.ceil((to - from) / longest - 1e-9));
    for (let k = 1; k <= parts; k++) result.push(from + ((to - from) * k) / parts);
  }
  return result;
}

/** The value at `at` of what is known at the nodes, by the elements' own polynomials. */
export function interpolate(elements: Elements, values: Float64Array, at: number): number {
  const { rule, ends } = elements;
  const count = ends.length - 1;
  let e = 0;
  while (e < count - 1 && at > ends[e + 1]!) e++;
  const half = (ends[e + 1]! - ends[e]!) / 2;
  const xi = (at - (ends[e + 1]! + ends[e]!) / 2) / half;
  // Barycentric: weights of Lobatto nodes are (-1)^i sqrt(w_i) up to a factor.
  let above = 0;
  let below = 0;
  for (let i = 0; i <= rule.degree; i++) {
    const value = values[e * rule.degree + i]!;
    const off = xi - rule.nodes[i]!;
    if (Math.abs(off) < 1e-14) return value;
    const weight = ((i % 2 === 0 ? 1 : -1) * Math.sqrt(rule.weights[i]!)) / off;
    above += weight * value;
    below += weight;
  }
  return above / below;
}
