/**
 * Several responses as sums over the same stable poles (vector fitting):
 *
 *     H(s) = constant + sum over k of r_k / (s - a_k), mirror images included,   samples at s = i omega
 *
 * Poles are moved in rounds: sigma(s) H(s) is fitted with sigma = d + sum c_k / (s - a_k), and the zeros of sigma are the next poles;
 * one that would grow is turned round. Frequencies in units of the caller's `unit`; every sample counts relative to its size.
 *
 * Source: Gustavsen and Semlyen 1999, Gustavsen 2006 for the free d (from memory, to be confirmed). Holds: poles that the samples
 * show; the answer says how well they are met.
 */
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "./complex.ts";
import { backSubstitute, reduceToTriangle } from "./triangle.ts";

export interface FittedResponse {
  readonly values: readonly Complex[];
  /** Whether what is left at high frequency is a constant, or nothing. */
  readonly constant: boolean;
  /** Smallest size that counts, over the largest [-]: below it errors count as if the value were as large. */
  readonly floor: number;
}

export interface VectorFit {
  /** Upper half plane and real axis [1/s]. */
  readonly poles: readonly Complex[];
  readonly terms: readonly { readonly residues: readonly Complex[]; readonly constant: number }[];
  /** Largest error of each response at the samples, over what counts as its size [-]. */
  readonly errors: readonly number[];
}

/** `start`: poles to begin with [1/s]; `omega`: of the samples [rad/s]; `within`: an error that is small enough [-]. */
export function vectorFit(
  omega: readonly number[],
  responses: readonly FittedResponse[],
  {
    start,
    unit,
    rounds,
    within,
  }: { readonly start: readonly Complex[]; readonly unit: number; readonly rounds: number; readonly within: number },
): VectorFit {
  const s = omega.map((one) => complex(0, one / unit));
  const sizes = responses.map(({ values, floor }) => {
    const most = Math.max(...values.map(absolute));
    return values.map((value) => Math.max(absolute(value), floor * most) || 1);
  });
  let poles: readonly Complex[] = ordered(start.map((pole) => scale(pole, 1 / unit)));
  let best = residuesOf(s, responses, sizes, poles);
  for (let round = 0; round < rounds; round++) {
    const moved = relocated(s, responses, sizes, poles);
    if (moved === null) break;
    poles = moved;
    const found = residuesOf(s, responses, sizes, poles);
    const gained = Math.max(...found.errors) / Math.max(...best.errors);
    if (gained < 1) best = found;
    if ((round > 2 && gained > 0.9) || Math.max(...best.errors) < within) break;
  }
  return {
    poles: best.poles.map((pole) => scale(pole, unit)),
    terms: best.terms.map(({ residues, constant }) => ({
      residues: residues.map((residue) => scale(residue, unit)),
      constant,
    })),
    errors: best.errors,
  };
}

/** Real ones first. */
const ordered = (poles: readonly Complex[]): Complex[] => [
  ...poles.filter(({ im }) => im === 0),
  ...poles.filter(({ im }) => im !== 0),
];

/** One function a real pole, two a pair, at one s. */
function basisAt(poles: readonly Complex[], s: Complex): Complex[] {
  return poles.flatMap((pole) => {
    const one = divide(complex(1), subtract(s, pole));
    if (pole.im === 0) return [one];
    const other = divide(complex(1), subtract(s, { re: pole.re, im: -pole.im }));
    const difference = subtract(one, other);
    return [add(one, other), { re: -difference.im, im: difference.re }];
  });
}

const widthOf = (poles: readonly Complex[]): number => poles.reduce((sum, { im }) => sum + (im === 0 ? 1 : 2), 0);

/** Columns of real and imaginary parts, each over its sample's size. */
function columnsOf(functions: readonly (readonly Complex[])[], size: readonly number[]): Float64Array[] {
  const [first] = functions;
  return Array.from({ length: first?.length ?? 0 }, (_, j) =>
    Float64Array.from({ length: 2 * functions.length }, (_, row) => {
      const value = functions[row >> 1]![j]!;
      return (row % 2 === 0 ? value.re : value.im) / size[row >> 1]!;
    }),
  );
}

