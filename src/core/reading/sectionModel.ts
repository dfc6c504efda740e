/**
 * Second-order sections with what lies beside them, as a least-squares problem:
 *
 *     S(x) = sum (g_k + i h_k) / (1 - (x / w_k)^2 + 2 i z_k x / w_k) + sum (p_j + i q_j) x^(2 j)
 *
 * x is the frequency over a scale, so that w is about 1. Complex data, or magnitudes alone: then only one phase of the whole is
 * left out, and terms beside the sections are real. Derivation: docs/theory/responseReading.md.
 */
import type { SquaresProblem } from "../numerics/minimizeSquares.ts";
import { reduceToTriangle } from "../numerics/triangle.ts";

export interface SectionShape {
  readonly sections: number;
  /** Terms beside them: 0, 1 (constant), 2 (and x^2). */
  readonly rest: number;
  readonly magnitudeOnly: boolean;
}

export interface SectionData {
  readonly x: Float64Array;
  /** Magnitudes where `im` is null. */
  readonly re: Float64Array;
  readonly im: Float64Array | null;
  /** One over the standard uncertainty of each point, or 1. */
  readonly weight: Float64Array;
}

/** Parameters in order: w, z, g (and h where the phase is known) of each section; p (and q) of each term. */
export const perSection = ({ magnitudeOnly }: SectionShape): number => (magnitudeOnly ? 3 : 4);
export const sectionParameters = (shape: SectionShape): number =>
  shape.sections * perSection(shape) + shape.rest * (shape.magnitudeOnly ? 1 : 2);

/** Value and derivatives at one x: rows of [re, im] a parameter, value last. */
function evaluate(shape: SectionShape, p: ArrayLike<number>, x: number, re: Float64Array, im: Float64Array): void {
  const size = sectionParameters(shape);
  const step = perSection(shape);
  let [sumRe, sumIm] = [0, 0];
  for (let k = 0; k < shape.sections; k++) {
    const at = k * step;
    const [w, z, g] = [p[at]!, p[at + 1]!, p[at + 2]!];
    const h = shape.magnitudeOnly ? 0 : p[at + 3]!;
    const u = x / w;
    const [dRe, dIm] = [1 - u * u, 2 * z * u];
    const squared = dRe * dRe + dIm * dIm;
    const [vRe, vIm] = [dRe / squared, -dIm / squared];
    // N / D, and -N D' / D^2 for what D depends on.
    const [nRe, nIm] = [g * vRe - h * vIm, g * vIm + h * vRe];
    const [tRe, tIm] = [nRe * vRe - nIm * vIm, nRe * vIm + nIm * vRe];
    const [byWRe, byWIm] = [(2 * u * u) / w, (-2 * z * u) / w];
    re[at] = -(tRe * byWRe - tIm * byWIm);
    im[at] = -(tRe * byWIm + tIm * byWRe);
    re[at + 1] = tIm * 2 * u;
    im[at + 1] = -tRe * 2 * u;
    re[at + 2] = vRe;
    im[at + 2] = vIm;
    if (!shape.magnitudeOnly) {
      re[at + 3] = -vIm;
      im[at + 3] = vRe;
    }
    sumRe += nRe;
    sumIm += nIm;
  }
  let at = shape.sections * step;
  let power = 1;
  for (let j = 0; j < shape.rest; j++) {
    re[at] = power;
    im[at] = 0;
    sumRe += p[at]! * power;
    at += 1;
    if (!shape.magnitudeOnly) {
      re[at] = 0;
      im[at] = power;
      sumIm += p[at]! * power;
      at += 1;
    }
    power *= x * x;
  }
  re[size] = sumRe;
  im[size] = sumIm;
}

/** The problem for `minimizeSquares`; residuals are model less data. */
export function sectionSquares(shape: SectionShape, data: SectionData): SquaresProblem {
  const size = sectionParameters(shape);
  const count = data.x.length;
  const rows = data.im === null ? count : 2 * count;
  const re = new Float64Array(size + 1);
  const im = new Float64Array(size + 1);
  const fill = (p: Float64Array, right: Float64Array, columns: readonly Float64Array[] | null): number => {
    let sum = 0;
    for (let i = 0; i < count; i++) {
      evaluate(shape, p, data.x[i]!, re, im);
      const weight = data.weight[i]!;
      const [valueRe, valueIm] = [re[size]!, im[size]!];
      if (data.im === null) {
        const magnitude = Math.hypot(valueRe, valueIm) || 1e-300;
        right[i] = (magnitude - data.re[i]!) * weight;
        if (columns !== null)
          for (let j = 0; j < size; j++) columns[j]![i] = ((valueRe * re[j]! + valueIm * im[j]!) / magnitude) * weight;
        sum += right[i]! ** 2;
        continue;
      }
      right[i] = (valueRe - data.re[i]!) * weight;
      right[count + i] = (valueIm - data.im[i]!) * weight;
      if (columns !== null)
        for (let j = 0; j < size; j++) {
          columns[j]![i] = re[j]! * weight;
          columns[j]![count + i] = im[j]! * weight;
        }
      sum += right[i]! ** 2 + right[count + i]! ** 2;
    }
    return sum;
  };
  return {
    sumOfSquares: (p) => fill(p, new Float64Array(rows), null),
    linearize: (p) => {
      const right = new Float64Array(rows);
      const columns = Array.from({ length: size }, () => new Float64Array(rows));
      const sumOfSquares = fill(p, right, columns);
      return Number.isFinite(sumOfSquares) ? { sumOfSquares, ...reduceToTriangle(columns, right, rows) } : null;
    },
  };
}

/** Model at every x, complex. */
export function sectionCurve(
  shape: SectionShape,
  p: ArrayLike<number>,
  x: Float64Array,
): { readonly re: Float64Array; readonly im: Float64Array } {
  const size = sectionParameters(shape);
  const [re, im] = [new Float64Array(size + 1), new Float64Array(size + 1)];
  const out = { re: new Float64Array(x.length), im: new Float64Array(x.length) };
  for (let i = 0; i < x.length; i++) {
    evaluate(shape, p, x[i]!, re, im);
    out.re[i] = re[size]!;
    out.im[i] = im[size]!;
  }
  return out;
}
