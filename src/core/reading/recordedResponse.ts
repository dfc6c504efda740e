/**
 * A frequency response out of records of excitation and output: noise or sweep by averaged spectra, stepped tones by fitted sines.
 * With its coherence and the standard uncertainty that follows from it.
 */
import { crossSpectra } from "../numerics/spectra.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type SineFit, sineAt } from "./sine.ts";

export interface RecordedResponse {
  /** [Hz] */
  readonly frequency: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly coherence: Float64Array;
  /** Of each part, in the unit of the response. */
  readonly standard: Float64Array;
  /** Independent averages behind each point. */
  readonly averages: number;
}

export interface RecordPair {
  readonly reference: Float64Array;
  readonly output: Float64Array;
  /** [Hz] */
  readonly sampling: number;
}

/**
 * H = cross spectrum over the reference's, with sigma^2 = |H|^2 (1 - c) / (2 c n) a part, c the coherence, n the averages.
 * `width`: wanted distance of points [Hz]. Source: Bendat and Piersol (from memory, to be confirmed).
 *
 * Problems: `columns-unequal`, `too-few-samples`, `silent`. Remark: `coherence-low`.
 */
export function responseOfNoise({ reference, output, sampling }: RecordPair, width: number): Outcome<RecordedResponse> {
  if (reference.length !== output.length)
    return refuse({
      code: "columns-unequal",
      path: ["output"],
      message: `The reference has ${reference.length} samples, the output ${output.length}; needed: both at once.`,
    });
  const segment = Math.round(sampling / width);
  if (!(segment >= 16) || reference.length < 2 * segment || reference.some(Number.isNaN) || output.some(Number.isNaN))
    return refuse({
      code: "too-few-samples",
      path: ["reference"],
      message: `${reference.length} samples make fewer than two whole segments of ${segment} for points ${width.toPrecision(3)} Hz apart; needed: a longer record without gaps, or points farther apart.`,
    });
  const { frequency, x, y, crossRe, crossIm, segments } = crossSpectra(reference, output, {
    sampling,
    segment,
    window: "hann",
    overlap: 0.5,
  });
  if (!(x.reduce((sum, value) => sum + value, 0) > 0))
    return refuse({
      code: "silent",
      path: ["reference"],
      message: "The reference is silent; needed: a record of the excitation.",
    });
  // Half-overlapping Hann segments are worth about 0.95 of as many apart: n = segments / 1.06 for the coherence's sake.
  const averages = segments / 1.06;
  const keep = Array.from(frequency.keys()).filter((k) => k > 1 && k < frequency.length - 1 && x[k]! > 0);
  const pick = (value: (k: number) => number) => Float64Array.from(keep, value);
  const coherence = pick((k) => Math.min(1, (crossRe[k]! ** 2 + crossIm[k]! ** 2) / (x[k]! * y[k]! || 1)));
  const re = pick((k) => crossRe[k]! / x[k]!);
  const im = pick((k) => crossIm[k]! / x[k]!);
  const standard = re.map(
    (value, i) =>
      Math.hypot(value, im[i]!) * Math.sqrt((1 - coherence[i]!) / (2 * Math.max(coherence[i]!, 1e-9) * averages)) +
      1e-300,
  );
  const low = coherence.reduce((count, value) => count + (value < 0.8 ? 1 : 0), 0);
  const remarks: Problem[] =
    low > coherence.length / 2
      ? [
          {
            code: "coherence-low",
            path: [],
            message: `The coherence is below 0.8 at ${low} of ${coherence.length} points: noise of the output, or an excitation that does not reach them. Average longer or raise the level.`,
          },
        ]
      : [];
  return answer({ frequency: pick((k) => frequency[k]!), re, im, coherence, standard, averages }, remarks);
}

/**
 * A sweep: one transform of each whole record, smoothed over neighbors so that the scatter within them tells the uncertainty.
 * `width`: distance of points [Hz]. Problems: as `responseOfNoise`.
 */
