/**
 * A model that is typed: "y = b1*(1 - exp(-b2*x))". Numbers, names, + - * / ^ (or **), brackets, functions and pi; every
 * name that is no variable is a parameter. Derivatives are exact.
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formulaFunctions, formulaTape } from "./formulaTape.ts";
import { type FormulaNode, parseFormula } from "./formulaText.ts";

export interface Formula {
  /** In the order in which they first stand in it. */
  readonly parameters: readonly string[];
  /** Variables that it uses. */
  readonly variables: readonly string[];
  /** Those in which it is linear together, whatever the others are: y = sum b_k g_k(others, x) + g_0(others, x). */
  readonly linear: readonly string[];
  /** What is fitted: y, or what stands left of the "=". */
  readonly response: (y: number) => number;
  /** Its derivative to y. */
  readonly responseSlope: (y: number) => number;
  /** `x`: values of the variables, in the order of `variables`. NaN where it has no value. */
  readonly value: (parameters: readonly number[], x: readonly number[]) => number;
  /** Derivatives to the parameters. */
  readonly slopes: (parameters: readonly number[], x: readonly number[]) => number[];
  /** Derivatives to the variables, in their order. */
  readonly slopesInX: (parameters: readonly number[], x: readonly number[]) => number[];
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
  const tape = formulaTape(right.node, [...parameters, ...used], parameters.length);
  const inX = formulaTape(right.node, [...used, ...parameters], used.length);
  const ofY = left === null ? null : formulaTape(left.node, ["y"], 1);
  // One list of values for both, filled anew at each call: fits ask millions of times.
  const ahead = new Float64Array(parameters.length + used.length);
  const filled = (first: readonly number[], second: readonly number[]) => {
    for (let i = 0; i < first.length; i++) ahead[i] = first[i]!;
    for (let i = 0; i < second.length; i++) ahead[first.length + i] = second[i]!;
    return ahead;
  };
  return answer({
    parameters,
    variables: used,
    linear: linearNames(right.node, parameters),
    response: ofY === null ? (y) => y : (y) => ofY.value([y]),
    responseSlope: ofY === null ? () => 1 : (y) => ofY.slopes([y])[0]!,
    value: (b, x) => tape.value(filled(b, x)),
    slopes: (b, x) => tape.slopes(filled(b, x)),
    slopesInX: (b, x) => inX.slopes(filled(x, b)),
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

/** Taken in their order as long as the tree stays linear in all of them together. */
function linearNames(root: FormulaNode, parameters: readonly string[]): string[] {
  const chosen: string[] = [];
  for (const name of parameters) if (degreeIn(root, new Set([...chosen, name])) <= 1) chosen.push(name);
  return chosen;
}

/** Degree of a tree in the names together: 0, 1, or 2 for anything else. */
function degreeIn(node: FormulaNode, names: ReadonlySet<string>): number {
  if (node.is === "number") return 0;
  if (node.is === "name") return names.has(node.name) ? 1 : 0;
  if (node.is === "call") return degreeIn(node.of, names) === 0 ? 0 : 2;
  const [a, b] = [degreeIn(node.left, names), degreeIn(node.right, names)];
  if (node.by === "+" || node.by === "-") return Math.max(a, b);
  if (node.by === "*") return Math.min(2, a + b);
  if (node.by === "/") return b === 0 ? a : 2;
  return a === 0 && b === 0 ? 0 : 2;
}
