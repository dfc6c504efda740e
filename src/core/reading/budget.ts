/**
 * Uncertainty budgets: every line named, sensitivities by differences, effective degrees of freedom, and a second opinion
 * by drawing. Source: [jcgm-100] 5.1, 5.2, annex G; [jcgm-101].
 */
import { fourth } from "../numerics/power.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { seededNormal, seededUniform } from "../numerics/random.ts";
import { sin } from "../numerics/sine.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";

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

type Model = (values: readonly number[]) => number;

export interface BudgetQuestion {
  readonly model: Model;
  readonly inputs: readonly BudgetInput[];
  readonly correlations?: readonly InputCorrelation[];
  /** Share of the interval; 0.95 where absent. */
  readonly coverage?: number;
  /** The second opinion; null for none; 200 000 draws with seed 1 where absent. Correlated inputs are drawn as normal. */
  readonly monteCarlo?: { readonly count: number; readonly seed: number } | null;
}

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

export interface DrawnBudget {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
  readonly seed: number;
}

/**
 * Combines uncertainties: u^2 = sum c_i^2 u_i^2 + 2 sum c_i c_j u_i u_j r_ij.
 *
 * Problems: `no-inputs`, `wrong-input` (a value that is no number, a negative uncertainty), `wrong-correlation`, `model-not-finite`.
 * Remark: `linear-picture-fails` where drawing gives another uncertainty by more than 5 %.
 */
export function combineUncertainty(question: BudgetQuestion): Outcome<Budget> {
  const { model, inputs, correlations = [], coverage = 0.95 } = question;
  const problems = check(question);
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
  const monteCarlo = question.monteCarlo === null ? null : draw(question, coverage);
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
function sensitivities(model: Model, inputs: readonly BudgetInput[]): readonly number[] {
  const values = inputs.map(({ value }) => value);
  return inputs.map(({ value, standard }, i) => {
    const step = standard > 0 ? standard / 10 : Math.max(Math.abs(value), 1) * 1e-5;
    const at = (move: number) => model(values.with(i, value + move));
    return (8 * (at(step) - at(-step)) - (at(2 * step) - at(-2 * step))) / (12 * step);
  });
}

function covarianceOf(
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

/** sum_ij (f_ij^2 / 2 + f_i f_ijj) u_i^2 u_j^2. Source: [jcgm-100] 5.1.2, note. */
function secondOrder(model: Model, inputs: readonly BudgetInput[]): number {
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

function draw({ model, inputs, correlations = [], monteCarlo }: BudgetQuestion, coverage: number): DrawnBudget | null {
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

/** Lower Cholesky factor of the correlation matrix. */
function correlationRoot(count: number, correlations: readonly InputCorrelation[]): readonly (readonly number[])[] {
  const full = Array.from({ length: count }, (_, i) =>
    Array.from({ length: count }, (__, j): number => (i === j ? 1 : 0)),
  );
  for (const {
    between: [i, j],
    value,
  } of correlations)
    full[i]![j] = full[j]![i] = value;
  const root = full.map((row) => row.map(() => 0));
  for (let i = 0; i < count; i++)
    for (let j = 0; j <= i; j++) {
      let sum = full[i]![j]!;
      for (let k = 0; k < j; k++) sum -= root[i]![k]! * root[j]![k]!;
      root[i]![j] = i === j ? Math.sqrt(Math.max(0, sum)) : root[j]![j]! > 0 ? sum / root[j]![j]! : 0;
    }
  return root;
}

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

function check({ inputs, correlations = [] }: BudgetQuestion): Problem[] {
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
  for (const [i, { between, value }] of correlations.entries())
    if (!(Math.abs(value) <= 1) || between.some((n) => inputs[n] === undefined) || between[0] === between[1])
      problems.push({
        code: "wrong-correlation",
        path: ["correlations", i],
        message: `Found ${value} between lines ${between.join(" and ")}; needed: -1 to 1 between two lines of the budget.`,
      });
  return problems;
}
