/**
 * Spectra of sampled records, averaged over windowed segments (Welch 1967, from memory, to be confirmed), and the response
 * between two of them with its coherence and uncertainty.
 */
import { realFourier } from "./fourier.ts";
import { type WindowName, windowOf } from "./windows.ts";

export interface SpectrumOptions {
  /** Samples per second [Hz]. */
  readonly sampling: number;
  /** Samples in a segment; any length. */
  readonly segment: number;
  readonly window: WindowName;
  /** Share of a segment that the next one repeats, 0 to below 1. */
  readonly overlap: number;
}

export interface Spectra {
  /** [Hz] */
  readonly frequency: Float64Array;
  /** One-sided power spectral densities [unit^2/Hz]. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** One-sided cross spectral density of x* y [unit^2/Hz]. */
  readonly crossRe: Float64Array;
  readonly crossIm: Float64Array;
  readonly segments: number;
}

/** Densities of x and y and between them; the mean of each segment is taken off. Holds: at least one whole segment. */
export function crossSpectra(x: ArrayLike<number>, y: ArrayLike<number>, options: SpectrumOptions): Spectra {
  const { sampling, segment, window, overlap } = options;
  const step = Math.max(1, Math.round(segment * (1 - overlap)));
  const shape = windowOf(window, segment);
  const energy = shape.reduce((sum, value) => sum + value * value, 0);
  const bins = Math.floor(segment / 2) + 1;
  const out = [0, 1, 2, 3].map(() => new Float64Array(bins)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let segments = 0;
  for (let from = 0; from + segment <= x.length; from += step) {
    const a = windowed(x, from, shape);
    const b = windowed(y, from, shape);
    for (let k = 0; k < bins; k++) {
      const [ar, ai, br, bi] = [a.re[k]!, a.im[k]!, b.re[k]!, b.im[k]!];
      out[0][k]! += ar * ar + ai * ai;
      out[1][k]! += br * br + bi * bi;
      out[2][k]! += ar * br + ai * bi;
      out[3][k]! += ar * bi - ai * br;
    }
    segments += 1;
  }
  for (let k = 0; k < bins; k++) {
    // All bins stand for two but the first and, for an even length, the last.
    const sides = k === 0 || (segment % 2 === 0 && k === bins - 1) ? 1 : 2;
    for (const list of out) list[k]! *= sides / (sampling * energy * Math.max(1, segments));
  }
  const frequency = Float64Array.from({ length: bins }, (_, k) => (k * sampling) / segment);
  return { frequency, x: out[0], y: out[1], crossRe: out[2], crossIm: out[3], segments };
}

function windowed(values: ArrayLike<number>, from: number, shape: Float64Array) {
  let mean = 0;
  for (let i = 0; i < shape.length; i++) mean += values[from + i]!;
  mean /= shape.length;
  return realFourier(shape.map((weight, i) => weight * (values[from + i]! - mean)));
}

/** Power spectral density of one record [unit^2/Hz], one-sided. */
export function powerSpectrum(x: ArrayLike<number>, options: SpectrumOptions) {
  const { frequency, x: density, segments } = crossSpectra(x, x, options);
  return { frequency, density, segments };
}
