import { add, type Complex, divide, multiply, scale, squareRoot } from "./complex.ts";

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
  let tail: Complex = { re: 2 * Math.ceil(16 + 1.3 * size), im: 0 };
  for (let even = tail.re - 2; even >= 4; even -= 2) tail = add({ re: even, im: 0 }, divide(kSquared, tail));
  const flow = divide({ re: 1, im: 0 }, add(scale(tail, 2), kSquared));
  return { mean: multiply(scale(tail, 2), flow), flow };
}

function far(kSquared: Complex): { mean: Complex; flow: Complex } {
  const k = squareRoot(kSquared);
  const zeroth = growingAndDecaying(0, k);
  const first = growingAndDecaying(1, k);
  const decay = Math.exp(-2 * k.re);
  // +-i e^{-2k}, upper sign for Im k >= 0; of I1 it has the other sign.
  const turn = k.im >= 0 ? 1 : -1;
  const other = { re: turn * decay * Math.sin(2 * k.im), im: turn * decay * Math.cos(2 * k.im) };
  const i0 = add(zeroth.growing, multiply(other, zeroth.decaying));
  const i1 = add(first.growing, scale(multiply(other, first.decaying), -1));
  const mean = scale(divide(i1, multiply(k, i0)), 2);
  return { mean, flow: divide({ re: 1 - mean.re, im: -mean.im }, kSquared) };
}

/** The series beside e^k and e^-k in I_v, v = 0 or 1, without the common factor 1 / sqrt(2 pi k). */
function growingAndDecaying(order: 0 | 1, k: Complex): { growing: Complex; decaying: Complex } {
  const inverse = divide({ re: 1, im: 0 }, k);
  let growing: Complex = { re: 1, im: 0 };
  let decaying: Complex = { re: 1, im: 0 };
  let term: Complex = { re: 1, im: 0 };
  for (let n = 1; n <= 40; n++) {
    term = scale(multiply(term, inverse), (4 * order * order - (2 * n - 1) ** 2) / (8 * n));
    growing = n % 2 === 0 ? add(growing, term) : add(growing, scale(term, -1));
    decaying = add(decaying, term);
    if (Math.abs(term.re) + Math.abs(term.im) < 1e-18) break;
  }
  return { growing, decaying };
}
