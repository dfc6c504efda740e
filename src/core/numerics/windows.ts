/** Windows of spectra, periodic (a period of N samples), and what they do to tones and noise. */
import { cos, sin } from "./sine.ts";

/** Coefficients c_k of sum (-1)^k c_k cos(2 pi k n / N). Common practice; the flat top is that of ISO 18431-2 (from memory, to be confirmed). */
const coefficients = {
  rectangular: [1],
  hann: [0.5, 0.5],
  hamming: [0.54, 0.46],
  blackman: [0.42, 0.5, 0.08],
  flatTop: [1, 1.933, 1.286, 0.388, 0.0322],
} as const;

export type WindowName = keyof typeof coefficients;

export function windowOf(name: WindowName, count: number): Float64Array {
  const c = coefficients[name];
  return Float64Array.from({ length: count }, (_, n) =>
    c.reduce<number>((sum, value, k) => sum + (k % 2 === 0 ? value : -value) * cos((2 * Math.PI * k * n) / count), 0),
  );
}

/** Height of a tone in the middle of a bin, as a share of what no window gives: the mean of the window. */
export const coherentGain = (name: WindowName): number => coefficients[name][0];

/** Equivalent noise bandwidth, in bins: mean of the squares over the square of the mean. */
export function noiseBandwidth(name: WindowName): number {
  const c = coefficients[name];
  return c.reduce<number>((sum, value, k) => sum + (k === 0 ? value ** 2 : value ** 2 / 2), 0) / c[0] ** 2;
}

/** Level of a tone halfway between two bins, against one in the middle of a bin [dB], for long windows. */
export function scallopingDb(name: WindowName): number {
  const c = coefficients[name];
  // Transform of a rectangle half a bin off, at distances d - k and d + k; its phase turns the signs of the terms to plus.
  const kernel = (d: number) => sin(Math.PI * d) / (Math.PI * d);
  const height = c.reduce<number>(
    (sum, value, k) => sum + (k === 0 ? value * kernel(0.5) : (value / 2) * (kernel(0.5 - k) + kernel(0.5 + k))),
    0,
  );
  return 20 * Math.log10(Math.abs(height) / c[0]);
}
