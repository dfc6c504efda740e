/**
 * Frequency weightings A and C, and the power of a spectrum through A.
 *
 *     C(f) = f4^2 f^2 / ((f^2 + f1^2) (f^2 + f4^2)),   A(f) = C(f) f^2 / sqrt((f^2 + f2^2) (f^2 + f3^2)),   0 dB at 1 kHz
 *
 * Source: [iec-61672-1] annex E; poles computed from the formulas of that annex to nine digits.
 */
import { frequencyRule } from "./frequencyRule.ts";

/** Poles [Hz]. */
const f1 = 20.598997;
const f2 = 107.652649;
const f3 = 737.862231;
const f4 = 12194.217148;

const c = (f: number) => (f4 ** 2 * f ** 2) / ((f ** 2 + f1 ** 2) * (f ** 2 + f4 ** 2));
const a = (f: number) => (c(f) * f ** 2) / Math.sqrt((f ** 2 + f2 ** 2) * (f ** 2 + f3 ** 2));
const [cAtReference, aAtReference] = [c(1000), a(1000)];

/** A-weighting at a frequency [Hz], dB re its own value at 1 kHz. */
export const aWeightDb = (frequency: number): number => 20 * Math.log10(a(frequency) / aAtReference);

/** C-weighting at a frequency [Hz], dB re its own value at 1 kHz. */
export const cWeightDb = (frequency: number): number => 20 * Math.log10(c(frequency) / cAtReference);

/** A-weighting as a factor of power [-]. */
export const aWeightPower = (frequency: number): number => (a(frequency) / aAtReference) ** 2;

/** Power of a one-sided spectrum through A between two frequencies: the density's unit times Hz. */
export function weightedPower(given: {
  readonly from: number;
  readonly to: number;
  readonly density: (frequency: number) => number;
}): number {
  const { f, df } = frequencyRule(given.from, given.to);
  let sum = 0;
  for (let i = 0; i < f.length; i++) sum += given.density(f[i]!) * aWeightPower(f[i]!) * df[i]!;
  return sum;
}