export function responseOfSweep(pair: RecordPair, width: number): Outcome<RecordedResponse> {
  const { reference, output, sampling } = pair;
  if (reference.length !== output.length) return responseOfNoise(pair, width);
  const count = reference.length;
  const neighbors = Math.round((width * count) / sampling);
  if (neighbors < 3 || reference.some(Number.isNaN) || output.some(Number.isNaN))
    return refuse({
      code: "too-few-samples",
      path: ["reference"],
      message: `A record of ${count} samples has bins ${(sampling / count).toPrecision(3)} Hz apart; needed: at least three within ${width.toPrecision(3)} Hz, so a longer record without gaps, or points farther apart.`,
    });
  const spectra = crossSpectra(reference, output, { sampling, segment: count, window: "rectangular", overlap: 0 });
  const strongest = spectra.x.reduce((top, value) => Math.max(top, value), 0);
  if (!(strongest > 0))
    return refuse({
      code: "silent",
      path: ["reference"],
      message: "The reference is silent; needed: a record of the excitation.",
    });
  const points: { readonly frequency: number; readonly re: number; readonly im: number; readonly coherence: number }[] =
    [];
  for (let from = 1; from + neighbors <= spectra.x.length; from += neighbors) {
    let [x, y, re, im] = [0, 0, 0, 0];
    for (let k = from; k < from + neighbors; k++) {
      x += spectra.x[k]!;
      y += spectra.y[k]!;
      re += spectra.crossRe[k]!;
      im += spectra.crossIm[k]!;
    }
    // Where the sweep does not go there is nothing to divide by.
    if (x < 1e-6 * strongest * neighbors) continue;
    points.push({
      frequency: ((from + (neighbors - 1) / 2) * sampling) / count,
      re: re / x,
      im: im / x,
      coherence: Math.min(1, (re * re + im * im) / (x * y || 1)),
    });
  }
  if (points.length === 0)
    return refuse({
      code: "silent",
      path: ["reference"],
      message: "The reference holds no excitation; needed: a sweep.",
    });
  const list = (of: (point: (typeof points)[number]) => number) => Float64Array.from(points, of);
  return answer({
    frequency: list(({ frequency }) => frequency),
    re: list(({ re }) => re),
    im: list(({ im }) => im),
    coherence: list(({ coherence }) => coherence),
    standard: list(
      ({ re, im, coherence }) =>
        Math.hypot(re, im) * Math.sqrt((1 - coherence) / (2 * Math.max(coherence, 1e-9) * neighbors)) + 1e-300,
    ),
    averages: neighbors,
  });
}

/**
 * One step of a stepped-tone measurement: output over reference at a known frequency, by sines fitted to both. The coherence is
 * the share of the output that is the tone. Problem: `silent`.
 */
export function responseOfTone(
  { reference, output, sampling }: RecordPair,
  frequency: number,
): Outcome<{ readonly re: number; readonly im: number; readonly standard: number; readonly coherence: number }> {
  const omega = (2 * Math.PI * frequency) / sampling;
  const [a, b] = [sineAt(reference, omega, false), sineAt(output, omega, false)];
  if (a === null || b === null)
    return refuse({
      code: "silent",
      path: ["reference"],
      message: `No sine of ${frequency} Hz can be laid through the records.`,
    });
  // a cos + b sin is the real part of (a - i b) e^{i omega t}.
  const [xr, xi, yr, yi] = [a.cosine, -a.sine, b.cosine, -b.sine];
  const squared = xr * xr + xi * xi;
  if (!(squared > 0))
    return refuse({ code: "silent", path: ["reference"], message: `The reference holds no tone at ${frequency} Hz.` });
  const re = (yr * xr + yi * xi) / squared;
  const im = (yi * xr - yr * xi) / squared;
  const scatter = ({ sumOfSquares, inverse }: SineFit) =>
    Math.sqrt((sumOfSquares / Math.max(1, output.length - 3)) * inverse[0]!);
  const standard = Math.hypot(scatter(b), Math.hypot(re, im) * scatter(a)) / Math.sqrt(squared);
  const mean = output.reduce((sum, value) => sum + value, 0) / output.length;
  const all = output.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return answer({ re, im, standard, coherence: all > 0 ? Math.max(0, 1 - b.sumOfSquares / all) : 0 });
}
