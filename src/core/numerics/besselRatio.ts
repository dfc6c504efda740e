import { add, type Complex, divide, multiply, scale, squareRoot } from "./complex.ts";
import { cos, sin } from "./sine.ts";

/** Beyond |k|^2 of this the expansion in 1 / k has all digits: its smallest term is exp(-2 |k|). */
const FAR = 625;

/**
 * The functions of a round tube of one argument k^2, both even in k [-]; those of a slit are `slitFunctions`.
 *
 *     mean = 2 I1(k) / (k I0(k)) = 2 J1(z) / (z J0(z)),  z = i k     (mean over the tube of the part that diffuses)
 *     flow = (1 - mean) / k^2
 *
 * For |k| <= 25 by the continued fraction I0 / I1 = (2 + k^2 / (4 + k^2 / (6 + ...))) / k, so that with T = 4 + k^2 / (6 + ...)
 * flow = 1 / (2 T + k^2): all digits down to k = 0, where it is 1/8. Beyond by Hankel's expansions with both
 * exponentials, so that it also holds where k is nearly imaginary (decaying motion of a tube).
 * Source: Abramowitz and Stegun 9.1.73, 9.7.1 (from memory, to be confirmed); checked against 40-digit values.
 */
export function roundFunctions(kSquared: Complex): { readonly mean: Complex; readonly flow: Complex } {
  const size = Math.hypot(kSquared.re, kSquared.im);
  return size <= FAR ? near(kSquared, Math.sqrt(size)) : far(kSquared);
}

function near(kSquared: Complex, size: number): { mean: Complex; flow: Complex } {
  // 16 + 1.3 |k| levels leave round-off alone up to |k| = 25, nearly imaginary k (the slowest) included; measured.
  let even = 2 * Math.ceil(16 + 1.3 * size);
  // tail = even + k^2 / tail as a fraction over / under, in plain numbers: this runs some twenty times a tube and frequency.
  const { re, im } = kSquared;
  let [overRe, overIm, underRe, underIm] = [even, 0, 1, 0];
  for (even -= 2; even >= 4; even -= 2) {
    const nextRe = even * overRe + (re * underRe - im * underIm);
    const nextIm = even * overIm + (re * underIm + im * underRe);
    underRe = overRe;
    underIm = overIm;
    overRe = nextRe;
    overIm = nextIm;
  }
  const wholeRe = 2 * overRe + (re * underRe - im * underIm);
  const wholeIm = 2 * overIm + (re * underIm + im * underRe);
  const squared = wholeRe * wholeRe + wholeIm * wholeIm;
  return {
    mean: {
      re: (2 * (overRe * wholeRe + overIm * wholeIm)) / squared,
      im: (2 * (overIm * wholeRe - overRe * wholeIm)) / squared,
    },
    flow: {
      re: (underRe * wholeRe + underIm * wholeIm) / squared,
      im: (underIm * wholeRe - underRe * wholeIm) / squared,
    },
  };
}

function far(kSquared: Complex): { mean: Complex; flow: Complex } {
  const k = squareRoot(kSquared);
  const zeroth = growingAndDecaying(0, k);
  const first = growingAndDecaying(1, k);
  const decay = Math.exp(-2 * k.re);
  // +-i e^{-2k}, upper sign for Im k >= 0; of I1 it has the other sign.
  const turn = k.im >= 0 ? 1 : -1;
  const other = { re: turn * decay * sin(2 * k.im), im: turn * decay * cos(2 * k.im) };
  const i0 = add(zeroth.growing, multiply(other, zeroth.decaying));
  const i1 = add(first.growing, scale(multiply(other, first.decaying), -1));
  const mean = scale(divide(i1, multiply(k, i0)), 2);
  return { mean, flow: divide({ re: 1 - mean.re, im: -mean.im }, kSquared) };
}

/** The series beside e^k and e^-k in I_v, v = 0 or 1, without the common factor 1 / sqrt(2 pi k). */
function growingAndDecaying(order: 0 | 1, k: Complex): { growing: Complex; decaying: Complex } {
  const squared = k.re * k.re + k.im * k.im;
  const inverseRe = k.re / squared;
  const inverseIm = -k.im / squared;
  let [termRe, termIm] = [1, 0];
  let [growingRe, growingIm, decayingRe, decayingIm] = [1, 0, 1, 0];
  for (let n = 1; n <= 40; n++) {
    const factor = (4 * order * order - (2 * n - 1) ** 2) / (8 * n);
    const next = (termRe * inverseRe - termIm * inverseIm) * factor;
    termIm = (termRe * inverseIm + termIm * inverseRe) * factor;
    termRe = next;
    const sign = n % 2 === 0 ? 1 : -1;
    growingRe += sign * termRe;
    growingIm += sign * termIm;
    decayingRe += termRe;
    decayingIm += termIm;
    if (Math.abs(termRe) + Math.abs(termIm) < 1e-18) break;
  }
  return { growing: { re: growingRe, im: growingIm }, decaying: { re: decayingRe, im: decayingIm } };
}
