import { cos, sin } from "./sine.ts";

/** A complex number. Hot loops use two Float64Arrays instead. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const subtract = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
export const multiply = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
export const scale = (a: Complex, factor: number): Complex => ({ re: a.re * factor, im: a.im * factor });
export const absolute = (a: Complex): number => Math.hypot(a.re, a.im);

/** a / b by Smith's method: no overflow for large parts. */
export function divide(a: Complex, b: Complex): Complex {
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const ratio = b.im / b.re;
    const size = b.re + b.im * ratio;
    return { re: (a.re + a.im * ratio) / size, im: (a.im - a.re * ratio) / size };
  }
  const ratio = b.re / b.im;
  const size = b.re * ratio + b.im;
  return { re: (a.re * ratio + a.im) / size, im: (a.im * ratio - a.re) / size };
}

/** Principal square root, real part not negative. */
export function squareRoot(a: Complex): Complex {
  const size = Math.hypot(a.re, a.im);
  if (size === 0) return { re: 0, im: 0 };
  const half = Math.sqrt((size + Math.abs(a.re)) / 2);
  const other = a.im / (2 * half);
  if (a.re >= 0) return { re: half, im: other };
  return { re: Math.abs(other), im: a.im < 0 ? -half : half };
}

/**
 * The parallel-plate functions of one argument k^2, both even in k [-]:
 *
 *     mean = tanh k / k          (mean over the slit of the part that diffuses)
 *     flow = (1 - tanh k / k) / k^2
 *
 * For |k^2| <= 4 by the continued fraction tanh k / k = 1 / (1 + k^2 / (3 + k^2 / (5 + ...))), which keeps all digits of
 * `flow` down to k = 0; beyond by the exponential. Source: Abramowitz and Stegun 4.5.70 (from memory, to be confirmed).
 */
export function slitFunctions(kSquared: Complex): { readonly mean: Complex; readonly flow: Complex } {
  const { re, im } = kSquared;
  if (re * re + im * im <= 16) {
    // tail = odd + k^2 / tail as a fraction over / under, in plain numbers: the film asks for this twice a frequency.
    let [overRe, overIm, underRe, underIm] = [31, 0, 1, 0];
    for (let odd = 29; odd >= 3; odd -= 2) {
      const nextRe = odd * overRe + (re * underRe - im * underIm);
      const nextIm = odd * overIm + (re * underIm + im * underRe);
      underRe = overRe;
      underIm = overIm;
      overRe = nextRe;
      overIm = nextIm;
    }
    const wholeRe = overRe + (re * underRe - im * underIm);
    const wholeIm = overIm + (re * underIm + im * underRe);
    const squared = wholeRe * wholeRe + wholeIm * wholeIm;
    return {
      mean: {
        re: (overRe * wholeRe + overIm * wholeIm) / squared,
        im: (overIm * wholeRe - overRe * wholeIm) / squared,
      },
      flow: {
        re: (underRe * wholeRe + underIm * wholeIm) / squared,
        im: (underIm * wholeRe - underRe * wholeIm) / squared,
      },
    };
  }
  const k = squareRoot(kSquared);
  const size = Math.exp(-2 * k.re);
  const decay = { re: size * cos(2 * k.im), im: -size * sin(2 * k.im) };
  const tanh = divide({ re: 1 - decay.re, im: -decay.im }, { re: 1 + decay.re, im: decay.im });
  const mean = divide(tanh, k);
  return { mean, flow: divide({ re: 1 - mean.re, im: -mean.im }, kSquared) };
}
