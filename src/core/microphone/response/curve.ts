/**
 * A whole response from few frequencies: samples solved exactly, a rational function through them, refined until it agrees
 * with the model at frequencies that it has not seen.
 *
 * Why no resonance or null is missed: the response of a lumped or distributed linear device is a meromorphic function of the
 * frequency, known here to 13 digits at each sample; a resonance between samples shows at all of them far above that. Each round
 * adds samples where the interpolants of this round and the last differ most, and the last round is the one whose samples were
 * foretold, and which moved the interpolant nowhere, by more than a small share of the tolerance. What that leaves out is held
 * against dense samples of many devices in tests/deep/curves.test.ts.
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
  /** Largest |dS| / max(|S|, floor) at the last tests, and that they made between samples when they joined [-]. */
  readonly error: number;
  readonly converged: boolean;
}

export interface CurveOptions {
  readonly from: number;
  readonly to: number;
  /** |S| below which errors count against this instead: 1e-3 |S static| [rad/Pa]. */
  readonly floor: number;
  readonly tolerance: number;
  /** Samples to begin with, odd; default 11. */
  readonly begin?: number;
  /** Samples at most; default 201. */
  readonly most?: number;
}

/** Samples solved so far, ascending, in room for more. */
interface Solved {
  readonly x: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  count: number;
}

/** Samples that a round adds, and those of one that begins so near the tolerance (in tolerances) that it may be the last. */
const perRound = 4;
const perLastRound = 2;
const nearTolerance = 100;

/** Share of the tolerance at which a round is the last: the interpolant between samples is not all seen. Tuned, not derived. */
const margin = 0.07;

/** Samples a response between two frequencies, both > 0. */
export function sampleCurve(respond: (frequency: number) => Complex, options: CurveOptions): Curve {
  const { from, to, floor, tolerance, begin = 11, most = 201 } = options;
  const solved = roomFor(Math.max(begin, most) + perRound);
  for (const frequency of startingPoints(from, to, begin)) insert(solved, frequency, respond(frequency));
  let [tests, error, passed] = [0, 0, 0];
  let interpolant = through(solved, 1);
  let doubt = doubtBetween(interpolant, through(solved, 2), solved, floor);
  for (;;) {
    const known = solved.count;
    const fresh = worstOf(doubt, doubt.most <= nearTolerance * tolerance ? perLastRound : perRound);
    const guess = evaluateRational(interpolant, fresh);
    error = 0;
    for (let i = 0; i < fresh.length; i++) {
      const value = respond(fresh[i]!);
      insert(solved, fresh[i]!, value);
      const off = size(guess.re[i]! - value.re, guess.im[i]! - value.im);
      error = Math.max(error, off / Math.max(size(value.re, value.im), floor));
    }
    tests += fresh.length;
    const before = interpolant;
    interpolant = through(solved, 1);
    doubt = doubtBetween(interpolant, before, solved, floor);
    error = Math.max(error, doubt.most);
    passed = error <= tolerance ? passed + 1 : 0;
    // Round-off may not let it come so far: then three rounds within the tolerance will do.
    if (error <= margin * tolerance || passed > 2 || solved.count >= most || solved.count === known) break;
  }
  return { rational: interpolant, from, to, samples: solved.count, tests, error, converged: error <= tolerance };
}

const roomFor = (length: number): Solved => ({
  x: new Float64Array(length),
  re: new Float64Array(length),
  im: new Float64Array(length),
  count: 0,
});

/** Not Math.hypot, which is ten times slower: nothing here comes near the ends of the range of numbers. */
const size = (re: number, im: number) => Math.sqrt(re * re + im * im);

/** Keeps a sample in its place; one that is there already is left. */
function insert(solved: Solved, frequency: number, value: Complex): void {
  const { x, re, im, count } = solved;
  let at = count;
  while (at > 0 && x[at - 1]! >= frequency) at--;
  if (at < count && x[at] === frequency) return;
  for (const values of [x, re, im]) values.copyWithin(at + 1, at, count);
  x[at] = frequency;
  re[at] = value.re;
  im[at] = value.im;
  solved.count++;
}

