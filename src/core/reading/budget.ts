/**
 * Uncertainty budgets: every line named, sensitivities by differences, effective degrees of freedom, and a second opinion
 * by drawing. Source: [jcgm-100] 5.1, 5.2, annex G; [jcgm-101].
 */
import { fourth } from "../numerics/power.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type BudgetInput, type BudgetQuestion, checkBudget } from "./budgetQuestion.ts";
import { type DrawnBudget, drawBudget } from "./drawnBudget.ts";
import { covarianceOf, secondOrder, sensitivities } from "./propagation.ts";

export interface BudgetLine {
  readonly name: string;
  readonly value: number;
  readonly standard: number;
  readonly degreesOfFreedom: number;
  /** Change of the result per change of the input. */
  readonly sensitivity: number;
  /** |sensitivity| standard, in the unit of the result. */
  readonly contribution: number;
  /** Share of the variance, without correlations. */
  readonly share: number;
}

export interface Budget {
  readonly value: number;
  readonly standardUncertainty: number;
  /** By Welch and Satterthwaite; Infinity where nothing limits it. */
  readonly degreesOfFreedom: number;
  readonly coverage: number;
  readonly coverageFactor: number;
  readonly expanded: number;
  readonly low: number;
  readonly high: number;
  /** Standard uncertainty with the terms of the second order, for inputs without correlation. */
  readonly withSecondOrder: number;
  readonly lines: readonly BudgetLine[];
  readonly monteCarlo: DrawnBudget | null;
}

/**
 * Combines uncertainties: u^2 = sum c_i^2 u_i^2 + 2 sum c_i c_j u_i u_j r_ij.
 *
 * Problems: `no-inputs`, `wrong-input` (a value that is no number, a negative uncertainty), `wrong-correlation`,
 * `impossible-correlation` for ones that contradict each other, `model-not-finite`.
 * Remark: `linear-picture-fails` where drawing gives another uncertainty by more than 5 %.
 */
export function combineUncertainty(question: BudgetQuestion): Outcome<Budget> {
  const { model, inputs, correlations = [], coverage = 0.95 } = question;
  const problems = checkBudget(question);
  if (problems.length > 0) return refuse(...problems);
  const values = inputs.map(({ value }) => value);
  const value = model(values);
  const slopes = sensitivities(model, inputs);
  if (![value, ...slopes].every(Number.isFinite))
    return refuse({
      code: "model-not-finite",
      path: ["model"],
      message: `The result is ${value} at the values given; needed: a finite result there and one standard uncertainty around.`,
    });
  const variance = Math.max(0, covarianceOf(slopes, slopes, inputs, correlations));
  const standardUncertainty = Math.sqrt(variance);
  const degreesOfFreedom = effectiveDegrees(slopes, inputs, standardUncertainty);
  const coverageFactor = studentQuantile((1 + coverage) / 2, wholeDegrees(degreesOfFreedom));
  const expanded = coverageFactor * standardUncertainty;
  const independent = slopes.reduce((sum, slope, i) => sum + (slope * inputs[i]!.standard) ** 2, 0);
  const lines = inputs.map((input, i): BudgetLine => {
    const contribution = Math.abs(slopes[i]! * input.standard);
    return {
      name: input.name,
      value: input.value,
      standard: input.standard,
      degreesOfFreedom: input.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
      sensitivity: slopes[i]!,
      contribution,
      share: independent > 0 ? contribution ** 2 / independent : 0,
    };
  });
  const monteCarlo = question.monteCarlo === null ? null : drawBudget(question, coverage);
  const budget: Budget = {
    value,
    standardUncertainty,
    degreesOfFreedom,
    coverage,
    coverageFactor,
    expanded,
    low: value - expanded,
    high: value + expanded,
    withSecondOrder: Math.sqrt(variance + secondOrder(model, inputs)),
    lines,
    monteCarlo,
  };
  return answer(budget, doubts(budget));
}

/** nu = u^4 / sum (c_i u_i)^4 / nu_i. Source: [jcgm-100] G.4.1. */
function effectiveDegrees(
  slopes: readonly number[],
  inputs: readonly BudgetInput[],
  standardUncertainty: number,
): number {
  const sum = slopes.reduce(
    (total, slope, i) =>
      total + fourth(slope * inputs[i]!.standard) / (inputs[i]!.degreesOfFreedom ?? Number.POSITIVE_INFINITY),
    0,
  );
  return sum > 0 ? fourth(standardUncertainty) / sum : Number.POSITIVE_INFINITY;
}

/** The next lower whole number, as the Guide's examples take it; never below one. Source: [jcgm-100] G.4.2. */
const wholeDegrees = (degrees: number) => (Number.isFinite(degrees) ? Math.max(1, Math.floor(degrees)) : degrees);

function doubts({ standardUncertainty, monteCarlo, lines }: Budget): Problem[] {
  if (monteCarlo === null) return [];
  // Student's t with few degrees is wider than its standard uncertainty says; that is no failure of the linear picture.
  if (lines.some(({ degreesOfFreedom }) => degreesOfFreedom < 10)) return [];
  const ratio = monteCarlo.standardUncertainty / standardUncertainty;
  if (Math.abs(ratio - 1) <= 0.05) return [];
  return [
    {
      code: "linear-picture-fails",
      path: [],
      message: `Drawing all inputs gives a standard uncertainty ${ratio.toPrecision(3)} times that of the linear budget; take the interval that was drawn.`,
    },
  ];
}
