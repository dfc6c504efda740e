/**
 * A whole response from few frequencies: samples solved exactly, a rational function through them, refined until it agrees
 * with the model at frequencies that it has not seen.
 *
 * Why no resonance or null is missed: the response of a lumped or distributed linear device is a meromorphic function of the
 * frequency, known here to 13 digits at each sample; a resonance between samples shows at all of them far above that. The new
 * points are set where two interpolants, one with half the samples, disagree most, and at fixed places besides.
 */

import type { Complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { evaluateRational, type Rational, rationalInterpolant } from "../../numerics/rational.ts";

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

/** Samples solved so far, ascending. */
interface Solved {
  readonly x: number[];
  readonly re: number[];
  readonly im: number[];
}

/** Samples a response between two frequencies, both > 0. */
export function sampleCurve(respond: (frequency: number) => Complex, options: CurveOptions): Curve {
  const { from, to, floor, tolerance } = options;
  const begin = options.begin ?? 13;
  const most = options.most ?? 201;
  const solved: Solved = { x: [], re: [], im: [] };
  for (const frequency of startingPoints(from, to, begin)) insert(solved, frequency, respond(frequency));
  let tests = 0;
  let error = Number.POSITIVE_INFINITY;
  for (;;) {
    const count = oddNumber(solved);
    const all = through(solved, count, 1);
    const fresh = freshPoints(all, through(solved, count, 2), solved.x, floor);
    if (fresh.length === 0) break;
    const guess = evaluateRational(all, fresh);
    error = 0;
    for (const [i, frequency] of fresh.entries()) {
      const value = respond(frequency);
      insert(solved, frequency, value);
      const off = Math.hypot(guess.re[i]! - value.re, guess.im[i]! - value.im);
      error = Math.max(error, off / Math.max(Math.hypot(value.re, value.im), floor));
    }
    tests += fresh.length;
    if (error <= tolerance || solved.x.length >= most) break;
  }
  return {
    rational: through(solved, oddNumber(solved), 1),
    from,
    to,
    samples: solved.x.length,
    tests,
    error,
    converged: error <= tolerance,
  };
}

/** Keeps a sample in its place; one that is there already is left. */
function insert({ x, re, im }: Solved, frequency: number, value: Complex): void {
  let at = x.length;
  while (at > 0 && x[at - 1]! >= frequency) at--;
  if (x[at] === frequency) return;
  x.splice(at, 0, frequency);
  re.splice(at, 0, value.re);
  im.splice(at, 0, value.im);
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

/** An odd number meets every sample; of an even one the last but one is dropped, the last kept as support. */
const oddNumber = ({ x }: Solved): number => x.length - 1 + (x.length % 2);

/** Interpolant of an odd number of the samples, or of every `step`-th of those. */
function through(solved: Solved, count: number, step: 1 | 2): Rational {
  const half = Math.ceil(count / step);
  const length = half - 1 + (half % 2);
  const last = solved.x.length - 1;
  const from = (values: readonly number[]) =>
    Float64Array.from({ length }, (_, i) => values[step * i === count - 1 ? last : step * i]!);
  return rationalInterpolant({ x: from(solved.x), re: from(solved.re), im: from(solved.im) });
}

const testsPerRound = 8;

/** Middles of the gaps where the two interpolants differ most, and two that go round by turns. */
function freshPoints(all: Rational, half: Rational, x: readonly number[], floor: number): Float64Array {
  const middles = Float64Array.from({ length: x.length - 1 }, (_, i) => {
    const [from, to] = [x[i]!, x[i + 1]!];
    // In a gap of more than half an octave the geometric middle, else the arithmetic one.
    return to > 1.5 * from ? Math.sqrt(from * to) : (from + to) / 2;
  });
  const a = evaluateRational(all, middles);
  const b = evaluateRational(half, middles);
  const off = middles.map((_, i) => {
    const away = Math.hypot(a.re[i]! - b.re[i]!, a.im[i]! - b.im[i]!);
    return away / Math.max(Math.hypot(a.re[i]!, a.im[i]!), floor);
  });
  const chosen = new Set<number>();
  while (chosen.size < Math.min(testsPerRound - 2, off.length)) {
    let most = -1;
    for (let i = 0; i < off.length; i++) if (!chosen.has(i) && !(off[i]! <= (off[most] ?? -1))) most = i;
    chosen.add(most);
  }
  for (const turn of [7 * x.length, 13 * x.length + 5]) chosen.add(turn % off.length);
  return Float64Array.from(chosen, (i) => middles[i]!).filter((frequency) => !x.includes(frequency));
}
