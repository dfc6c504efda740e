/** What a plain fit gives, in the units of its table, and how it is made of a fit. */
import type { LinearFit } from "../numerics/linearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import {
  type Correlation,
  correlationOf,
  coverageOfIntervals,
  type FitEvidence,
  type ReadValue,
  readValue,
} from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

type Numbers = ArrayLike<number>;

export interface PlainReading extends FitEvidence {
  readonly kind: "polynomial" | "linear" | "formula" | "statistics";
  /** By the names of the parameters: b0, b1, ... of a polynomial and a plane; those of the formula; mean, standardDeviation, lagOne. */
  readonly values: Readonly<Record<string, ReadValue>>;
  readonly correlation: Correlation | null;
  /** sqrt(sum of squares / degrees of freedom); null without a degree of freedom. */
  readonly residualStandardDeviation: number | null;
  /** Weighted where uncertainties are given. */
  readonly sumOfSquares: number;
  /** Further minima that seeded starts led to; null where none were looked for. */
  readonly minima: {
    readonly drawn: number;
    readonly followed: number;
    readonly seed: number;
    readonly others: readonly {
      readonly sumOfSquares: number;
      readonly values: Readonly<Record<string, number>>;
    }[];
  } | null;
  readonly model: Float64Array;
}

export function ofLinear(
  kind: PlainReading["kind"],
  fit: LinearFit,
  names: readonly string[],
  y: Numbers,
): PlainReading {
  const { values, standardUncertainties, covariance, residuals, degreesOfFreedom, residualStandardDeviation } = fit;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  return {
    kind,
    values: named(names, (i) => readValue(values[i]!, standardUncertainties?.[i] ?? null, factor)),
    correlation: correlationOf(names, covariance),
    residuals: residualsOf(residuals),
    residualStandardDeviation,
    sumOfSquares: fit.sumOfSquares,
    coverage: coverageOfIntervals,
    degreesOfFreedom,
    stopped: "converged",
    steps: 1,
    minima: null,
    model: residuals.map((rest, i) => y[i]! - rest),
  };
}

export const named = (names: readonly string[], value: (i: number) => ReadValue) =>
  Object.fromEntries(names.map((name, i) => [name, value(i)]));
