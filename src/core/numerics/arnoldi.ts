/** The largest eigenvalues of an operator that is known by what it does to a vector. */
import { EigenvalueDecomposition, Matrix } from "ml-matrix";

export interface Ritz {
  /** Real parts of the eigenvalues, largest first; those with an imaginary part are left out. */
  readonly values: readonly number[];
  readonly vectors: readonly Float64Array[];
  /** Estimated relative residual |A v - mu v| / |mu| of each. */
  readonly residuals: readonly number[];
  /** Applications of the operator. */
  readonly steps: number;
}

/**
 * Arnoldi's method from a start vector, orthogonalized twice. Stops when those of the first `count` eigenvalues
 * that lie above `above` have residuals below `within`, or when none does, or after `most` steps: then the residuals say
 * how far it came.
 *
 * Source: Saad, Numerical Methods for Large Eigenvalue Problems, ch. 6 (from memory, to be confirmed).
 */
export function arnoldi(
  apply: (vector: Float64Array) => Float64Array,
  start: Float64Array,
  options: { readonly count: number; readonly above: number; readonly within: number; readonly most: number },
): Ritz {
  const { count, above, within, most } = options;
  const basis: Float64Array[] = [scaled(start, 1 / norm(start))];
  const columns: Float64Array[] = [];
  let found = emptyRitz;
  for (let step = 1; step <= most; step++) {
    const next = apply(basis[step - 1]!);
    const column = new Float64Array(step + 1);
    for (let pass = 0; pass < 2; pass++) {
      for (let i = 0; i < step; i++) {
        const share = dot(basis[i]!, next);
        column[i]! += share;
        addScaled(next, basis[i]!, -share);
      }
    }
    const rest = norm(next);
    column[step] = rest;
    columns.push(column);
    const exhausted = rest < 1e-14 * norm(column);
    if ((step <= 24 ? step % 6 === 0 : step % 12 === 0) || step === most || exhausted) {
      found = ritz(columns, basis, step);
      const [largest = 0] = found.values;
      if (largest * (1 + (found.residuals[0] ?? 0)) < above) return found;
      const wanted = found.values.filter((value, i) => i < count && (i === 0 || value > above)).length;
      const settled = wanted > 0 && found.residuals.slice(0, wanted).every((residual) => residual < within);
      if (settled || exhausted) return found;
    }
    basis.push(scaled(next, 1 / rest));
  }
  return found;
}

const emptyRitz: Ritz = { values: [], vectors: [], residuals: [], steps: 0 };

function ritz(columns: readonly Float64Array[], basis: readonly Float64Array[], steps: number): Ritz {
  const hessenberg = new Matrix(steps, steps);
  for (let j = 0; j < steps; j++) {
    for (let i = 0; i <= Math.min(j + 1, steps - 1); i++) hessenberg.set(i, j, columns[j]![i]!);
  }
  const small = new EigenvalueDecomposition(hessenberg, { assumeSymmetric: false });
  const [real, imaginary] = [small.realEigenvalues, small.imaginaryEigenvalues];
  const vectors = small.eigenvectorMatrix;
  const order = Array.from({ length: steps }, (_, i) => i)
    .filter((i) => Math.abs(imaginary[i]!) <= 1e-9 * Math.abs(real[i]!))
    .sort((a, b) => real[b]! - real[a]!)
    .slice(0, 12);
  const tail = columns[steps - 1]![steps]!;
  return {
    values: order.map((i) => real[i]!),
    vectors: order.map((i) => {
      const vector = new Float64Array(basis[0]!.length);
      for (let k = 0; k < steps; k++) addScaled(vector, basis[k]!, vectors.get(k, i));
      return scaled(vector, 1 / norm(vector));
    }),
    residuals: order.map((i) => {
      const column = vectors.getColumn(i);
      return Math.abs((tail * column[steps - 1]!) / (Math.hypot(...column) * real[i]!));
    }),
    steps,
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

const norm = (a: Float64Array) => Math.sqrt(dot(a, a));
const scaled = (a: Float64Array, factor: number) => a.map((value) => value * factor);

function addScaled(to: Float64Array, from: Float64Array, factor: number): void {
  for (let i = 0; i < to.length; i++) to[i]! += factor * from[i]!;
}
