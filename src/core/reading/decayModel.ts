/**
 * Sums of decaying tones and of what comes with them, as a least-squares problem that never stores its million rows:
 *
 *     y = sum e^{-s_k x} (a_k cos w_k x + b_k sin w_k x) + offset + drift u + sum (p_j cos v_j x + q_j sin v_j x)
 *
 * x is time times a scale, so that w is about 1; u runs from -1 to 1. Derivation: docs/theory/ringDown.md.
 */

import { cholesky } from "../numerics/cholesky.ts";
import type { Linearization, SquaresProblem } from "../numerics/minimizeSquares.ts";
import { cos, sin } from "../numerics/sine.ts";

export interface DecayShape {
  readonly modes: number;
  readonly drift: boolean;
  /** Tones of known frequency that do not decay (hum, a tone that is still there), in radians per x. */
  readonly steady: readonly number[];
}

export interface DecayData {
  /** Even spacing of x. */
  readonly step: number;
  /** A sample that is missing is NaN and counts for nothing. */
  readonly y: Float64Array;
}

/** Parameters in order: s, w, a, b of each mode; offset; drift; p, q of each steady tone. */
export const parameterCount = ({ modes, drift, steady }: DecayShape): number =>
  4 * modes + 1 + (drift ? 1 : 0) + 2 * steady.length;

/** Samples between two exact evaluations of the recurrences. */
const stretch = 128;

/** Calls `visit` for every sample with the row of derivatives and the model's value. */
function walk(
  { modes, drift, steady }: DecayShape,
  { step, y }: DecayData,
  p: Float64Array,
  visit: (row: Float64Array, value: number, i: number) => void,
): void {
  const count = y.length;
  const row = new Float64Array(p.length);
  const tones = modes + steady.length;
  // e^{-s x} cos and sin of every tone, and what one step does to them.
  const cosines = new Float64Array(tones);
  const sines = new Float64Array(tones);
  const turnCos = new Float64Array(tones);
  const turnSin = new Float64Array(tones);
  const rate = (k: number) => (k < modes ? p[4 * k]! : 0);
  const speed = (k: number) => (k < modes ? p[4 * k + 1]! : steady[k - modes]!);
  for (let k = 0; k < tones; k++) {
    const fall = Math.exp(-rate(k) * step);
    turnCos[k] = fall * cos(speed(k) * step);
    turnSin[k] = fall * sin(speed(k) * step);
  }
  const offsetAt = 4 * modes;
  const steadyAt = offsetAt + (drift ? 2 : 1);
  row[offsetAt] = 1;
  for (let i = 0; i < count; i++) {
    const x = i * step;
    let value = p[offsetAt]!;
    if (i % stretch === 0)
      for (let k = 0; k < tones; k++) {
        const size = Math.exp(-rate(k) * x);
        cosines[k] = size * cos(speed(k) * x);
        sines[k] = size * sin(speed(k) * x);
      }
    for (let k = 0; k < modes; k++) {
      const at = 4 * k;
      const [c, s, a, b] = [cosines[k]!, sines[k]!, p[at + 2]!, p[at + 3]!];
      const along = a * c + b * s;
      row[at] = -x * along;
      row[at + 1] = x * (b * c - a * s);
      row[at + 2] = c;
      row[at + 3] = s;
      value += along;
    }
    if (drift) {
      const u = (2 * i) / (count - 1) - 1;
      row[offsetAt + 1] = u;
      value += p[offsetAt + 1]! * u;
    }
    for (let j = 0; j < steady.length; j++) {
      const at = steadyAt + 2 * j;
      row[at] = cosines[modes + j]!;
      row[at + 1] = sines[modes + j]!;
      value += p[at]! * row[at]! + p[at + 1]! * row[at + 1]!;
    }
    if (!Number.isNaN(y[i]!)) visit(row, value, i);
    for (let k = 0; k < tones; k++) {
      const c = cosines[k]!;
      cosines[k] = c * turnCos[k]! - sines[k]! * turnSin[k]!;
      sines[k] = c * turnSin[k]! + sines[k]! * turnCos[k]!;
    }
  }
}

/** The problem for `minimizeSquares`. */
export function decaySquares(shape: DecayShape, data: DecayData): SquaresProblem {
  const size = parameterCount(shape);
  return {
    sumOfSquares: (p) => {
      let sum = 0;
      walk(shape, data, p, (_, value, i) => {
        sum += (value - data.y[i]!) ** 2;
      });
      return sum;
    },
    linearize: (p) => {
      const normal = new Float64Array(size * size);
      const slope = new Float64Array(size);
      let sum = 0;
      walk(shape, data, p, (row, value, i) => {
        const r = value - data.y[i]!;
        sum += r * r;
        for (let a = 0; a < size; a++) {
          const left = row[a]!;
          slope[a]! += left * r;
          for (let b = a; b < size; b++) normal[a * size + b]! += left * row[b]!;
        }
      });
      return Number.isFinite(sum) ? triangleOf(normal, slope, size, sum) : null;
    },
  };
}

/** R with R^T R = normal, and R^-T slope; columns of one length first. A column that the others hold gets no say. */
function triangleOf(
  normal: Float64Array,
  slope: Float64Array,
  size: number,
  sumOfSquares: number,
): Linearization | null {
  const lengths = Float64Array.from({ length: size }, (_, i) => Math.sqrt(normal[i * size + i]!) || 1);
  const scaled = new Float64Array(size * size);
  for (let a = 0; a < size; a++)
    for (let b = 0; b < size; b++)
      scaled[a * size + b] = normal[Math.min(a, b) * size + Math.max(a, b)]! / (lengths[a]! * lengths[b]!);
  for (let a = 0; a < size; a++) scaled[a * size + a]! += 1e-14;
  const factor = cholesky(scaled, size);
  if (factor === null) return null;
  const triangle = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) triangle[j * size + i] = factor.lower[i * size + j]! * lengths[i]!;
  const projected = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let value = slope[i]! / lengths[i]!;
    for (let j = 0; j < i; j++) value -= factor.lower[i * size + j]! * projected[j]!;
    projected[i] = value / factor.lower[i * size + i]!;
  }
  return { sumOfSquares, triangle, projected };
}

/** Model at every sample. */
export function decayValues(shape: DecayShape, data: DecayData, p: Float64Array): Float64Array {
  const out = new Float64Array(data.y.length);
  walk(shape, { ...data, y: out }, p, (_, value, i) => {
    out[i] = value;
  });
  return out;
}
