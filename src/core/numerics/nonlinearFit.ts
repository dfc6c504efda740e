/** Nonlinear least squares of a model given as a function: values, uncertainties, correlation, why it stopped. */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type LeastSquares, notFinite, unequal, wrongStandard } from "./leastSquares.ts";
import {
  type Linearization,
  type Minimum,
  minimizeSquares,
  type SquaresProblem,
  type Stopped,
} from "./minimizeSquares.ts";
import { type NonlinearFitQuestion, squaresOf } from "./modelSquares.ts";
import { inverseOfNormal } from "./triangle.ts";

export interface NonlinearFit extends LeastSquares {
  readonly stopped: Stopped;
  readonly steps: number;
  /** Indices of values that lie at a bound: their uncertainty is not given by the fit. */
  readonly atBound: readonly number[];
}

/** Ways of going downhill, tried until two arrive at the lowest sum: far starts need different cautions. */
const ways = [
  { damping: 1e-3, scaling: "largest" },
  { damping: 1e-3, scaling: "current", reach: 0.5 },
  { damping: 1, scaling: "largest" },
  { damping: 100, scaling: "current" },
  { damping: 1e-9, scaling: "current", reach: 0.3 },
] as const;

/**
 * Fits y = model(values, x) + e by least squares.
 *
 * Problems: `columns-unequal`, `not-finite`, `too-few-points`, `wrong-standard`, `model-not-finite`.
 * Remarks: `not-converged`, `values-not-told-apart`, `value-at-bound`.
 * Source: checked against NIST StRD from both starting points (truth/strd.truth.ts).
 */
export function fitNonlinear<X>(question: NonlinearFitQuestion<X>): Outcome<NonlinearFit> {
  const problems = check(question);
  if (problems.length > 0) return refuse(...problems);
  const problem = squaresOf(question);
  const best = lowest(problem, question);
  if (best.linearization === null)
    return refuse({
      code: "model-not-finite",
      path: ["start"],
      message: `The model is not finite at the start ${question.start.join(", ")}; needed: a start where every point has a value.`,
    });
  const fit = finish(question, best, best.linearization);
  return answer(fit, remarksOf(fit, question));
}

/** Steps of each way, in rounds: most starts need few, a wanderer is not followed far before the other ways were tried. */
const rounds = [300, 3000, 10_000] as const;

/** Values of the model that the rounds after the first may cost. */
const mostValues = 2e6;

function lowest<X>(problem: SquaresProblem, question: NonlinearFitQuestion<X>): Minimum {
  const { start, lower, upper, maxSteps = 10_000, tries = ways.length } = question;
  const bounds = { ...(lower && { lower }), ...(upper && { upper }) };
  const affordable = Math.max(rounds[0], mostValues / (tries * question.y.length));
  let best: Minimum | null = null;
  for (const round of rounds) {
    const most = Math.min(round, maxSteps, affordable);
    for (const way of ways.slice(0, tries)) {
      const found = minimizeSquares(problem, { start, ...bounds, maxSteps: most, ...way });
      if (found.stopped === "not-finite-at-start") return found;
      const agrees = best !== null && Math.abs(found.sumOfSquares - best.sumOfSquares) <= 1e-8 * best.sumOfSquares;
      const both = found.stopped === "converged" && best?.stopped === "converged";
      if (best === null || better(found, best)) best = found;
      if (agrees && both) return best;
    }
    if (best?.stopped === "converged" || most < round) break;
  }
  return best!;
}

/** Lower by more than round-off; of equal sums the one that has converged. */
function better(a: Minimum, b: Minimum): boolean {
  if (!(a.sumOfSquares <= b.sumOfSquares * (1 + 1e-9))) return false;
  if (a.sumOfSquares < b.sumOfSquares * (1 - 1e-9)) return true;
  return a.stopped === "converged" && b.stopped !== "converged";
}

function finish<X>(question: NonlinearFitQuestion<X>, best: Minimum, linearization: Linearization): NonlinearFit {
  const { model, x, y, standard } = question;
  const values = Array.from(best.parameters);
  const count = values.length;
  const residuals = Float64Array.from({ length: y.length }, (_, i) => y[i]! - model(values, x[i]!));
  const degreesOfFreedom = y.length - count;
  const variance = degreesOfFreedom > 0 ? best.sumOfSquares / degreesOfFreedom : null;
  const inverse = inverseOfNormal(linearization.triangle, count);
  const scale = standard === undefined ? variance : 1;
  const covariance = inverse === null || scale === null ? null : inverse.map((value) => value * scale);
  return {
    values,
    standardUncertainties: covariance === null ? null : values.map((_, i) => Math.sqrt(covariance[i * count + i]!)),
    covariance,
    residuals,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    sumOfSquares: best.sumOfSquares,
    degreesOfFreedom,
    stopped: best.stopped,
    steps: best.steps,
    atBound: best.atBound,
  };
}

function remarksOf<X>(fit: NonlinearFit, { start }: NonlinearFitQuestion<X>): Problem[] {
  const remarks: Problem[] = [];
  if (fit.stopped !== "converged")
    remarks.push({
      code: "not-converged",
      path: ["start"],
      message: `Stopped after ${fit.steps} steps (${fit.stopped}); the values are the best point found from ${start.join(", ")}. Try another start.`,
    });
  if (fit.covariance === null && fit.degreesOfFreedom > 0)
    remarks.push({
      code: "values-not-told-apart",
      path: [],
      message:
        "These data can't tell the values apart: a change of one is made good by the others. Fix one, or measure more.",
    });
  for (const i of fit.atBound)
    remarks.push({
      code: "value-at-bound",
      path: ["start", i],
      message: `Value ${i} ended at its bound, ${fit.values[i]}; its uncertainty is not that of the fit.`,
    });
  return remarks;
}

function check<X>({ start, x, y, standard, lower, upper }: NonlinearFitQuestion<X>): Problem[] {
  const problems: Problem[] = [
    ...unequal("x", x.length, y.length),
    ...unequal("standard", standard?.length ?? y.length, y.length),
    ...unequal("lower", lower?.length ?? start.length, start.length),
    ...unequal("upper", upper?.length ?? start.length, start.length),
    ...notFinite("start", start),
    ...notFinite("y", y),
    ...wrongStandard(standard),
  ];
  if (start.length === 0 || y.length < start.length)
    problems.push({
      code: "too-few-points",
      path: ["y"],
      message: `Points found: ${y.length}, values sought: ${start.length}; needed: a value to seek, and a point or more for each.`,
    });
  return problems;
}
