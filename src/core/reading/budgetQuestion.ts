/** What an uncertainty budget is asked with: a model, its inputs and their correlations, looked through before anything is computed. */
import { symmetricEigen } from "../numerics/symmetricEigen.ts";
import type { Problem } from "../problem.ts";

export interface BudgetInput {
  readonly name: string;
  readonly value: number;
  /** Standard uncertainty, in the unit of the value; a half width over sqrt(3) for a rectangle. */
  readonly standard: number;
  /** Infinite where absent. */
  readonly degreesOfFreedom?: number;
  /** How it is drawn; "normal" (Student's t with few degrees) where absent. */
  readonly shape?: "normal" | "rectangular" | "triangular" | "arcsine";
}

export interface InputCorrelation {
  /** Numbers of two inputs. */
  readonly between: readonly [number, number];
  /** -1 to 1. */
  readonly value: number;
}

export type Model = (values: readonly number[]) => number;

export interface BudgetQuestion {
  readonly model: Model;
  readonly inputs: readonly BudgetInput[];
  readonly correlations?: readonly InputCorrelation[];
  /** Share of the interval; 0.95 where absent. */
  readonly coverage?: number;
  /** The second opinion; null for none; 200 000 draws with seed 1 where absent. Correlated inputs are drawn as normal. */
  readonly monteCarlo?: { readonly count: number; readonly seed: number } | null;
}

export function checkBudget({ inputs, correlations = [] }: BudgetQuestion): Problem[] {
  const problems: Problem[] = [];
  if (inputs.length === 0)
    problems.push({ code: "no-inputs", path: ["inputs"], message: "Lines found: 0; needed: one or more." });
  inputs.forEach(({ name, value, standard, degreesOfFreedom }, i) => {
    const degrees = degreesOfFreedom ?? Number.POSITIVE_INFINITY;
    if (!Number.isFinite(value) || !(standard >= 0) || !Number.isFinite(standard) || !(degrees > 0))
      problems.push({
        code: "wrong-input",
        path: ["inputs", i],
        message: `${name}: found ${value} with standard uncertainty ${standard} and ${degrees} degrees of freedom; needed: a number, an uncertainty of zero or more, degrees above zero.`,
      });
  });
  const pairs = new Set<string>();
  for (const [i, { between, value }] of correlations.entries()) {
    if (!(Math.abs(value) <= 1) || between.some((n) => inputs[n] === undefined) || between[0] === between[1])
      problems.push({
        code: "wrong-correlation",
        path: ["correlations", i],
        message: `Found ${value} between lines ${between.join(" and ")}; needed: -1 to 1 between two lines of the budget.`,
      });
    const pair = between.toSorted((a, b) => a - b).join(" and ");
    if (pairs.has(pair))
      problems.push({
        code: "wrong-correlation",
        path: ["correlations", i],
        message: `Found a second correlation, ${value}, between lines ${pair}; needed: one for each pair. Take one of them away.`,
      });
    pairs.add(pair);
  }
  if (problems.length === 0 && correlations.length > 0) problems.push(...impossible(inputs, correlations));
  return problems;
}

/** Correlation matrix, row-major. */
export function correlationMatrix(size: number, correlations: readonly InputCorrelation[]): Float64Array {
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++) matrix[i * size + i] = 1;
  for (const {
    between: [i, j],
    value,
  } of correlations)
    matrix[i * size + j] = matrix[j * size + i] = value;
  return matrix;
}

/** Round-off of an eigenvalue that is zero, where lines hang together entirely [-]. */
const roundOff = 1e-9;

/** A sum of the lines, by whatever factors, can't vary less than not at all: no eigenvalue of the matrix lies below zero. */
function impossible(inputs: readonly BudgetInput[], correlations: readonly InputCorrelation[]): Problem[] {
  const { values, vectors } = symmetricEigen(correlationMatrix(inputs.length, correlations), inputs.length);
  const least = values[0]!;
  if (least >= -roundOff) return [];
  const names = inputs.filter((_, i) => Math.abs(vectors[i]!) > 0.1).map(({ name }) => name);
  return [
    {
      code: "impossible-correlation",
      path: ["correlations"],
      message: `The correlations between ${names.join(", ")} contradict each other: a sum of these would have ${least.toPrecision(2)} of their variance, less than none. Needed: correlations that numbers can have together. Lower some of them, take one away, or give rounded ones with more digits.`,
    },
  ];
}
