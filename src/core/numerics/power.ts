/**
 * Powers out of additions, multiplications and divisions alone, which IEEE 754 makes the same everywhere. `x ** y` is left to the
 * engine: Node 20 and Chromium 147 differ in the last bit of one in ten. (`x ** 2` is x times x in both, and stays.)
 */

/** x^3. */
export const cube = (x: number): number => x * x * x;

/** x^4. */
export function fourth(x: number): number {
  const square = x * x;
  return square * square;
}

/** So many numbers from one to another in equal ratios, by repeated multiplication: error below `count` of the last digit's units. */
export function equalRatios(from: number, to: number, count: number): Float64Array {
  const ratio = pow(to / from, 1 / (count - 1));
  const result = new Float64Array(count);
  let value = from;
  for (let i = 0; i < count - 1; i++, value *= ratio) result[i] = value;
  result[count - 1] = to;
  return result;
}

/** 10^n for a whole n, as near as a number can be: what the text "1e-3" is read as. */
export const tenTo = (n: number): number => Number(`1e${n}`);

/**
 * x^y [-]; NaN and infinities as `**`.
 *
 *     x^y = e^(y ln x)
 *
 * The logarithm carries 20 bits more than a number, so that the error stays below 0.6 of the last digit's unit however large the
 * power (below twice that where it is subnormal), and what is a number exactly comes out exactly.
 */
export function pow(x: number, y: number): number {
  if (y === 2) return x * x;
  const size = Math.abs(x);
  // Zero, infinity, one, and what over- or underflows for every base: no digits to differ in.
  if (!(size > 0 && size < Number.POSITIVE_INFINITY && size !== 1 && y !== 0 && Math.abs(y) < 2e19)) return x ** y;
  if (x < 0 && !Number.isInteger(y)) return Number.NaN;
  const value = raised(size, y);
  return x < 0 && y % 2 !== 0 ? -value : value;
}

// ln 2 in two pieces: 32 bits, so that an exponent times it is exact, and the rest.
const ln2High = 0.6931471803691238;
const ln2Low = 1.9082149292705877e-10;
const third = 1 / 3;
/** 1 / 3 less what is written for it. */
const thirdLow = 1.850371707708594e-17;
/** 2^27 + 1: cuts a number in halves whose products are exact. */
const cutter = 134217729;

const view = new DataView(new ArrayBuffer(8));

/**
 * x^y for a positive x.
 *
 *     ln x = k ln 2 + 2 (s + s^3 / 3 + s^5 / 5 + ...),    s = (m - 1) / (m + 1),    x = m 2^k,  m from sqrt(1/2) to sqrt 2
 *     e^l = 2^n (1 + r + r^2 / 2 + ...),    r = l - n ln 2
 *
 * Source: Abramowitz and Stegun 4.1.27, 4.2.1 (from memory, to be confirmed). Sums and products of two numbers as in
 * doubleDouble.ts, written out: a chart asks for thousands.
 */
