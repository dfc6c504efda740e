import { add, type Complex, complex, divide, multiply, scale, squareRoot } from "./complex.ts";

/** Beyond |z| of this Hankel's expansion has all digits; below it the power series loses at most three of sixteen. */
const far = 25;

/**
 * e^{-Re z} I_v(z), v = 0 or 1, for Re z >= |Im z|: the profile of what diffuses into a round tube.
 *
 *     I_v(z) = (z / 2)^v sum (z^2 / 4)^n / (n! (n + v)!),   I_v(z) ~ e^z / sqrt(2 pi z) (1 - (4 v^2 - 1) / (8 z) + ...)
 *
 * Source: Abramowitz and Stegun 9.6.10, 9.7.1 (from memory, to be confirmed); checked against J_0, J_1 of another library.
 */
export function scaledModifiedBessel(order: 0 | 1, z: Complex): Complex {
  const size = Math.hypot(z.re, z.im);
  return size <= far ? scale(series(order, z), Math.exp(-z.re)) : expansion(order, z);
}

function series(order: 0 | 1, z: Complex): Complex {
  const quarter = scale(multiply(z, z), 0.25);
  let term: Complex = order === 0 ? complex(1) : scale(z, 0.5);
  let sum = term;
  for (let n = 1; n < 200; n++) {
    term = scale(multiply(term, quarter), 1 / (n * (n + order)));
    sum = add(sum, term);
    if (Math.abs(term.re) + Math.abs(term.im) < 1e-17 * (Math.abs(sum.re) + Math.abs(sum.im))) break;
  }
  return sum;
}

function expansion(order: 0 | 1, z: Complex): Complex {
  let term: Complex = complex(1);
  let sum = term;
  for (let n = 1; n <= 40; n++) {
    term = scale(divide(term, z), -(4 * order * order - (2 * n - 1) ** 2) / (8 * n));
    sum = add(sum, term);
    if (Math.abs(term.re) + Math.abs(term.im) < 1e-17) break;
  }
  const turn = { re: Math.cos(z.im), im: Math.sin(z.im) };
  return divide(multiply(sum, turn), squareRoot(scale(z, 2 * Math.PI)));
}
