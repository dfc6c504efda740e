/** Where a ring-down begins in its record, and a first guess of its tone and decay. */

import { realFourier } from "../numerics/fourier.ts";
import { pow } from "../numerics/power.ts";
import { cos, sin } from "../numerics/sine.ts";
import { windowOf } from "../numerics/windows.ts";

/** Strongest tone of a piece of a record, in cycles per sample; 0 where there is none. */
export function strongestTone(y: Float64Array, skipBelow = 0): number {
  const piece = y.subarray(0, 1 << 16);
  // Zeros behind the window make a power of two.
  const count = pow(2, Math.ceil(Math.log2(Math.max(2, piece.length))));
  const level = bowOf(piece);
  const shape = windowOf("hann", piece.length);
  const padded = new Float64Array(count);
  for (let i = 0; i < piece.length; i++) padded[i] = (piece[i]! - level(i)) * shape[i]!;
  const { re, im } = realFourier(padded);
  // Slow hum and drift are strong at the lowest bins: power counts by its frequency.
  const power = re.map((value, k) => k * (value * value + im[k]! ** 2));
  let best = 0;
  for (let k = Math.max(1, Math.ceil(skipBelow * count)); k < power.length; k++)
    if (power[k]! > (power[best] ?? 0) || best === 0) best = k;
  const [left, here, right] = [power[best - 1] ?? 0, power[best]!, power[best + 1] ?? 0];
  const bend = Math.log(left || 1e-300) - 2 * Math.log(here || 1e-300) + Math.log(right || 1e-300);
  const shift = bend < 0 ? (Math.log(left || 1e-300) - Math.log(right || 1e-300)) / (2 * bend) : 0;
  return (best + Math.max(-0.5, Math.min(0.5, shift))) / count;
}

/** Parabola through a piece, from the means of its thirds: what drift and slow hum leave of it. */
function bowOf(y: Float64Array): (i: number) => number {
  const third = Math.max(1, Math.floor(y.length / 3));
  const mean = (from: number) => y.subarray(from, from + third).reduce((sum, value) => sum + value, 0) / third;
  const [a, b, c] = [mean(0), mean(Math.max(0, (y.length - third) >> 1)), mean(Math.max(0, y.length - third))];
  // Means of the thirds of 1, u, u^2 with u from -1 to 1: at u = -2/3, 0, 2/3 and u^2 = 13/27, 1/27, 13/27.
  const bow = ((a + c) / 2 - b) / (12 / 27);
  const slope = (c - a) / (4 / 3);
  const middle = b - bow / 27;
  return (i) => {
    const u = (2 * i) / Math.max(1, y.length - 1) - 1;
    return middle + slope * u + bow * u * u;
  };
}

/** Largest |y - rest| in the half period that follows each sample; `half` in samples. */
export function envelopeOf(y: Float64Array, rest: number, half: number): Float64Array {
  const out = new Float64Array(y.length);
  // A queue of falling candidates: each sample enters and leaves once.
  const queue = new Int32Array(y.length);
  let [head, tail] = [0, 0];
  for (let i = y.length - 1; i >= 0; i--) {
    const size = Math.abs(y[i]! - rest);
    while (tail > head && Math.abs(y[queue[tail - 1]!]! - rest) <= size) tail -= 1;
    queue[tail++] = i;
    while (queue[head]! >= i + half) head += 1;
    out[i] = Math.abs(y[queue[head]!]! - rest);
  }
  return out;
}

/** First sample of the decay: the last one whose envelope still is 85 % of the largest. */
export function startOfDecay(envelope: Float64Array): number {
  let largest = 0;
  for (const value of envelope) largest = Math.max(largest, value);
  // A plateau before the stop scatters with the noise; its upper end is what counts.
  let start = 0;
  for (let i = 0; i < envelope.length; i++) if (envelope[i]! >= 0.85 * largest) start = i;
  return start;
}

/** Mean of the last tenth: what is left when the tone has died. */
export function restOf(y: Float64Array): number {
  const from = Math.floor(y.length * 0.9);
  let sum = 0;
  for (let i = from; i < y.length; i++) sum += y[i]!;
  return sum / (y.length - from);
}

export interface DecayGuess {
  /** Decay rate and angular frequency, in radians per sample. */
  readonly rate: number;
  readonly speed: number;
}

/** The pair of a grid whose decaying cosine and sine leave least of the record. `tone` in cycles per sample; `mostDamped`: largest damping ratio tried. */
export function guessDecay(y: Float64Array, rest: number, tone: number, mostDamped = 0.7): DecayGuess {
  const middle = 2 * Math.PI * tone;
  const count = y.length;
  const narrow = tone * count > 10;
  const speeds = narrow
    ? [-1.5, -1, -0.5, 0, 0.5, 1, 1.5].map((shift) => middle + (2 * Math.PI * shift) / Math.min(count, 1 << 16))
    : [0.5, 0.65, 0.8, 0.9, 1, 1.1, 1.25, 1.5].map((factor) => middle * factor);
  const ratios = [0.001, 0.002, 0.004, 0.008, 0.015, 0.03, 0.06, 0.12, 0.25, 0.45, 0.7].filter(
    (ratio) => ratio <= mostDamped,
  );
  let best: DecayGuess = { rate: 0.02 * middle, speed: middle };
  let most = Number.NEGATIVE_INFINITY;
  for (const ratio of ratios) {
    const rate = ratio * middle;
    // Only where this decay has something to say.
    const length = Math.min(count, Math.max(12, Math.ceil(5 / rate)));
    const stride = Math.max(1, Math.floor(length / 500));
    for (const speed of speeds) {
      const explained = explainedBy(y, rest, rate, speed, length, stride);
      if (explained > most) {
        most = explained;
        best = { rate, speed };
      }
    }
  }
  return best;
}

/** Sum of squares that a e^{-rate i} cos + b e^{-rate i} sin takes away, counted for all samples. */
function explainedBy(
  y: Float64Array,
  rest: number,
  rate: number,
  speed: number,
  length: number,
  stride: number,
): number {
  const fall = Math.exp(-rate * stride);
  const [turnCos, turnSin] = [fall * cos(speed * stride), fall * sin(speed * stride)];
  let [c, s] = [1, 0];
  let [cc, ss, cs, cy, sy] = [0, 0, 0, 0, 0];
  for (let i = 0; i < length; i += stride) {
    const value = y[i]! - rest;
    cc += c * c;
    ss += s * s;
    cs += c * s;
    cy += c * value;
    sy += s * value;
    const next = c * turnCos - s * turnSin;
    s = c * turnSin + s * turnCos;
    c = next;
  }
  const determinant = cc * ss - cs * cs;
  if (!(determinant > 1e-12 * cc * ss)) return Number.NEGATIVE_INFINITY;
  return (stride * (cy * cy * ss - 2 * cy * sy * cs + sy * sy * cc)) / determinant;
}
