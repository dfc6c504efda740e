/** What every least-squares fit gives, and what its lists must be. */
import type { Problem } from "../problem.ts";

type Numbers = ArrayLike<number>;

export interface LeastSquares {
  readonly values: readonly number[];
  /** null where the values can't be told apart, or without a degree of freedom and without standard uncertainties. */
  readonly standardUncertainties: readonly number[] | null;
  /** Row-major, as many rows as values. */
  readonly covariance: Float64Array | null;
  /** y less the fit, in the unit of y. */
  readonly residuals: Float64Array;
  /** sqrt(sum of squares / degrees of freedom), weighted where uncertainties are given; null without a degree of freedom. */
  readonly residualStandardDeviation: number | null;
  /** Weighted where uncertainties are given. */
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
}

/** `columns-unequal`, or nothing. */
export const unequal = (name: string, found: number, needed: number): readonly Problem[] =>
  found === needed
    ? []
    : [
        {
          code: "columns-unequal",
          path: [name],
          message: `${name} has ${found} entries; needed: ${needed}, one for each.`,
        },
      ];

/** `not-finite` of the first entry that is no number, or nothing. */
export function notFinite(name: string, list: Numbers): readonly Problem[] {
  const bad = firstWhere(list, (value) => !Number.isFinite(value));
  if (bad < 0) return [];
  return [
    { code: "not-finite", path: [name, bad], message: `${name}[${bad}] is ${list[bad]}; needed: a finite number.` },
  ];
}

/** `wrong-standard` of the first standard uncertainty that is not above zero, or nothing. */
export function wrongStandard(standard: Numbers | undefined): readonly Problem[] {
  const bad = standard === undefined ? -1 : firstWhere(standard, (value) => !(value > 0));
  if (standard === undefined || bad < 0) return [];
  return [
    {
      code: "wrong-standard",
      path: ["standard", bad],
      message: `The standard uncertainty of point ${bad + 1} is ${standard[bad]}; needed: more than zero for every point.`,
    },
  ];
}

function firstWhere(list: Numbers, is: (value: number) => boolean): number {
  for (let i = 0; i < list.length; i++) if (is(list[i]!)) return i;
  return -1;
}
