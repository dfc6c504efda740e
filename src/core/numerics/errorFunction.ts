/**
 * Error function and its complement at a real x, to 1e-15 of 1.
 *
 *     erf x = (2 / sqrt pi) e^{-x^2} sum 2^n x^(2n+1) / (1 3 5 ... (2n+1))                 |x| < 2.5: all terms positive
 *     erfc x = (e^{-x^2} / sqrt pi) / (x + (1/2) / (x + 1 / (x + (3/2) / (x + ...))))       beyond
 *
 * Source: Abramowitz and Stegun 7.1.6, 7.1.14 (from memory, to be confirmed); checked against an independent library.
 */
export function erf(x: number): number {
  const size = Math.abs(x);
  const value = size < 2.5 ? series(size) : 1 - fraction(size);
  return x < 0 ? -value : value;
}

export function erfc(x: number): number {
  if (x < 2.5) return 1 - erf(x);
  return fraction(x);
}

function series(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > 1e-17 * sum; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

function fraction(x: number): number {
  if (x > 27) return 0;
  let tail = x;
  for (let n = 60; n > 0; n--) tail = x + n / 2 / tail;
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * tail);
}
