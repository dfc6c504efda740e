/**
 * A model that is typed: "y = b1*(1 - exp(-b2*x))". Numbers, names, + - * / ^ (or **), brackets, functions and pi; every
 * name that is no variable is a parameter. Derivatives are exact: each step carries those of its parts (forward mode).
 */

import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type FormulaNode, parseFormula } from "./formulaText.ts";
import { pow } from "./power.ts";
import { cos, sin } from "./sine.ts";

export interface Formula {
  /** In the order in which they first stand in it. */
  readonly parameters: readonly string[];
  /** Variables that it uses. */
  readonly variables: readonly string[];
  /** What is fitted: y, or what stands left of the "=". */
  readonly response: (y: number) => number;
  /** `x`: values of the variables, in the order of `variables`. NaN where it has no value. */
  readonly value: (parameters: readonly number[], x: readonly number[]) => number;
  /** Derivatives to the parameters. */
  readonly slopes: (parameters: readonly number[], x: readonly number[]) => number[];
}

/**
 * Reads a formula; `variables` are the names that are no parameters. Problems: `formula-unreadable` (with the place),
 * `formula-without-parameters`.
 */
export function readFormula(text: string, variables: readonly string[]): Outcome<Formula> {
  const sides = text.split("=");
  if (sides.length > 2) return refuse(unreadable(text, text.lastIndexOf("="), 'one "=" at most'));
  const right = parseFormula(sides.at(-1)!, formulaFunctions);
  if (!right.ok) return refuse(unreadable(sides.at(-1)!, right.at, right.needed));
  const left = sides.length === 2 ? parseFormula(sides[0]!, formulaFunctions) : null;
  if (left !== null && !left.ok) return refuse(unreadable(sides[0]!, left.at, left.needed));
  const leftNames = left === null ? [] : namesOf(left.node);
  if (leftNames.some((name) => name !== "y"))
    return refuse(unreadable(sides[0]!, 0, 'y, or a function of y, left of the "="'));
  const names = namesOf(right.node);
  const parameters = names.filter((name) => !variables.includes(name));
  const used = variables.filter((name) => names.includes(name));
  if (parameters.length === 0)
    return refuse({
      code: "formula-without-parameters",
      path: ["formula"],
      message: `"${text}" has no parameter; needed: names beside ${variables.join(", ")}, such as b1.`,
    });
  const places = new Map([...parameters, ...used].map((name, i) => [name, i]));
  const count = parameters.length;
  const dual = (node: FormulaNode, values: readonly number[]) => evaluate(node, values, places, count);
  return answer({
    parameters,
    variables: used,
    response: left === null ? (y) => y : (y) => evaluate(left.node, [y], new Map([["y", 0]]), 0).value,
    value: (b, x) => evaluate(right.node, [...b, ...x], places, 0).value,
    slopes: (b, x) => dual(right.node, [...b, ...x]).slopes,
  });
}

const unreadable = (text: string, at: number, needed: string): Problem => ({
  code: "formula-unreadable",
  path: ["formula"],
  message: `Found "${text.slice(at, at + 12)}" at place ${at + 1} of "${text.trim()}"; needed: ${needed}.`,
});

function namesOf(node: FormulaNode): string[] {
  if (node.is === "name") return [node.name];
  const parts = node.is === "number" ? [] : node.is === "call" ? [node.of] : [node.left, node.right];
  return [...new Set(parts.flatMap(namesOf))];
}

interface Dual {
  readonly value: number;
  readonly slopes: number[];
}

/** Value and slope of each function. */
const functions: Readonly<Record<string, (x: number) => readonly [number, number]>> = {
  exp: (x) => [Math.exp(x), Math.exp(x)],
  log: (x) => [Math.log(x), 1 / x],
  ln: (x) => [Math.log(x), 1 / x],
  log10: (x) => [Math.log10(x), 1 / (x * Math.LN10)],
  sqrt: (x) => [Math.sqrt(x), 0.5 / Math.sqrt(x)],
  sin: (x) => [sin(x), cos(x)],
  cos: (x) => [cos(x), -sin(x)],
  tan: (x) => [Math.tan(x), 1 + Math.tan(x) ** 2],
  asin: (x) => [Math.asin(x), 1 / Math.sqrt(1 - x * x)],
  acos: (x) => [Math.acos(x), -1 / Math.sqrt(1 - x * x)],
  atan: (x) => [Math.atan(x), 1 / (1 + x * x)],
  arctan: (x) => [Math.atan(x), 1 / (1 + x * x)],
  sinh: (x) => [Math.sinh(x), Math.cosh(x)],
  cosh: (x) => [Math.cosh(x), Math.sinh(x)],
  tanh: (x) => [Math.tanh(x), 1 - Math.tanh(x) ** 2],
  abs: (x) => [Math.abs(x), Math.sign(x)],
};
const formulaFunctions = Object.keys(functions);

/** `count`: derivatives to the first so many of the values; 0 for the value alone. */
function evaluate(
  node: FormulaNode,
  values: readonly number[],
  places: ReadonlyMap<string, number>,
  count: number,
): Dual {
  if (node.is === "number") return { value: node.value, slopes: new Array<number>(count).fill(0) };
  if (node.is === "name") {
    const at = places.get(node.name)!;
    return { value: values[at]!, slopes: Array.from({ length: count }, (_, i) => (i === at ? 1 : 0)) };
  }
  if (node.is === "call") {
    const of = evaluate(node.of, values, places, count);
    const [value, slope] = functions[node.name]!(of.value);
    // Where nothing depends on a parameter an endless slope does no harm.
    return { value, slopes: of.slopes.map((one) => (one === 0 ? 0 : one * slope)) };
  }
  const a = evaluate(node.left, values, places, count);
  const b = evaluate(node.right, values, places, count);
  const joined = (value: number, byA: number, byB: number): Dual => ({
    value,
    slopes: a.slopes.map((one, i) => (one === 0 ? 0 : one * byA) + (b.slopes[i]! === 0 ? 0 : b.slopes[i]! * byB)),
  });
  switch (node.by) {
    case "+":
      return joined(a.value + b.value, 1, 1);
    case "-":
      return joined(a.value - b.value, 1, -1);
    case "*":
      return joined(a.value * b.value, b.value, a.value);
    case "/":
      return joined(a.value / b.value, 1 / b.value, -a.value / b.value ** 2);
    case "^": {
      const value = pow(a.value, b.value);
      return joined(value, b.value * pow(a.value, b.value - 1), value * Math.log(a.value));
    }
  }
}