function residuesOf(
  s: readonly Complex[],
  responses: readonly FittedResponse[],
  sizes: readonly (readonly number[])[],
  poles: readonly Complex[],
): VectorFit {
  const basis = s.map((one) => basisAt(poles, one));
  const width = widthOf(poles);
  const fits = responses.map(({ values, constant }, i) => {
    const functions = constant ? basis.map((row) => [...row, complex(1)]) : basis;
    const [right] = columnsOf(
      values.map((value) => [value]),
      sizes[i]!,
    );
    const found = solveScaled(columnsOf(functions, sizes[i]!), right!);
    let error = 0;
    values.forEach((value, at) => {
      const sum = functions[at]!.reduce((total, one, j) => add(total, scale(one, found[j]!)), complex(0));
      error = Math.max(error, absolute(subtract(sum, value)) / sizes[i]![at]!);
    });
    let at = 0;
    const residues = poles.map((pole) => {
      if (pole.im === 0) return complex(found[at++]!);
      return { re: found[at++]!, im: found[at++]! };
    });
    return { error, residues, constant: constant ? found[width]! : 0 };
  });
  return {
    poles,
    terms: fits.map(({ residues, constant }) => ({ residues, constant })),
    errors: fits.map(({ error }) => error),
  };
}

/** Least squares with columns of one length; a singular triangle leaves zeros. */
function solveScaled(columns: readonly Float64Array[], right: Float64Array): Float64Array {
  const lengths = columns.map((column) => Math.sqrt(column.reduce((sum, value) => sum + value * value, 0)) || 1);
  const even = columns.map((column, j) => column.map((value) => value / lengths[j]!));
  const { triangle, projected } = reduceToTriangle(even, right, right.length);
  const found = backSubstitute(triangle, projected) ?? new Float64Array(columns.length);
  return found.map((value, j) => value / lengths[j]!);
}

/** The next poles: zeros of sigma. Null where it has none to give. */
function relocated(
  s: readonly Complex[],
  responses: readonly FittedResponse[],
  sizes: readonly (readonly number[])[],
  poles: readonly Complex[],
): readonly Complex[] | null {
  const width = widthOf(poles);
  const basis = s.map((one) => basisAt(poles, one));
  const rows: Float64Array[] = [];
  for (const [i, { values, constant }] of responses.entries()) {
    const own = constant ? basis.map((row) => [...row, complex(1)]) : basis;
    const functions = own.map((row, at) => [
      ...row,
      ...[...basis[at]!, complex(1)].map((one) => scale(multiply(one, values[at]!), -1)),
    ]);
    const columns = columnsOf(functions, sizes[i]!);
    const count = columns.length;
    const { triangle } = reduceToTriangle(columns, new Float64Array(2 * s.length), 2 * s.length);
    const from = own[0]!.length;
    for (let row = from; row < count; row++) rows.push(triangle.slice(row * count + from, row * count + count));
  }
  // Re sigma summed over the samples is their number, so that it is not nothing; it weighs as much as one response.
  rows.push(
    Float64Array.from({ length: width + 1 }, (_, j) =>
      j === width ? s.length : basis.reduce((sum, row) => sum + row[j]!.re, 0),
    ),
  );
  const columns = Array.from({ length: width + 1 }, (_, j) => Float64Array.from(rows, (row) => row[j]!));
  const right = new Float64Array(rows.length);
  right[rows.length - 1] = s.length;
  const sigma = solveScaled(columns, right);
  const d = Math.abs(sigma[width]!) < 1e-8 ? 1e-8 : sigma[width]!;
  return zerosOf(poles, sigma.slice(0, width), d);
}

/** Eigenvalues of A - b c / d, turned into the left half plane; half of a pair stands for both. */
function zerosOf(poles: readonly Complex[], c: Float64Array, d: number): readonly Complex[] | null {
  const width = c.length;
  const matrix = new Matrix(width, width);
  let at = 0;
  for (const { re, im } of poles) {
    const pair = im !== 0;
    matrix.set(at, at, re);
    if (pair) {
      matrix.set(at, at + 1, im);
      matrix.set(at + 1, at, -im);
      matrix.set(at + 1, at + 1, re);
    }
    for (let j = 0; j < width; j++) matrix.set(at, j, matrix.get(at, j) - ((pair ? 2 : 1) * c[j]!) / d);
    at += pair ? 2 : 1;
  }
  if (matrix.to1DArray().some((value) => !Number.isFinite(value))) return null;
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(matrix, { assumeSymmetric: false });
  const found = realEigenvalues.flatMap((re, i): Complex[] => {
    const im = imaginaryEigenvalues[i]!;
    const left = -Math.abs(re) || -1e-12;
    return im < 0 ? [] : [{ re: left, im }];
  });
  return ordered(found);
}
