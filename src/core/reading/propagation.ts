/** Uncertainty through a model by its slopes, first and second order. Source: [jcgm-100] 5.1, 5.2. */
import type { BudgetInput, BudgetQuestion, InputCorrelation, Model } from "./budgetQuestion.ts";

/** Correlation of two results that share their inputs. */
export function outputCorrelation(
  a: Model,
  b: Model,
  { inputs, correlations = [] }: Pick<BudgetQuestion, "inputs" | "correlations">,
): number {
  const [slopesA, slopesB] = [sensitivities(a, inputs), sensitivities(b, inputs)];
  const covariance = (p: readonly number[], q: readonly number[]) => covarianceOf(p, q, inputs, correlations);
  return covariance(slopesA, slopesB) / Math.sqrt(covariance(slopesA, slopesA) * covariance(slopesB, slopesB));
}

/** Central differences over a tenth of a standard uncertainty, with the third order taken out. */
export function sensitivities(model: Model, inputs: readonly BudgetInput[]): readonly number[] {
  const values = inputs.map(({ value }) => value);
  return inputs.map(({ value, standard }, i) => {
    const step = standard > 0 ? standard / 10 : Math.max(Math.abs(value), 1) * 1e-5;
    const at = (move: number) => model(values.with(i, value + move));
    return (8 * (at(step) - at(-step)) - (at(2 * step) - at(-2 * step))) / (12 * step);
  });
}

export function covarianceOf(
  a: readonly number[],
  b: readonly number[],
  inputs: readonly BudgetInput[],
  correlations: readonly InputCorrelation[],
): number {
  const spread = (slopes: readonly number[], i: number) => slopes[i]! * inputs[i]!.standard;
  let sum = a.reduce((total, _, i) => total + spread(a, i) * spread(b, i), 0);
  for (const {
    between: [i, j],
    value,
  } of correlations)
    sum += value * (spread(a, i) * spread(b, j) + spread(a, j) * spread(b, i));
  return sum;
}

/** sum_ij (f_ij^2 / 2 + f_i f_ijj) u_i^2 u_j^2. Source: [jcgm-100] 5.1.2, note. */
export function secondOrder(model: Model, inputs: readonly BudgetInput[]): number {
  const values = inputs.map(({ value }) => value);
  const active = inputs.flatMap(({ standard }, i) => (standard > 0 ? [i] : []));
  const at = (i: number, p: number, j: number, q: number) => {
    const moved = [...values];
    moved[i]! += p * inputs[i]!.standard;
    moved[j]! += q * inputs[j]!.standard;
    return model(moved);
  };
  const middle = model(values);
  let sum = 0;
  for (const i of active)
    for (const j of active) {
      // Differences over one standard uncertainty: f_ij u_i u_j and so on, at once.
      const mixed =
        i === j
          ? at(i, 1, j, 0) - 2 * middle + at(i, -1, j, 0)
          : (at(i, 1, j, 1) - at(i, 1, j, -1) - at(i, -1, j, 1) + at(i, -1, j, -1)) / 4;
      const slope = (at(i, 1, j, 0) - at(i, -1, j, 0)) / 2;
      const bent =
        i === j
          ? (at(i, 2, j, 0) - 2 * at(i, 1, j, 0) + 2 * at(i, -1, j, 0) - at(i, -2, j, 0)) / 2
          : (at(i, 1, j, 1) -
              2 * at(i, 1, j, 0) +
              at(i, 1, j, -1) -
              at(i, -1, j, 1) +
              2 * at(i, -1, j, 0) -
              at(i, -1, j, -1)) /
            2;
      sum += mixed ** 2 / 2 + slope * bent;
    }
  return Math.max(0, sum);
}
