/** What a plain list of numbers says: mean, spread, memory. Sums in double-double: nothing is lost to a large mean. */
import { answer, type Outcome, refuse } from "../problem.ts";
import { type DoubleDouble, ddAdd, ddDivide, ddMultiply, ddNegative } from "./doubleDouble.ts";

export interface SampleDescription {
  readonly count: number;
  readonly mean: number;
  /** With count - 1 below; null for one number. */
  readonly standardDeviation: number | null;
  /** Of the mean, were the numbers independent: standardDeviation / sqrt(count). */
  readonly standardUncertaintyOfMean: number | null;
  /** Autocorrelation at a lag of one; null where all are equal. */
  readonly lagOne: number | null;
  readonly smallest: number;
  readonly largest: number;
}

/**
 * Mean, standard deviation and autocorrelation at lag one of a sample.
 *
 *     r1 = sum (y_i - mean)(y_(i+1) - mean) / sum (y_i - mean)^2
 *
 * Problems: `empty`, `not-finite`. Source: checked against NIST StRD (truth/strd.truth.ts).
 */
export function describeSample(values: ArrayLike<number>): Outcome<SampleDescription> {
  const count = values.length;
  if (count === 0)
    return refuse({ code: "empty", path: ["values"], message: "Numbers found: 0; needed: one or more." });
  let sum: DoubleDouble = { high: 0, low: 0 };
  let [smallest, largest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < count; i++) {
    const value = values[i]!;
    if (!Number.isFinite(value))
      return refuse({ code: "not-finite", path: ["values", i], message: `Number ${i} is ${value}; needed: a number.` });
    sum = ddAdd(sum, { high: value, low: 0 });
    smallest = Math.min(smallest, value);
    largest = Math.max(largest, value);
  }
  const mean = ddDivide(sum, { high: count, low: 0 });
  const minusMean = ddNegative(mean);
  let squares: DoubleDouble = { high: 0, low: 0 };
  let products: DoubleDouble = { high: 0, low: 0 };
  let before: DoubleDouble | null = null;
  for (let i = 0; i < count; i++) {
    const here = ddAdd({ high: values[i]!, low: 0 }, minusMean);
    squares = ddAdd(squares, ddMultiply(here, here));
    if (before !== null) products = ddAdd(products, ddMultiply(before, here));
    before = here;
  }
  const standardDeviation = count > 1 ? Math.sqrt(squares.high / (count - 1)) : null;
  return answer({
    count,
    mean: mean.high,
    standardDeviation,
    standardUncertaintyOfMean: standardDeviation === null ? null : standardDeviation / Math.sqrt(count),
    lagOne: largest > smallest ? products.high / squares.high : null,
    smallest,
    largest,
  });
}
