/**
 * Sums of two doubles that carry about 31 digits: what ill-conditioned regressions lose is then surplus.
 * Error-free sums and products: Knuth 1969, Dekker 1971 (from memory, to be confirmed).
 */
import { pow } from "./power.ts";

/** high + low, |low| at most half a last digit of high. */
export interface DoubleDouble {
  readonly high: number;
  readonly low: number;
}

const splitter = pow(2, 27) + 1;

/** a + b exactly. */
function exactSum(a: number, b: number): DoubleDouble {
  const high = a + b;
  const part = high - a;
  return { high, low: a - (high - part) + (b - part) };
}

/** a b exactly; |a|, |b| < 1e299. */
function exactProduct(a: number, b: number): DoubleDouble {
  const high = a * b;
  const aBig = splitter * a;
  const aHigh = aBig - (aBig - a);
  const aLow = a - aHigh;
  const bBig = splitter * b;
  const bHigh = bBig - (bBig - b);
  const bLow = b - bHigh;
  return { high, low: aLow * bLow - (high - aHigh * bHigh - aLow * bHigh - aHigh * bLow) };
}

export function ddAdd(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const s = exactSum(a.high, b.high);
  const t = exactSum(a.low, b.low);
  const u = exactSum(s.high, s.low + t.high);
  return exactSum(u.high, u.low + t.low);
}

export function ddMultiply(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const p = exactProduct(a.high, b.high);
  return exactSum(p.high, p.low + (a.high * b.low + a.low * b.high));
}

export const ddNegative = (a: DoubleDouble): DoubleDouble => ({ high: -a.high, low: -a.low });

export function ddDivide(a: DoubleDouble, b: DoubleDouble): DoubleDouble {
  const first = a.high / b.high;
  const rest = ddAdd(a, ddNegative(ddMultiply({ high: first, low: 0 }, b)));
  const second = rest.high / b.high;
  const last = ddAdd(rest, ddNegative(ddMultiply({ high: second, low: 0 }, b)));
  return ddAdd(exactSum(first, second), { high: last.high / b.high, low: 0 });
}

/** Many double-doubles. */
export interface DoubleDoubles {
  readonly high: Float64Array;
  readonly low: Float64Array;
}

export const ddZeros = (count: number): DoubleDoubles => ({
  high: new Float64Array(count),
  low: new Float64Array(count),
});

/** Sum of a_i b_i. Plain numbers inside: this is the inner loop of every linear fit. */
export function ddDot(a: DoubleDoubles, b: DoubleDoubles): DoubleDouble {
  let high = 0;
  let low = 0;
  for (let i = 0; i < a.high.length; i++) {
    const x = a.high[i]!;
    const y = b.high[i]!;
    const p = x * y;
    const xBig = splitter * x;
    const xHigh = xBig - (xBig - x);
    const xLow = x - xHigh;
    const yBig = splitter * y;
    const yHigh = yBig - (yBig - y);
    const yLow = y - yHigh;
    const e = xLow * yLow - (p - xHigh * yHigh - xLow * yHigh - xHigh * yLow) + (x * b.low[i]! + a.low[i]! * y);
    const s = high + p;
    const part = s - high;
    low += high - (s - part) + (p - part) + e;
    high = s;
  }
  return exactSum(high, low);
}

/** y <- y - factor x, in place. */
export function ddSubtractMultiple(y: DoubleDoubles, factor: DoubleDouble, x: DoubleDoubles): void {
  const fBig = splitter * factor.high;
  const fHigh = fBig - (fBig - factor.high);
  const fLow = factor.high - fHigh;
  for (let i = 0; i < y.high.length; i++) {
    const v = x.high[i]!;
    const p = factor.high * v;
    const vBig = splitter * v;
    const vHigh = vBig - (vBig - v);
    const vLow = v - vHigh;
    const e =
      fLow * vLow - (p - fHigh * vHigh - fLow * vHigh - fHigh * vLow) + (factor.high * x.low[i]! + factor.low * v);
    const s = y.high[i]! - p;
    const part = s - y.high[i]!;
    const low = y.high[i]! - (s - part) + (-p - part) + y.low[i]! - e;
    const high = s + low;
    y.low[i] = low - (high - s);
    y.high[i] = high;
  }
}