function raised(x: number, y: number): number {
  const normal = x < 2.2250738585072014e-308 ? x * 18014398509481984 : x;
  view.setFloat64(0, normal);
  const bits = view.getInt32(0);
  view.setInt32(0, (bits & 0xfffff) | (1023 << 20));
  let m = view.getFloat64(0);
  let k = (bits >>> 20) - (normal === x ? 1023 : 1077);
  if (m > Math.SQRT2) {
    m /= 2;
    k += 1;
  }
  // s = high + low.
  const below = m - 1;
  const above = m + 1;
  const aboveLow = m < 1 ? 1 - above + m : m - above + 1;
  const high = below / above;
  const highTop = cut(high);
  const highEnd = high - highTop;
  const aboveTop = cut(above);
  const aboveEnd = above - aboveTop;
  const back = high * above;
  const backLow = highEnd * aboveEnd - (back - highTop * aboveTop - highEnd * aboveTop - highTop * aboveEnd);
  const low = (below - back - backLow - high * aboveLow) / above;
  // s^2, and a third of it.
  const s2 = high * high;
  const s2Low = highEnd * highEnd - (s2 - highTop * highTop - 2 * highEnd * highTop) + 2 * high * low;
  const s2Top = cut(s2);
  const s2End = s2 - s2Top;
  const cubic = s2 * third;
  const cubicHere = s2End * thirdEnd - (cubic - s2Top * thirdTop - s2End * thirdTop - s2Top * thirdEnd);
  const cubicLow = cubicHere + s2 * thirdLow + s2Low * third + s2 * s2 * seriesFrom5(s2);
  // 2 s (1 + s^2 / 3 + ...).
  const cubicTop = cut(cubic);
  const cubicEnd = cubic - cubicTop;
  const beyond = high * cubic;
  const beyondLow = highEnd * cubicEnd - (beyond - highTop * cubicTop - highEnd * cubicTop - highTop * cubicEnd);
  const near = high + beyond;
  const nearLow = high - near + beyond + (beyondLow + low * (1 + cubic) + high * cubicLow);
  // ln x = l + lLow.
  const whole = k * ln2High;
  const sum = whole + 2 * near;
  const sumLow = (k === 0 ? 0 : whole - sum + 2 * near) + 2 * nearLow + k * ln2Low;
  const l = sum + sumLow;
  const lLow = sum - l + sumLow;
  // y ln x = p + pLow.
  const p = y * l;
  if (p > 710) return Number.POSITIVE_INFINITY;
  if (p < -746) return 0;
  const yTop = cut(y);
  const yEnd = y - yTop;
  const lTop = cut(l);
  const lEnd = l - lTop;
  const pLow = yEnd * lEnd - (p - yTop * lTop - yEnd * lTop - yTop * lEnd) + y * lLow;
  // What is left of it after n ln 2.
  const n = Math.round(p * Math.LOG2E);
  const left = p - n * ln2High;
  const leftLow = pLow - n * ln2Low;
  const r = left + leftLow;
  const rLow = left - r + leftLow;
  const one = 1 + r;
  return timesTwoTo(one + (1 - one + r + (r * r * seriesFrom2(r) + rLow * one)), n);
}

/** The upper half of a number's digits. */
function cut(x: number): number {
  const big = cutter * x;
  return big - (big - x);
}
const thirdTop = cut(third);
const thirdEnd = third - thirdTop;

/** 1/5 + t / 7 + ... + t^10 / 25 for t up to 0.0295. */
const seriesFrom5 = (t: number): number =>
  1 / 5 +
  t *
    (1 / 7 +
      t *
        (1 / 9 +
          t *
            (1 / 11 +
              t * (1 / 13 + t * (1 / 15 + t * (1 / 17 + t * (1 / 19 + t * (1 / 21 + t * (1 / 23 + t / 25)))))))));

/** 1/2! + r / 3! + ... + r^12 / 14! for r up to ln 2 / 2. */
const seriesFrom2 = (r: number): number =>
  1 / 2 +
  r *
    (1 / 6 +
      r *
        (1 / 24 +
          r *
            (1 / 120 +
              r *
                (1 / 720 +
                  r *
                    (1 / 5040 +
                      r *
                        (1 / 40320 +
                          r *
                            (1 / 362880 +
                              r *
                                (1 / 3628800 +
                                  r *
                                    (1 / 39916800 +
                                      r * (1 / 479001600 + r * (1 / 6227020800 + r / 87178291200)))))))))));

/** x 2^n for an x about one: in two steps where 2^n alone is no normal number. */
function timesTwoTo(x: number, n: number): number {
  if (n > 1023) return x * 2 * twoTo(n - 1);
  return n < -1022 ? x * twoTo(n + 60) * 8.673617379884035e-19 : x * twoTo(n);
}

/** 2^n, -1022 <= n <= 1023. */
function twoTo(n: number): number {
  view.setInt32(0, (n + 1023) << 20);
  view.setInt32(4, 0);
  return view.getFloat64(0);
}
