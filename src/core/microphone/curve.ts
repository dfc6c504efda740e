/**
 * A whole response from few frequencies: samples solved exactly, a rational function through them, refined until it agrees
 * with the model at frequencies that it has not seen.
 *
 * Why no resonance or null is missed: the response of a lumped or distributed linear device is a meromorphic function of the
 * frequency, known here to 13 digits at each sample; a resonance between samples shows at all of them far above that. The new
 * points are set where two interpolants, one with half the samples, disagree most, and at fixed places besides.
 */

import type { Complex } from "../numerics/complex.ts";
import { pow } from "../numerics/power.ts";
import { evaluateRational, type Rational, rationalInterpolant } from "../numerics/rational.ts";

export interface Curve {
  /** Response [rad/Pa] as a function of frequency [Hz]. */
  readonly rational: Rational;
  /** Range of the samples [Hz]. */
  readonly from: number;
  readonly to: number;
  /** Frequencies solved exactly in all, and how many of them were tests of the interpolant before they joined it. */
  readonly samples: number;
  readonly tests: number;
  /** Largest |dS| / max(|S|, floor) at the last tests [-]. */
  readonly error: number;
  readonly converged: boolean;
}

export interface CurveOptions {
  readonly from: number;
  readonly to: number;
  /** |S| below which errors count against this instead: 1e-3 |S static| [rad/Pa]. */
  readonly floor: number;
  readonly tolerance: number;
  /** Samples to begin with, odd; default 13. */
  readonly begin?: number;
  /** Samples at most; default 201. */
  readonly most?: number;
}

/** Samples a response between two frequencies, both > 0. */
export function sampleCurve(respond: (frequency: number) => Complex, options: CurveOptions): Curve {
  const { from, to, floor, tolerance } = options;
  const begin = options.begin ?? 13;
  const most = options.most ?? 201;
  const values = new Map<number, Complex>();
  const solve = (frequency: number) => {
    const known = values.get(frequency);
    if (known) return known;
    const value = respond(frequency);
    values.set(frequency, value);
    return value;
  };
  for (const frequency of startingPoints(from, to, begin)) solve(frequency);
  let tests = 0;
  let error = Number.POSITIVE_INFINITY;
  for (;;) {
    const { all, half } = interpolants(values);
    const fresh = freshPoints(
      all,
      half,
      [...values.keys()].sort((a, b) => a - b),
      floor,
      values.size,
    );
    if (fresh.length === 0) break;
    const guess = evaluateRational(all, Float64Array.from(fresh));
    error = 0;
    fresh.forEach((frequency, i) => {
      const value = solve(frequency);
      const off = Math.hypot(guess.re[i]! - value.re, guess.im[i]! - value.im);
      error = Math.max(error, off / Math.max(Math.hypot(value.re, value.im), floor));
    });
    tests += fresh.length;
    if (error <= tolerance || values.size >= most) break;
  }
  return {
    rational: through(values, oddNumber(values)),
    from,
    to,
    samples: values.size,
    tests,
    error,
    converged: error <= tolerance,
  };
}

/** S at frequencies inside the range [rad/Pa]. */
export function readCurve(curve: Curve, frequencies: Float64Array): { re: Float64Array; im: Float64Array } {
  return evaluateRational(curve.rational, frequencies);
}

/** Half of them spaced logarithmically, half linearly, ascending, both ends included. */
export function startingPoints(from: number, to: number, count: number): number[] {
  const half = Math.floor(count / 2);
  const points = [from, to];
  // Linear ones at odd halves, so that they do not fall on the ends.
  for (let i = 0; i < half; i++) points.push(from + ((to - from) * (i + 0.5)) / half);
  const rest = count - points.length;
  for (let i = 1; i <= rest; i++) points.push(from * pow(to / from, i / (rest + 1)));
  return points.sort((a, b) => a - b);
}

/** Frequencies in ascending order: an odd number meets every sample; of an even one the last test is dropped, the last sample kept as support. */
function oddNumber(values: ReadonlyMap<number, Complex>): readonly number[] {
  const x = [...values.keys()].sort((a, b) => a - b);
  return x.length % 2 === 1 ? x : [...x.slice(0, -2), x.at(-1)!];
}

function through(values: ReadonlyMap<number, Complex>, points: readonly number[]): Rational {
  const samples = points.map((point) => values.get(point)!);
  return rationalInterpolant({
    x: Float64Array.from(points),
    re: Float64Array.from(samples, ({ re }) => re),
    im: Float64Array.from(samples, ({ im }) => im),
  });
}

function interpolants(values: ReadonlyMap<number, Complex>): { readonly all: Rational; readonly half: Rational } {
  const odd = oddNumber(values);
  const sparse = odd.filter((_, i) => i % 2 === 0);
  return {
    all: through(values, odd),
    half: through(values, sparse.length % 2 === 1 ? sparse : sparse.slice(0, -1)),
  };
}

const testsPerRound = 8;

/** Middles of the gaps where the two interpolants differ most, and two that go round by turns. */
function freshPoints(all: Rational, half: Rational, x: readonly number[], floor: number, turn: number): number[] {
  const middles = x.slice(1).map((to, i) => {
    const from = x[i]!;
    // In a gap of more than half an octave the geometric middle, else the arithmetic one.
    return to > 1.5 * from ? Math.sqrt(from * to) : (from + to) / 2;
  });
  const points = Float64Array.from(middles);
  const a = evaluateRational(all, points);
  const b = evaluateRational(half, points);
  const gaps = middles.map((frequency, i) => {
    const off = Math.hypot(a.re[i]! - b.re[i]!, a.im[i]! - b.im[i]!);
    return { frequency, off: off / Math.max(Math.hypot(a.re[i]!, a.im[i]!), floor) };
  });
  const byTurns = [gaps[(7 * turn) % gaps.length]!, gaps[(13 * turn + 5) % gaps.length]!];
  const worst = [...gaps].sort((p, q) => q.off - p.off).slice(0, testsPerRound - 2);
  return [...new Set([...worst, ...byTurns].map(({ frequency }) => frequency))].filter((f) => !x.includes(f));
}
