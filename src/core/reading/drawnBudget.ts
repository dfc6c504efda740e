/** The second opinion of a budget: all inputs drawn, the results counted. Source: [jcgm-101]. */
import { seededNormal, seededUniform } from "../numerics/random.ts";
import { sin } from "../numerics/sine.ts";
import { type BudgetInput, type BudgetQuestion, correlationMatrix, type InputCorrelation } from "./budgetQuestion.ts";

export interface DrawnBudget {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
  readonly seed: number;
}

export function drawBudget(
  { model, inputs, correlations = [], monteCarlo }: BudgetQuestion,
  coverage: number,
): DrawnBudget | null {
  const { count, seed } = monteCarlo ?? { count: 200_000, seed: 1 };
  const uniform = seededUniform(seed);
  const normal = seededNormal(seed + 1);
  const mix = correlations.length > 0 ? correlationRoot(inputs.length, correlations) : null;
  const results = new Float64Array(count);
  const plain = new Float64Array(inputs.length);
  const point = new Array<number>(inputs.length);
  for (let k = 0; k < count; k++) {
    if (mix !== null) for (let i = 0; i < plain.length; i++) plain[i] = normal();
    for (let i = 0; i < inputs.length; i++) {
      const input = inputs[i]!;
      const by =
        mix === null ? deviate(input, uniform, normal) : mix[i]!.reduce((sum, share, j) => sum + share * plain[j]!, 0);
      point[i] = input.value + input.standard * by;
    }
    results[k] = model(point);
  }
  const kept = results.filter(Number.isFinite).sort();
  if (kept.length < count * 0.99) return null;
  const mean = kept.reduce((sum, value) => sum + value, 0) / kept.length;
  const squares = kept.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const at = (share: number) => kept[Math.min(kept.length - 1, Math.max(0, Math.round(share * kept.length - 0.5)))]!;
  return {
    mean,
    standardUncertainty: Math.sqrt(squares / (kept.length - 1)),
    low: at((1 - coverage) / 2),
    high: at((1 + coverage) / 2),
    count,
    seed,
  };
}

/** A number of mean 0 and standard deviation 1; Student's t as it is, wider, where few degrees stand behind it. */
function deviate({ shape, degreesOfFreedom }: BudgetInput, uniform: () => number, normal: () => number): number {
  if (shape === "rectangular") return Math.sqrt(3) * (2 * uniform() - 1);
  if (shape === "triangular") return Math.sqrt(6) * (uniform() + uniform() - 1);
  if (shape === "arcsine") return Math.SQRT2 * sin(2 * Math.PI * uniform());
  if (degreesOfFreedom === undefined || degreesOfFreedom > 200) return normal();
  const whole = Math.max(1, Math.round(degreesOfFreedom));
  let squares = 0;
  for (let i = 0; i < whole; i++) squares += normal() ** 2;
  return normal() / Math.sqrt(squares / whole);
}

/** Lower Cholesky factor of the correlation matrix; a column of zeros where a line follows from others. */
function correlationRoot(count: number, correlations: readonly InputCorrelation[]): readonly (readonly number[])[] {
  const full = correlationMatrix(count, correlations);
  const root = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  for (let i = 0; i < count; i++)
    for (let j = 0; j <= i; j++) {
      let sum = full[i * count + j]!;
      for (let k = 0; k < j; k++) sum -= root[i]![k]! * root[j]![k]!;
      root[i]![j] = i === j ? Math.sqrt(Math.max(0, sum)) : root[j]![j]! > 0 ? sum / root[j]![j]! : 0;
    }
  return root;
}
