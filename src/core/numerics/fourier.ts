/// <reference path="./fftjs.d.ts" />
/**
 * Discrete Fourier transform of any length:
 *
 *     X_k = sum x_n e^{-2 pi i k n / N}
 *
 * Powers of two directly; other lengths as a convolution with a chirp, by Bluestein 1970 (from memory, to be confirmed).
 */

import FFT from "fft.js";
import type { ComplexVector } from "./complexSymmetric.ts";
import { pow } from "./power.ts";
import { cos, sin } from "./sine.ts";

/** Transform of re + i im; a missing im is zero. */
export function fourier(re: ArrayLike<number>, im?: ArrayLike<number>): ComplexVector {
  const count = re.length;
  if (count === 0) return { re: new Float64Array(0), im: new Float64Array(0) };
  return (count & (count - 1)) === 0 ? direct(re, im) : chirped(re, im);
}

/** Bins 0 to N / 2 of real data: all that there is. Frequency of bin k: k / (N step). */
export function realFourier(values: ArrayLike<number>): ComplexVector {
  const half = Math.floor(values.length / 2) + 1;
  const whole = fourier(values);
  return { re: whole.re.slice(0, half), im: whole.im.slice(0, half) };
}

/** Back again: x_n = (1 / N) sum X_k e^{+2 pi i k n / N}. */
export function inverseFourier({ re, im }: ComplexVector): ComplexVector {
  const turned = fourier(im, re);
  const scale = 1 / re.length;
  return { re: turned.im.map((value) => value * scale), im: turned.re.map((value) => value * scale) };
}

function direct(re: ArrayLike<number>, im?: ArrayLike<number>): ComplexVector {
  const count = re.length;
  if (count === 1) return { re: Float64Array.from(re), im: Float64Array.from(im ?? [0]) };
  const input = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    input[2 * i] = re[i]!;
    input[2 * i + 1] = im?.[i] ?? 0;
  }
  const out = new Float64Array(2 * count);
  transformOf(count).transform(out, input);
  return split(out, count);
}

/** The library's transform with our sines, which are the same in every engine. */
function transformOf(count: number): FFT {
  const transform = new FFT(count);
  const { table } = transform;
  const quarter = Float64Array.from({ length: count / 4 + 1 }, (_, k) => sin((2 * Math.PI * k) / count));
  for (let k = 0; k < count; k++) {
    const within = (4 * k) % count;
    const turns = Math.floor((4 * k) / count);
    const [s, c] = count % 4 === 0 ? [quarter[within / 4]!, quarter[(count - within) / 4]!] : [0, 1];
    table[2 * k] = turns === 0 ? c : turns === 1 ? -s : turns === 2 ? -c : s;
    table[2 * k + 1] = -(turns === 0 ? s : turns === 1 ? c : turns === 2 ? -s : -c);
  }
  return transform;
}

const split = (pairs: Float64Array, count: number): ComplexVector => ({
  re: Float64Array.from({ length: count }, (_, i) => pairs[2 * i]!),
  im: Float64Array.from({ length: count }, (_, i) => pairs[2 * i + 1]!),
});

function chirped(re: ArrayLike<number>, im?: ArrayLike<number>): ComplexVector {
  const count = re.length;
  const size = pow(2, Math.ceil(Math.log2(2 * count - 1)));
  const chirpRe = new Float64Array(count);
  const chirpIm = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    // n^2 modulo 2 N keeps the angle small; n^2 is exact up to 9e7 points.
    const angle = (Math.PI * ((n * n) % (2 * count))) / count;
    chirpRe[n] = cos(angle);
    chirpIm[n] = -sin(angle);
  }
  const data = new Float64Array(2 * size);
  const filter = new Float64Array(2 * size);
  for (let n = 0; n < count; n++) {
    const [x, y] = [re[n]!, im?.[n] ?? 0];
    data[2 * n] = x * chirpRe[n]! - y * chirpIm[n]!;
    data[2 * n + 1] = x * chirpIm[n]! + y * chirpRe[n]!;
    filter[2 * n] = chirpRe[n]!;
    filter[2 * n + 1] = -chirpIm[n]!;
    if (n > 0) {
      filter[2 * (size - n)] = chirpRe[n]!;
      filter[2 * (size - n) + 1] = -chirpIm[n]!;
    }
  }
  const transform = transformOf(size);
  const a = new Float64Array(2 * size);
  const b = new Float64Array(2 * size);
  transform.transform(a, data);
  transform.transform(b, filter);
  for (let k = 0; k < size; k++) {
    const [p, q, r, s] = [a[2 * k]!, a[2 * k + 1]!, b[2 * k]!, b[2 * k + 1]!];
    a[2 * k] = p * r - q * s;
    a[2 * k + 1] = p * s + q * r;
  }
  transform.inverseTransform(data, a);
  const out = { re: new Float64Array(count), im: new Float64Array(count) };
  for (let k = 0; k < count; k++) {
    out.re[k] = data[2 * k]! * chirpRe[k]! - data[2 * k + 1]! * chirpIm[k]!;
    out.im[k] = data[2 * k]! * chirpIm[k]! + data[2 * k + 1]! * chirpRe[k]!;
  }
  return out;
}