/** S at frequencies inside the range [rad/Pa]. */
export function readCurve(curve: Curve, frequencies: Float64Array): { re: Float64Array; im: Float64Array } {
  return evaluateRational(curve.rational, frequencies);
}

/** How far the second sample lies above the first, as a ratio: what is slow turns at the lower end. Tuned, of 1.4 to 2.2. */
const lowest = 1.6;

/** Both ends, one next to the lower end, and of the rest half in equal steps and half in equal ratios; ascending. */
export function startingPoints(from: number, to: number, count: number): number[] {
  const low = from * Math.min(lowest, Math.sqrt(to / from));
  const points = [from, low, to];
  const half = Math.floor((count - points.length) / 2);
  // Linear ones at odd halves, so that they do not fall on the ends.
  for (let i = 0; i < half; i++) points.push(from + ((to - from) * (i + 0.5)) / half);
  const rest = count - points.length;
  const ratio = pow(to / low, 1 / (rest + 1));
  for (let i = 0, frequency = low * ratio; i < rest; i++, frequency *= ratio) points.push(frequency);
  return points.sort((a, b) => a - b);
}

/** Interpolant of an odd number of the samples, or of every `step`-th of those: of an even one the last but one is dropped. */
function through({ x, re, im, count }: Solved, step: 1 | 2): Rational {
  const odd = count - 1 + (count % 2);
  const half = Math.ceil(odd / step);
  const length = half - 1 + (half % 2);
  const at = (i: number) => (step * i === odd - 1 ? count - 1 : step * i);
  const samples = { x: new Float64Array(length), re: new Float64Array(length), im: new Float64Array(length) };
  for (let i = 0; i < length; i++) {
    samples.x[i] = x[at(i)]!;
    samples.re[i] = re[at(i)]!;
    samples.im[i] = im[at(i)]!;
  }
  return rationalInterpolant(samples);
}

/** How far two interpolants are apart between samples: the worst place [Hz] of each gap, how far there, and the most of all [-]. */
interface Doubt {
  readonly at: Float64Array;
  readonly off: Float64Array;
  readonly most: number;
}

/** Places that are looked at in each gap. */
const perGap = 3;

function doubtBetween(now: Rational, before: Rational, { x, count }: Solved, floor: number): Doubt {
  const gaps = count - 1;
  const places = new Float64Array(perGap * gaps);
  for (let gap = 0, i = 0; gap < gaps; gap++) {
    const [from, to] = [x[gap]!, x[gap + 1]!];
    // In a gap of more than half an octave around the geometric middle, else the arithmetic one.
    const middle = to > 1.5 * from ? Math.sqrt(from * to) : (from + to) / 2;
    places[i++] = (from + middle) / 2;
    places[i++] = middle;
    places[i++] = (middle + to) / 2;
  }
  const [a, b] = [evaluateRational(now, places), evaluateRational(before, places)];
  const [at, off] = [new Float64Array(gaps), new Float64Array(gaps).fill(-1)];
  let most = 0;
  for (let i = 0; i < places.length; i++) {
    const gap = Math.floor(i / perGap);
    const apart = size(a.re[i]! - b.re[i]!, a.im[i]! - b.im[i]!) / Math.max(size(a.re[i]!, a.im[i]!), floor);
    // Not a number is the worst of all.
    if (apart <= off[gap]!) continue;
    at[gap] = places[i]!;
    off[gap] = apart;
    most = Math.max(most, apart);
  }
  return { at, off, most };
}

/** The worst places of the so many worst gaps [Hz]. */
function worstOf({ at, off }: Doubt, count: number): Float64Array {
  const left = off.slice();
  const worst = new Float64Array(Math.min(count, left.length));
  for (let k = 0; k < worst.length; k++) {
    let most = 0;
    for (let i = 1; i < left.length; i++) if (!(left[i]! <= left[most]!)) most = i;
    worst[k] = at[most]!;
    left[most] = -1;
  }
  return worst;
}
