/**
 * Sine and cosine out of additions, multiplications and comparisons alone, which IEEE 754 makes the same everywhere. `Math.sin` and
 * `Math.cos` are left to the engine: Node 20 and Chromium 147 differ in the last bit of three arguments in a hundred, and a search
 * or a stopping rule makes more of it.
 */

// pi / 2 in three pieces: 33 bits, the next 33 bits, the rest; so that a quarter's number times a piece is exact.
const piece1 = 1.5707963267341256;
const piece2 = 6.077100506303966e-11;
const piece3 = 2.0222662487959506e-21;
const quartersPerRadian = 2 / Math.PI;

/**
 * Beyond this many radians, and nearer to a zero than `near` a quarter turn, the pieces are not enough: what they leave of a
 * quarter is known to 6e-37, less than a hundredth of the last digit of such a remainder. Doubles next to pi / 2 lie at 6e-17.
 */
const far = 1e6;
const near = 1e-18;

/** Adding and taking away 3 * 2^51 rounds to a whole number. */
const rounder = 6755399441055744;

/** sin x [-], x [rad]; error below 0.8 of the last digit's unit. Source: Cody and Waite's reduction, Taylor's series. */
export function sin(x: number): number {
  if (x >= -Math.PI / 4 && x <= Math.PI / 4) return sineNear(x, 0);
  const turned = x * quartersPerRadian + rounder;
  const quarter = turned - rounder;
  const first = x - quarter * piece1;
  const second = quarter * piece2;
  const high = first - second;
  if (!(Math.abs(x) < far && Math.abs(high) > near * Math.abs(quarter))) return exactly(x, 0);
  const part = high - first;
  const low = first - (high - part) - (second + part) - quarter * piece3;
  return inQuarter(quarter, high, low);
}

/** cos x [-], x [rad]; as `sin`. */
export function cos(x: number): number {
  if (x >= -Math.PI / 4 && x <= Math.PI / 4) return cosineNear(x, 0);
  const turned = x * quartersPerRadian + rounder;
  const quarter = turned - rounder;
  const first = x - quarter * piece1;
  const second = quarter * piece2;
  const high = first - second;
  if (!(Math.abs(x) < far && Math.abs(high) > near * Math.abs(quarter))) return exactly(x, 1);
  const part = high - first;
  const low = first - (high - part) - (second + part) - quarter * piece3;
  return inQuarter(quarter + 1, high, low);
}

/** Sine of so many quarter turns and high + low. */
function inQuarter(quarter: number, high: number, low: number): number {
  const q = quarter & 3;
  const x = high + low;
  const rest = low - (x - high);
  const value = (q & 1) === 0 ? sineNear(x, rest) : cosineNear(x, rest);
  return q < 2 ? value : -value;
}

// Of Taylor's series; added in pairs, which a processor does side by side.
const [s3, s5, s7, s9] = [-1 / 6, 1 / 120, -1 / 5040, 1 / 362880];
const [s11, s13, s15, s17] = [-1 / 39916800, 1 / 6227020800, -1 / 1307674368000, 1 / 355687428096000];
const [c4, c6, c8, c10] = [1 / 24, -1 / 720, 1 / 40320, -1 / 3628800];
const [c12, c14, c16] = [1 / 479001600, -1 / 87178291200, 1 / 20922789888000];

/** sin (x + low) for |x| <= pi / 4, low at most half a last digit of x. */
function sineNear(x: number, low: number): number {
  const s = x * x;
  const t = s * s;
  const tail = s5 + s * s7 + t * (s9 + s * s11) + t * t * (s13 + s * s15 + t * s17);
  return x === 0 ? x : x + (x * s * (s3 + s * tail) + low * (1 - 0.5 * s));
}

/** cos (x + low), likewise; what is rounded off 1 - x^2 / 2 is put back. */
function cosineNear(x: number, low: number): number {
  const s = x * x;
  const t = s * s;
  const tail = c4 + s * c6 + t * (c8 + s * c10) + t * t * (c12 + s * c14 + t * c16);
  const half = 0.5 * s;
  const rest = 1 - half;
  return rest + (1 - rest - half + (t * tail - x * low));
}

/** Sine (0) or cosine (1) of what is far out or within 1e-11 of a zero: x over a quarter turn in whole numbers, exactly. */
function exactly(x: number, shift: number): number {
  if (!Number.isFinite(x)) return Number.NaN;
  let [whole, power] = [Math.abs(x), 0];
  for (; !Number.isInteger(whole); power++) whole *= 2;
  // Of x 2^bits, modulo a quarter turn rounded to the nearest.
  const scaled = (BigInt(whole) << bits) >> BigInt(power);
  const turn = quarterTurn();
  const quarters = (scaled + turn / 2n) / turn;
  const rest = (scaled - quarters * turn) >> (bits - kept);
  const high = Number(rest);
  const low = Number(rest - BigInt(high));
  const unit = 1 / Number(1n << kept);
  const value = inQuarter(Number(quarters & 3n) + shift, high * unit, low * unit);
  return x < 0 && shift === 0 ? -value : value;
}

/** Digits of a quarter turn behind the point, enough for the largest number and a remainder of 2^-61; those kept of the rest. */
const bits = 1300n;
const kept = 200n;
let known: bigint | null = null;

/** pi / 2 times 2^bits, by Machin's formula: pi / 4 = 4 arctan 1/5 - arctan 1/239. Source: any table; from memory. */
function quarterTurn(): bigint {
  if (known !== null) return known;
  const guard = 64n;
  const one = 1n << (bits + guard);
  const arctangent = (inverse: bigint) => {
    let [sum, term] = [0n, one / inverse];
    for (let k = 1n; term !== 0n; k += 2n) {
      sum += k % 4n === 1n ? term / k : -(term / k);
      term /= inverse * inverse;
    }
    return sum;
  };
  known = (2n * (4n * arctangent(5n) - arctangent(239n))) >> guard;
  return known;
}
