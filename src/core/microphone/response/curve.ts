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
import {
  evaluateRational,
  interpolantRoom,
  type Rational,
  rationalInterpolant,
  valueInto,
} from "../../numerics/rational.ts";

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

/**
 * How far two interpolants are apart between samples: the worst place [Hz] of each gap, how far there (-1 where a sample was set
 * since), and the most of all [-].
 */
interface Doubt {
  readonly at: Float64Array;
  readonly off: Float64Array;
  gaps: number;
  most: number;
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
  const { solved, doubt, room } = roomFor(Math.max(begin, most) + perRound);
  for (const frequency of startingPoints(from, to, begin)) insert(solved, frequency, respond(frequency));
  let [tests, error, passed] = [0, 0, 0];
  let interpolant = through(solved, 1, room);
  lookBetween(doubt, { now: interpolant, before: through(solved, 2, room), solved, floor });
  const guess = new Float64Array(2);
  for (;;) {
    const known = solved.count;
    const fresh = Math.min(doubt.most <= nearTolerance * tolerance ? perLastRound : perRound, doubt.gaps);
    error = 0;
    for (let k = 0; k < fresh; k++) {
      const frequency = takeWorst(doubt);
      const value = respond(frequency);
      insert(solved, frequency, value);
      valueInto(guess, interpolant, frequency);
      const off = size(guess[0]! - value.re, guess[1]! - value.im);
      error = Math.max(error, off / Math.max(size(value.re, value.im), floor));
    }
    tests += fresh;
    const before = interpolant;
    interpolant = through(solved, 1, room);
    lookBetween(doubt, { now: interpolant, before, solved, floor });
    error = Math.max(error, doubt.most);
    passed = error <= tolerance ? passed + 1 : 0;
    // Round-off may not let it come so far: then three rounds within the tolerance will do.
    if (error <= margin * tolerance || passed > 2 || solved.count >= most || solved.count === known) break;
  }
  return { rational: interpolant, from, to, samples: solved.count, tests, error, converged: error <= tolerance };
}

/** Samples up to which interpolants are made in room that is kept; few curves need more. */
const roomy = 35;

function roomFor(length: number) {
  // One array and views of it: see `interpolantRoom`.
  const all = new Float64Array(5 * length);
  const part = (i: number) => all.subarray(i * length, (i + 1) * length);
  const solved: Solved = { x: part(0), re: part(1), im: part(2), count: 0 };
  const doubt: Doubt = { at: part(3), off: part(4), gaps: 0, most: 0 };
  return { solved, doubt, room: interpolantRoom(roomy) };
}

/** Not Math.hypot, which is ten times slower: nothing here comes near the ends of the range of numbers. */
const size = (re: number, im: number) => Math.sqrt(re * re + im * im);

/** Keeps a sample in its place; one that is there already is left. */
function insert(solved: Solved, frequency: number, value: Complex): void {
  const { x, re, im, count } = solved;
  let at = count;
  while (at > 0 && x[at - 1]! >= frequency) at--;
  if (at < count && x[at] === frequency) return;
  for (let i = count; i > at; i--) {
    x[i] = x[i - 1]!;
    re[i] = re[i - 1]!;
    im[i] = im[i - 1]!;
  }
  x[at] = frequency;
  re[at] = value.re;
  im[at] = value.im;
  solved.count++;
}

/** S at frequencies inside the range [rad/Pa]. */
export function readCurve(curve: Curve, frequencies: Float64Array): { re: Float64Array; im: Float64Array } {
  return evaluateRational(curve.rational, frequencies);
}

/** |S|^2 at single frequencies inside the range [rad^2/Pa^2]. */
export function squaredIn({ rational }: Curve): (frequency: number) => number {
  const value = new Float64Array(2);
  return (frequency) => {
    valueInto(value, rational, frequency);
    return value[0]! * value[0]! + value[1]! * value[1]!;
  };
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
function through({ x, re, im, count }: Solved, step: 1 | 2, room: Float64Array): Rational {
  if (step === 1 && count % 2 === 1) {
    const samples = { x: x.subarray(0, count), re: re.subarray(0, count), im: im.subarray(0, count) };
    return rationalInterpolant(samples, room);
  }
  const odd = count - 1 + (count % 2);
  const half = Math.ceil(odd / step);
  const length = half - 1 + (half % 2);
  const samples = { x: new Float64Array(length), re: new Float64Array(length), im: new Float64Array(length) };
  for (let i = 0; i < length; i++) {
    const at = step * i === odd - 1 ? count - 1 : step * i;
    samples.x[i] = x[at]!;
    samples.re[i] = re[at]!;
    samples.im[i] = im[at]!;
  }
  return rationalInterpolant(samples, room);
}

/** Three places of each gap. */
function lookBetween(
  doubt: Doubt,
  given: { readonly now: Rational; readonly before: Rational; readonly solved: Solved; readonly floor: number },
): void {
  const { now, before, floor, solved } = given;
  const { x, count } = solved;
  const [a, b] = [new Float64Array(2), new Float64Array(2)];
  doubt.gaps = count - 1;
  doubt.most = 0;
  for (let gap = 0; gap < doubt.gaps; gap++) {
    const from = x[gap]!;
    const to = x[gap + 1]!;
    const middle = between(from, to);
    let most = -1;
    for (let k = 0; k < 3; k++) {
      const place = k === 0 ? between(from, middle) : k === 1 ? middle : between(middle, to);
      valueInto(a, now, place);
      valueInto(b, before, place);
      const apart = size(a[0]! - b[0]!, a[1]! - b[1]!) / Math.max(size(a[0]!, a[1]!), floor);
      if (apart <= most) continue;
      // Not a number is the worst of all.
      most = apart >= 0 ? apart : Number.POSITIVE_INFINITY;
      doubt.at[gap] = place;
    }
    doubt.off[gap] = most;
    doubt.most = Math.max(doubt.most, most);
  }
}

/** The geometric middle of more than a quarter of an octave, else the arithmetic one. */
const between = (from: number, to: number) => (to > 1.19 * from ? Math.sqrt(from * to) : (from + to) / 2);

/** The worst place of the worst gap that was not taken yet [Hz]. */
function takeWorst({ at, off, gaps }: Doubt): number {
  let worst = 0;
  for (let i = 1; i < gaps; i++) if (!(off[i]! <= off[worst]!)) worst = i;
  off[worst] = -1;
  return at[worst]!;
}
