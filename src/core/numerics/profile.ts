/** Intervals where the linear picture fails: by the profile of the sum of squares, and by fitting resampled residuals. */
import { answer, type Outcome, refuse } from "../problem.ts";
import type { NonlinearFitQuestion } from "./modelSquares.ts";
import { fitNonlinear } from "./nonlinearFit.ts";
import { studentQuantile } from "./quantiles.ts";
import { seededUniform } from "./random.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** An end is null where the sum never rises so far: the data set no bound there. */
export interface ProfileInterval {
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Interval of one value by the profile: where the least sum of squares, all other values free, has risen to
 *
 *     S(theta) = S_min (1 + t^2 / nu),   t Student's quantile with nu degrees of freedom
 *
 * (S_min + t^2 with known uncertainties). Source: Bates and Watts 1988 (from memory, to be confirmed). Problems: those of
 * `fitNonlinear`, `no-degree-of-freedom`.
 */
export function profileInterval<X>(
  question: NonlinearFitQuestion<X>,
  index: number,
  coverage = 0.95,
): Outcome<ProfileInterval> {
  const fit = fitNonlinear(question);
  if (!fit.ok) return fit;
  const { values, standardUncertainties, sumOfSquares, degreesOfFreedom } = fit.value;
  if (degreesOfFreedom < 1)
    return refuse({
      code: "no-degree-of-freedom",
      path: ["y"],
      message: `Points: ${question.y.length}, values: ${values.length}; needed: one point more than values.`,
    });
  const known = question.standard !== undefined;
  const t = studentQuantile((1 + coverage) / 2, known ? Number.POSITIVE_INFINITY : degreesOfFreedom);
  const level = known ? sumOfSquares + t * t : sumOfSquares * (1 + (t * t) / degreesOfFreedom);
  const best = values[index]!;
  const first = t * (standardUncertainties?.[index] ?? Math.abs(best) * 0.1);
  const excess = (at: number): number => {
    const bound = (given: readonly number[] | undefined, none: number) =>
      values.map((_, i) => (i === index ? at : (given?.[i] ?? none)));
    const held = fitNonlinear({
      ...question,
      start: values.with(index, at),
      lower: bound(question.lower, Number.NEGATIVE_INFINITY),
      upper: bound(question.upper, Number.POSITIVE_INFINITY),
    });
    return held.ok ? held.value.sumOfSquares - level : Number.POSITIVE_INFINITY;
  };
  return answer({ low: crossing(best, -first, excess), high: crossing(best, first, excess) });
}

/** Where the profile crosses its level on one side; null where it does not within a thousand first steps. */
function crossing(best: number, first: number, excess: (at: number) => number): number | null {
  let [inside, outside] = [0, 1];
  while (excess(best + outside * first) < 0) {
    inside = outside;
    outside *= 2;
    if (outside > 1000) return null;
  }
  for (let i = 0; i < 40 && outside - inside > 1e-6 * outside; i++) {
    const middle = (inside + outside) / 2;
    if (excess(best + middle * first) < 0) inside = middle;
    else outside = middle;
  }
  return best + ((inside + outside) / 2) * first;
}

/**
 * Intervals of all values by the bootstrap: residuals are drawn with replacement, laid on the fit, fitted again.
 * Holds: residuals alike and independent. Problems: those of `fitNonlinear`.
 */
export function bootstrapIntervals<X>(
  question: NonlinearFitQuestion<X>,
  { count, seed, coverage = 0.95 }: { readonly count: number; readonly seed: number; readonly coverage?: number },
): Outcome<readonly Interval[]> {
  const fit = fitNonlinear(question);
  if (!fit.ok) return fit;
  const { values, residuals, degreesOfFreedom } = fit.value;
  const random = seededUniform(seed);
  // Residuals of a fit are too small by what the values took up.
  const scale = Math.sqrt(residuals.length / Math.max(1, degreesOfFreedom));
  const model = residuals.map((residual, i) => question.y[i]! - residual);
  const drawn: number[][] = [];
  for (let k = 0; k < count; k++) {
    const y = model.map((value) => value + scale * residuals[Math.floor(random() * residuals.length)]!);
    const again = fitNonlinear({ ...question, y, start: values });
    if (again.ok) drawn.push([...again.value.values]);
  }
  return answer(
    values.map((_, i) => {
      const sorted = drawn.map((one) => one[i]!).sort((a, b) => a - b);
      const at = (share: number) =>
        sorted[Math.min(sorted.length - 1, Math.max(0, Math.round(share * sorted.length - 0.5)))]!;
      return { low: at((1 - coverage) / 2), high: at((1 + coverage) / 2) };
    }),
  );
}
