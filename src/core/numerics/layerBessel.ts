import { type Complex, divide, squareRoot } from "./complex.ts";
import { cos, sin } from "./sine.ts";

/** Beyond this x Hankel's expansion has all digits; below it the power series loses at most three of sixteen. */
const far = 18;

/**
 * e^{-x} I_v((1 + i) x), v = 0 or 1, x >= 0: the profile of what diffuses into a round tube, x in layers.
 *
 *     I_v(z) = (z / 2)^v sum (z^2 / 4)^n / (n! (n + v)!),   z^2 / 4 = i x^2 / 2
 *     I_v(z) ~ e^z / sqrt(2 pi z) (1 - (4 v^2 - 1) / (8 z) + ...)
 *
 * Source: Abramowitz and Stegun 9.6.10, 9.7.1 (from memory, to be confirmed); checked through the impedance of tubes.
 */
export function layerBessel(order: 0 | 1, x: number): Complex {
  return x <= far ? series(order, x) : expansion(order, x);
}

function series(order: 0 | 1, x: number): Complex {
  const half = (x * x) / 2;
  // Powers of i by turns: 1, i, -1, -i.
  let [re, im] = [1, 0];
  let term = 1;
  for (let n = 1; n < 200; n++) {
    term *= half / (n * (n + order));
    if (n % 2 === 0) re += n % 4 === 0 ? term : -term;
    else im += n % 4 === 1 ? term : -term;
    if (term < 1e-17 * (Math.abs(re) + Math.abs(im))) break;
  }
  const size = Math.exp(-x);
  if (order === 0) return { re: re * size, im: im * size };
  // times z / 2 = (1 + i) x / 2
  return { re: ((re - im) * x * size) / 2, im: ((re + im) * x * size) / 2 };
}

function expansion(order: 0 | 1, x: number): Complex {
  let [re, im] = [1, 0];
  let [termRe, termIm] = [1, 0];
  for (let n = 1; n <= 40; n++) {
    // over z = (1 + i) x: times (1 - i) / (2 x)
    const factor = -(4 * order * order - (2 * n - 1) ** 2) / (16 * n * x);
    [termRe, termIm] = [(termRe + termIm) * factor, (termIm - termRe) * factor];
    re += termRe;
    im += termIm;
    if (Math.abs(termRe) + Math.abs(termIm) < 1e-17) break;
  }
  const [c, s] = [cos(x), sin(x)];
  return divide({ re: re * c - im * s, im: re * s + im * c }, squareRoot({ re: 2 * Math.PI * x, im: 2 * Math.PI * x }));
}
