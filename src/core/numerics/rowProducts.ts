/**
 * Inner products of real rows with complex or real ones, by which a film is coupled to its plate: out_ik = sum_j a_ij b_kj.
 *
 * All matrices row-major, real and imaginary parts apart. Two rows by two columns at a time: half the reading of one by one; of an
 * odd number of rows the last is its own partner.
 */
import type { ComplexVector } from "./complexSymmetric.ts";

export interface Rows {
  /** Entries of a row. */
  readonly width: number;
  /** Rows of b. */
  readonly count: number;
  /** "lower": only k <= i, of a product that is symmetric; what `out` holds above is not to be read. */
  readonly part: "all" | "lower";
}

export function rowProducts(a: Float64Array, b: ComplexVector, rows: Rows, out: ComplexVector): void {
  const { width, count } = rows;
  const { re: bRe, im: bIm } = b;
  const { re: outRe, im: outIm } = out;
  for (let i = 0, first = 0; first < a.length; i += 2, first += 2 * width) {
    const pair = first + width < a.length;
    const second = pair ? first + width : first;
    const end = rows.part === "lower" ? Math.min(i + 2, count) : count;
    for (let k = 0; k < end; k += 2) {
      const other = k + 1 < count ? k + 1 : k;
      const left = k * width;
      const right = other * width;
      let aRe = 0;
      let aIm = 0;
      let eRe = 0;
      let eIm = 0;
      let cRe = 0;
      let cIm = 0;
      let dRe = 0;
      let dIm = 0;
      for (let j = 0; j < width; j++) {
        const x = a[first + j]!;
        const y = a[second + j]!;
        const pRe = bRe[left + j]!;
        const pIm = bIm[left + j]!;
        const qRe = bRe[right + j]!;
        const qIm = bIm[right + j]!;
        aRe += x * pRe;
        aIm += x * pIm;
        eRe += x * qRe;
        eIm += x * qIm;
        cRe += y * pRe;
        cIm += y * pIm;
        dRe += y * qRe;
        dIm += y * qIm;
      }
      const at = i * count;
      outRe[at + k] = aRe;
      outIm[at + k] = aIm;
      outRe[at + other] = eRe;
      outIm[at + other] = eIm;
      if (!pair) continue;
      outRe[at + count + k] = cRe;
      outIm[at + count + k] = cIm;
      outRe[at + count + other] = dRe;
      outIm[at + count + other] = dIm;
    }
  }
}

/** The same where b is real. */
export function realRowProducts(a: Float64Array, b: Float64Array, rows: Rows, out: Float64Array): void {
  const { width, count } = rows;
  for (let i = 0, first = 0; first < a.length; i += 2, first += 2 * width) {
    const pair = first + width < a.length;
    const second = pair ? first + width : first;
    const end = rows.part === "lower" ? Math.min(i + 2, count) : count;
    for (let k = 0; k < end; k += 2) {
      const other = k + 1 < count ? k + 1 : k;
      const left = k * width;
      const right = other * width;
      let [one, two, three, four] = [0, 0, 0, 0];
      for (let j = 0; j < width; j++) {
        const x = a[first + j]!;
        const y = a[second + j]!;
        const p = b[left + j]!;
        const q = b[right + j]!;
        one += x * p;
        two += x * q;
        three += y * p;
        four += y * q;
      }
      const at = i * count;
      out[at + k] = one;
      out[at + other] = two;
      if (!pair) continue;
      out[at + count + k] = three;
      out[at + count + other] = four;
    }
  }
}
