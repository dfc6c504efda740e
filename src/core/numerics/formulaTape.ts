/**
 * A formula's tree as a tape: one step after the other, each with two places before it. The value is one pass forward, all
 * derivatives one pass back (reverse mode), whatever the number of parameters.
 */
import type { FormulaNode } from "./formulaText.ts";
import { pow } from "./power.ts";
import { cos, sin } from "./sine.ts";

interface Function1 {
  readonly value: (x: number) => number;
  /** Of the argument and the value there. */
  readonly slope: (x: number, y: number) => number;
}

/** Value and slope of each function. */
const functions: Readonly<Record<string, Function1>> = {
  exp: { value: Math.exp, slope: (_, y) => y },
  log: { value: Math.log, slope: (x) => 1 / x },
  ln: { value: Math.log, slope: (x) => 1 / x },
  log10: { value: Math.log10, slope: (x) => 1 / (x * Math.LN10) },
  sqrt: { value: Math.sqrt, slope: (_, y) => 0.5 / y },
  sin: { value: sin, slope: (x) => cos(x) },
  cos: { value: cos, slope: (x) => -sin(x) },
  tan: { value: Math.tan, slope: (_, y) => 1 + y * y },
  asin: { value: Math.asin, slope: (x) => 1 / Math.sqrt(1 - x * x) },
  acos: { value: Math.acos, slope: (x) => -1 / Math.sqrt(1 - x * x) },
  atan: { value: Math.atan, slope: (x) => 1 / (1 + x * x) },
  arctan: { value: Math.atan, slope: (x) => 1 / (1 + x * x) },
  sinh: { value: Math.sinh, slope: (x) => Math.cosh(x) },
  cosh: { value: Math.cosh, slope: (x) => Math.sinh(x) },
  tanh: { value: Math.tanh, slope: (_, y) => 1 - y * y },
  abs: { value: Math.abs, slope: (x) => Math.sign(x) },
};
export const formulaFunctions = Object.keys(functions);

type Step = "number" | "name" | "call" | "+" | "-" | "*" | "/" | "^";

export interface FormulaTape {
  /** `values`: of the names, in their order. NaN where it has no value. */
  readonly value: (values: ArrayLike<number>) => number;
  /** Derivatives to the wanted names. */
  readonly slopes: (values: ArrayLike<number>) => number[];
}

/** `names`: every name of the tree, in the order in which values are given; the slopes to the first `wanted` are asked for. */
export function formulaTape(root: FormulaNode, names: readonly string[], wanted: number): FormulaTape {
  const kinds: Step[] = [];
  const left: number[] = [];
  const right: number[] = [];
  const called: (Function1 | null)[] = [];
  const constants: number[] = [];
  const push = (kind: Step, a: number, b: number, of: Function1 | null, constant: number): number => {
    kinds.push(kind);
    left.push(a);
    right.push(b);
    called.push(of);
    constants.push(constant);
    return kinds.length - 1;
  };
  const lay = (node: FormulaNode): number => {
    if (node.is === "number") return push("number", -1, -1, null, node.value);
    if (node.is === "name") return push("name", names.indexOf(node.name), -1, null, 0);
    if (node.is === "call") return push("call", lay(node.of), -1, functions[node.name]!, 0);
    const a = lay(node.left);
    return push(node.by, a, lay(node.right), null, 0);
  };
  lay(root);
  const length = kinds.length;
  const found = Float64Array.from(constants);
  const forward = (values: ArrayLike<number>): number => {
    for (let i = 0; i < length; i++) {
      const a = left[i]!;
      switch (kinds[i]!) {
        case "number":
          break;
        case "name":
          found[i] = values[a]!;
          break;
        case "call":
          found[i] = called[i]!.value(found[a]!);
          break;
        case "+":
          found[i] = found[a]! + found[right[i]!]!;
          break;
        case "-":
          found[i] = found[a]! - found[right[i]!]!;
          break;
        case "*":
          found[i] = found[a]! * found[right[i]!]!;
          break;
        case "/":
          found[i] = found[a]! / found[right[i]!]!;
          break;
        case "^":
          found[i] = pow(found[a]!, found[right[i]!]!);
      }
    }
    return found[length - 1]!;
  };
  // Where nothing hangs on a wanted name an endless slope does no harm: such steps are passed over.
  const carries = carriersOf(kinds, left, right, wanted);
  const weight = new Float64Array(length);
  return {
    value: forward,
    slopes: (values) => {
      forward(values);
      const slopes = new Array<number>(wanted).fill(0);
      weight.fill(0);
      weight[length - 1] = 1;
      for (let i = length - 1; i >= 0; i--) {
        const w = weight[i]!;
        if (w === 0 || carries[i] === 0) continue;
        const [a, b] = [left[i]!, right[i]!];
        switch (kinds[i]!) {
          case "number":
            break;
          case "name":
            slopes[a]! += w;
            break;
          case "call":
            weight[a]! += w * called[i]!.slope(found[a]!, found[i]!);
            break;
          case "+":
            weight[a]! += w;
            weight[b]! += w;
            break;
          case "-":
            weight[a]! += w;
            weight[b]! -= w;
            break;
          case "*":
            weight[a]! += w * found[b]!;
            weight[b]! += w * found[a]!;
            break;
          case "/":
            weight[a]! += w / found[b]!;
            weight[b]! -= (w * found[i]!) / found[b]!;
            break;
          case "^":
            if (carries[a] === 1) weight[a]! += w * found[b]! * pow(found[a]!, found[b]! - 1);
            if (carries[b] === 1) weight[b]! += w * found[i]! * Math.log(found[a]!);
        }
      }
      return slopes;
    },
  };
}

/** Steps that hang on one of the first `wanted` names. */
function carriersOf(kinds: readonly Step[], left: readonly number[], right: readonly number[], wanted: number) {
  const carries = new Uint8Array(kinds.length);
  kinds.forEach((kind, i) => {
    if (kind === "number") return;
    if (kind === "name") carries[i] = left[i]! < wanted ? 1 : 0;
    else carries[i] = carries[left[i]!]! | (kind === "call" ? 0 : carries[right[i]!]!);
  });
  return carries;
}
