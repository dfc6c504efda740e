/** What every fit gives: values with their uncertainty, and the evidence for them. */

export interface ReadValue {
  readonly value: number;
  /** null where the fit gives none: two values can't be told apart, or there is no degree of freedom. */
  readonly standardUncertainty: number | null;
  /** Ends of the interval of the stated coverage. */
  readonly low: number | null;
  readonly high: number | null;
}

export interface Whiteness {
  /** Autocorrelation of the residuals at a lag of one sample. */
  readonly lagOne: number;
  /** Share of white records that look less white than this one (Ljung and Box). */
  readonly probability: number;
}

export interface Residuals {
  /** In the unit of the output. */
  readonly rms: number;
  readonly whiteness: Whiteness | null;
}

/** How far a fit can be trusted: what every reading brings beside its values. */
export interface FitEvidence {
  readonly residuals: Residuals;
  /** Of the intervals, as a share [-]. */
  readonly coverage: number;
  readonly degreesOfFreedom: number;
  /** "converged", or why it went no further. */
  readonly stopped: string;
  readonly steps: number;
}

export interface Correlation {
  readonly names: readonly string[];
  /** Row-major. */
  readonly matrix: readonly number[];
}

/** A second way to the same value, beside the first. */
export interface SecondOpinion {
  readonly by: string;
  readonly value: number | null;
  readonly standardUncertainty: number | null;
  /** Why there is none, or what it can't see. */
  readonly says: string;
}

export const coverageOfIntervals = 0.95;

/** Value and interval from a standard uncertainty; `factor` is the quantile of Student's t. */
export function readValue(value: number, standardUncertainty: number | null, factor: number): ReadValue {
  const half = standardUncertainty === null ? null : factor * standardUncertainty;
  return {
    value,
    standardUncertainty,
    low: half === null ? null : value - half,
    high: half === null ? null : value + half,
  };
}

/**
 * Correlation out of a covariance: its first rows, as many as there are names; row-major and square. null without one.
 */
export function correlationOf(names: readonly string[], covariance: Float64Array | null): Correlation | null {
  if (covariance === null) return null;
  const size = Math.round(Math.sqrt(covariance.length));
  const variance = (i: number) => covariance[i * (size + 1)]!;
  const matrix = names.flatMap((_, i) =>
    names.map((__, j) => covariance[i * size + j]! / Math.sqrt(variance(i) * variance(j))),
  );
  return { names, matrix };
}

/** Root mean square, in the unit of the residuals; 0 of none. */
export const rms = (residuals: Float64Array): number =>
  Math.sqrt(residuals.reduce((sum, one) => sum + one * one, 0) / Math.max(1, residuals.length));
