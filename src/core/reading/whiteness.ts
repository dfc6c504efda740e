/** Whether residuals are noise or still hold something. */
import { realFourier } from "../numerics/fourier.ts";
import { chiSquaredShare } from "../numerics/quantiles.ts";
import { type Residuals, rms, type Whiteness } from "./reading.ts";

/**
 * Autocorrelation of residuals over twenty lags:
 *
 *     Q = n (n + 2) sum r_k^2 / (n - k), chi-squared with `lags` degrees for white noise
 *
 * Source: [ljung-box-1978]. Long records are judged by their first 200 000 samples. null for less than 30.
 */
export function whitenessOf(residuals: Float64Array): Whiteness | null {
  const count = Math.min(residuals.length, 200_000);
  if (count < 30) return null;
  const lags = Math.min(20, count >> 2);
  let squares = 0;
  for (let i = 0; i < count; i++) squares += residuals[i]! ** 2;
  if (squares === 0) return null;
  let sum = 0;
  let lagOne = 0;
  for (let k = 1; k <= lags; k++) {
    let products = 0;
    for (let i = k; i < count; i++) products += residuals[i]! * residuals[i - k]!;
    const r = products / squares;
    if (k === 1) lagOne = r;
    sum += (r * r) / (count - k);
  }
  return { lagOne, probability: 1 - chiSquaredShare(count * (count + 2) * sum, lags) };
}

/**
 * Power of the residuals next to a frequency, against their mean power: what correlated noise does to the uncertainty of a
 * tone there. `frequency`, `half` in cycles per sample.
 */
export function powerNear(residuals: Float64Array, frequency: number, half: number): number {
  const values = residuals.length > 131072 ? residuals.subarray(0, 131072) : residuals;
  const { re, im } = realFourier(values);
  const width = Math.max(half * values.length, 4);
  const middle = frequency * values.length;
  let [near, count, all] = [0, 0, 0];
  for (let k = 1; k < re.length; k++) {
    const power = re[k]! ** 2 + im[k]! ** 2;
    all += power;
    if (Math.abs(k - middle) > width) continue;
    near += power;
    count += 1;
  }
  return count === 0 || all === 0 ? 1 : near / count / (all / (re.length - 1));
}

/** What is left of a record once its model is taken off: size and whiteness; `residuals` in the unit of the output. */
export const residualsOf = (residuals: Float64Array): Residuals => ({
  rms: rms(residuals),
  whiteness: whitenessOf(residuals),
});
