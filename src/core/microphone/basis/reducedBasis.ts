/**
 * A small real basis for plate and film of one shape, made from forced answers, that keeps symmetry, passivity and reciprocity.
 *
 *     plate: V K V^T = 1, V M V^T = diag mass;   film: W W^T = 1, W k^2 W^T = diag kappa;   coupling = V C W^T
 *     A(omega) = (1 + i eta) K_b + K_t - Lambda diag mass + coupling diag(i omega s / (Psi kappa + chi)) coupling^T
 *
 * Forced answers at many gaps and frequencies, real and imaginary parts apart, plate and film apart, are orthonormalized by
 * Gram-Schmidt with the largest remainder first. A Galerkin basis of a symmetric system: poles and outputs err by the square
 * of what the basis leaves out. Derivation: docs/theory/engine.md.
 */
import { type Cholesky, cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import type { Complex } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { symmetricEigen } from "../../numerics/symmetricEigen.ts";
import type { Microphone } from "../microphone.ts";
import { backLoad, coupledSystem, filmPressure, setFrequency, solveComplexLoad, solveLoad } from "../system/coupled.ts";
import { fromFilm, projectOnFilm } from "../system/filmProjection.ts";
import { filmOnes, type Prepared, wholeStiffness } from "../system/prepare.ts";
import { type FilmRelief, spread } from "../system/relief.ts";
import { type WallHole, wallHoleOf } from "../system/wallHole.ts";

/** Plate and film on a few functions. Plain typed arrays. */
export interface ReducedMatrices {
  readonly count: number;
  readonly filmCount: number;
  /** Diagonal of the mass [-]. */
  readonly mass: Float64Array;
  /** Bending part of the stiffness, count x count; null where all of it is bending (then it is the unit matrix). */
  readonly bending: Float64Array | null;
  /** Wavenumbers squared of the film functions, units of (2 / across)^2 [-]. */
  readonly kappa: Float64Array;
  /** count x filmCount */
  readonly coupling: Float64Array;
  /** The uniform load on the plate functions. */
  readonly load: Float64Array;
  /** Integrals of the film functions over -1 .. 1 squared. */
  readonly ones: Float64Array;
  /** What an uneven gap does, on all film functions; null: the plate rests flat. */
  readonly relief: FilmRelief | null;
  /** That of `Prepared`. */
  readonly nearField: number | null;
  /** The one hole in the wall behind the film, and its means of the film functions; null without. */
  readonly hole: { readonly prepared: WallHole; readonly means: Float64Array } | null;
}

export interface ReducedBasis extends ReducedMatrices {
  /** Rows of polynomials' coefficients, count x plate size. */
  readonly plate: Float64Array;
  /** Rows of film terms, filmCount x terms. */
  readonly film: Float64Array;
  /** Largest remainder that was left out, relative to each answer's own size [-]. */
  readonly remainder: number;
}

/** One forced answer to make the basis from: to a force on the plate's functions, or to a pressure "behind" the film. */
export interface Snapshot {
  readonly gap: number;
  readonly omega: Complex;
  readonly force: Float64Array | "behind";
}

export interface BasisOptions {
  /** Plate and film functions at most. */
  readonly most: number;
  /** Remainder of the answers at which to stop earlier [-]. */
  readonly tolerance: number;
  /** Film terms that are functions of the basis in any case: modes of the film that hardly move the plate. */
  readonly filmTerms?: readonly number[];
  /** So many of the film's slowest functions, and how the plate gives way to each, close the basis: what creeps moves like them. */
  readonly creeping?: number;
}

/** What spans the answers: rows in the order of their weight. */
interface Span {
  readonly plate: readonly Float64Array[];
  readonly film: readonly Float64Array[];
  /** Largest remainders before each row. */
  readonly plateRemainders: readonly number[];
  readonly filmRemainders: readonly number[];
  readonly remainder: number;
}

/** Solves the snapshots in the whole basis and keeps what spans them. */
export function reducedBasis(
  prepared: Prepared,
  microphone: Microphone,
  snapshots: readonly Snapshot[],
  options: BasisOptions,
): ReducedBasis {
  return assemble(prepared, microphone, spanOf(prepared, microphone, snapshots, options)).basis;
}

/** A basis and its beginning. */
export interface NestedBases {
  readonly all: ReducedBasis;
  readonly few: ReducedBasis;
  /** What a function of `few` is in `all`: all.count x few.count, and the same of the film. */
  readonly lift: { readonly plate: Float64Array; readonly film: Float64Array };
}

/** The same, and its beginning alone: the first functions of plate and film, which span the answers to the remainder of `few`. */
export function nestedBases(
  prepared: Prepared,
  microphone: Microphone,
  snapshots: readonly Snapshot[],
  options: BasisOptions & { readonly few: Pick<BasisOptions, "most" | "tolerance"> },
): NestedBases {
  const span = spanOf(prepared, microphone, snapshots, options);
  const given = options.filmTerms?.length ?? 0;
  const few = {
    ...span,
    plate: span.plate.slice(0, beginning(span.plateRemainders, options.few)),
    film: span.film.slice(0, given + beginning(span.filmRemainders, options.few)),
  };
  const [large, small] = [assemble(prepared, microphone, span), assemble(prepared, microphone, few)];
  const lift = {
    plate: leadingProduct(large.turn, small.turn, small.basis.count),
    film: leadingProduct(large.filmTurn, small.filmTurn, small.basis.filmCount),
  };
  return { all: large.basis, few: small.basis, lift };
}

/** How many functions leave no more than a remainder. */
function beginning(remainders: readonly number[], { most, tolerance }: Pick<BasisOptions, "most" | "tolerance">) {
  const at = remainders.findIndex((remainder) => remainder < tolerance);
  return Math.min(most, at < 0 ? remainders.length : Math.max(at, 1));
}

function spanOf(
  prepared: Prepared,
  microphone: Microphone,
  snapshots: readonly Snapshot[],
  options: BasisOptions,
): Span {
  const plates: Float64Array[] = [];
  const films: Float64Array[] = [];
  const { factor, lower } = stiffnessFactor(prepared);
  for (const [gap, group] of byGap(snapshots)) {
    const system = coupledSystem(prepared, withGap(microphone, gap));
    // Answers at one frequency share its factors.
    let at: Complex | null = null;
    for (const { omega, force } of group) {
      if (at?.re !== omega.re || at.im !== omega.im) {
        setFrequency(system, omega);
        if (system.sink && prepared.film) {
          // What the hole takes is a motion of its own.
          const sunk = solveComplexLoad(system, system.sink.plate);
          addParts(films, system.sink.film);
          addParts(plates, { re: toEnergy(lower, sunk.re), im: toEnergy(lower, sunk.im) });
          addParts(films, filmPressure(system, prepared.film, sunk));
        }
      }
      at = omega;
      const behind = force === "behind" ? backLoad(system, omega) : null;
      const q = force === "behind" ? solveComplexLoad(system, behind!.load) : solveLoad(system, force);
      if (behind && prepared.film) addParts(films, behind.drop);
      addParts(plates, { re: toEnergy(lower, q.re), im: toEnergy(lower, q.im) });
      if (prepared.film) addParts(films, filmPressure(system, prepared.film, q));
    }
  }
  return spanFrom(prepared, factor, { plates, films }, options);
}

/** Answers in energy coordinates of the plate, and pressures of the film. */
interface Answers {
  readonly plates: readonly Float64Array[];
  readonly films: readonly Float64Array[];
}

/** A basis from answers that are at hand; `factor`: that of the whole stiffness. */
export const basisFrom = (
  prepared: Prepared,
  microphone: Microphone,
  factor: Cholesky,
  answers: Answers,
  options: BasisOptions,
): ReducedBasis => assemble(prepared, microphone, spanFrom(prepared, factor, answers, options)).basis;

function spanFrom(prepared: Prepared, factor: Cholesky, { plates, films }: Answers, options: BasisOptions): Span {
  const kept = orthonormal(plates, options);
  const terms = prepared.film ? prepared.film.across.count * prepared.film.along.count : 0;
  const given = (options.filmTerms ?? []).map((index) => {
    const unit = new Float64Array(terms);
    unit[index] = 1;
    return unit;
  });
  const keptFilm = orthonormal(films, options, given);
  const slow = creepingAnswers(prepared, factor, options.creeping ?? 0);
  const closing = { most: slow.films.length, tolerance: 5e-5 };
  return {
    plate: orthonormal(slow.plates, closing, kept.rows).rows.map((row) => fromEnergy(factor, row)),
    film: orthonormal(slow.films, closing, keptFilm.rows).rows,
    plateRemainders: kept.remainders,
    filmRemainders: keptFilm.remainders,
    remainder: Math.max(kept.remainder, keptFilm.remainder),
  };
}

/** The film's functions of the longest waves, and the plate's static answer to each, of size one. */
function creepingAnswers(prepared: Prepared, factor: Cholesky, count: number): Answers {
  const [plates, films]: [Float64Array[], Float64Array[]] = [[], []];
  if (!prepared.film) return { plates, films };
  const kappa = squaredWavenumbers(prepared);
  const slowest = Array.from(kappa, (value, index) => ({ value, index }))
    .sort((a, b) => a.value - b.value)
    .slice(0, count);
  for (const { index } of slowest) {
    const film = new Float64Array(kappa.length);
    film[index] = 1;
    films.push(film);
    const pressed = fromFilm(prepared.plate, prepared.film, { re: film, im: new Float64Array(film.length) }).re;
    const plate = toEnergy(factor.lower, choleskySolve(factor, pressed));
    const size = 1 / Math.sqrt(squared(plate));
    if (Number.isFinite(size)) plates.push(plate.map((value) => value * size));
  }
  return { plates, films };
}

function byGap(snapshots: readonly Snapshot[]): Map<number, Snapshot[]> {
  const groups = new Map<number, Snapshot[]>();
  for (const snapshot of snapshots) groups.set(snapshot.gap, [...(groups.get(snapshot.gap) ?? []), snapshot]);
  return groups;
}

const withGap = (microphone: Microphone, gap: number): Microphone =>
  microphone.film ? { ...microphone, film: { ...microphone.film, gap } } : microphone;

export function stiffnessFactor(prepared: Prepared) {
  const factor = cholesky(wholeStiffness(prepared), prepared.plate.size);
  if (factor === null) throw new Error("The coupled basis of a plate that is not buckled has a positive stiffness.");
  return { factor, lower: factor.lower };
}

/** L^T q: then the stiffness norm is the plain one. */
export function toEnergy(lower: Float64Array, q: Float64Array): Float64Array {
  const n = q.length;
  const result = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) result[k]! += lower[i * n + k]! * q[i]!;
  return result;
}

/** L^-T v, as K^-1 (L v). */
export function fromEnergy(
  factor: { readonly size: number; readonly lower: Float64Array },
  v: Float64Array,
): Float64Array {
  const n = factor.size;
  const product = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) product[i]! += factor.lower[i * n + k]! * v[k]!;
  return choleskySolve(factor, product);
}

/** Real and imaginary part, both over the size of the whole. */
export function addParts(list: Float64Array[], { re, im }: ComplexVector): void {
  let size = 0;
  for (let i = 0; i < re.length; i++) size += re[i]! ** 2 + im[i]! ** 2;
  if (!(size > 0)) return;
  const factor = 1 / Math.sqrt(size);
  list.push(
    re.map((value) => value * factor),
    im.map((value) => value * factor),
  );
}

/** From this tolerance on the square of a remainder of vectors of size 1 outlives that all parts are taken from its square. */
const coarse = 1e-6;

/**
 * Gram-Schmidt, the largest remainder first; every chosen row is cleaned twice. `remainders`: before each row was chosen. Where the
 * tolerance is coarse the vectors, of size 1, stay as they are and only their remainders are kept account of: a third of the work.
 */
export function orthonormal(
  vectors: readonly Float64Array[],
  { most, tolerance }: Pick<BasisOptions, "most" | "tolerance">,
  given: readonly Float64Array[] = [],
) {
  const counted = tolerance >= coarse;
  const left = counted ? vectors : vectors.map((vector) => Float64Array.from(vector));
  const sizes = Float64Array.from(left, squared);
  const rows: Float64Array[] = [];
  const keep = (row: Float64Array) => {
    rows.push(row);
    for (let i = 0; i < left.length; i++) {
      // What is left of a vector already smaller than what is kept needs no cleaning.
      if (sizes[i]! > tolerance ** 2)
        sizes[i] = counted ? sizes[i]! - dot(left[i]!, row) ** 2 : subtractPart(left[i]!, row);
    }
  };
  given.forEach(keep);
  let remainder = 0;
  const remainders: number[] = [];
  for (;;) {
    let index = -1;
    let largest = 0;
    for (let i = 0; i < sizes.length; i++) if (sizes[i]! > largest) [index, largest] = [i, sizes[i]!];
    remainder = Math.sqrt(largest);
    if (index < 0 || remainder <= tolerance || rows.length === most + given.length) break;
    const row = Float64Array.from(left[index]!);
    for (const other of rows) subtractPart(row, other);
    if (counted) for (const other of rows) subtractPart(row, other);
    const size = 1 / Math.sqrt(squared(row));
    for (let i = 0; i < row.length; i++) row[i]! *= size;
    sizes[index] = 0;
    remainders.push(remainder);
    keep(row);
  }
  return { rows, remainder, remainders };
}

function squared(vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i++) sum += vector[i]! ** 2;
  return sum;
}

/**
 * Takes the part along a unit vector away, in place, and gives the square of what is left. Sums in four: one would wait for itself
 * at every step.
 */
function subtractPart(vector: Float64Array, unit: Float64Array): number {
  const { length } = vector;
  const whole = length - (length % 4);
  let [a, b, c, d] = [0, 0, 0, 0];
  for (let i = 0; i < whole; i += 4) {
    a += vector[i]! * unit[i]!;
    b += vector[i + 1]! * unit[i + 1]!;
    c += vector[i + 2]! * unit[i + 2]!;
    d += vector[i + 3]! * unit[i + 3]!;
  }
  for (let i = whole; i < length; i++) a += vector[i]! * unit[i]!;
  const part = a + b + (c + d);
  [a, b, c, d] = [0, 0, 0, 0];
  for (let i = 0; i < whole; i += 4) {
    const [p, q] = [vector[i]! - part * unit[i]!, vector[i + 1]! - part * unit[i + 1]!];
    const [r, s] = [vector[i + 2]! - part * unit[i + 2]!, vector[i + 3]! - part * unit[i + 3]!];
    vector[i] = p;
    vector[i + 1] = q;
    vector[i + 2] = r;
    vector[i + 3] = s;
    a += p * p;
    b += q * q;
    c += r * r;
    d += s * s;
  }
  for (let i = whole; i < length; i++) {
    const value = vector[i]! - part * unit[i]!;
    vector[i] = value;
    a += value * value;
  }
  return a + b + (c + d);
}

/** Rows of two turns over their common functions, product by product: both stand on the same orthonormal rows. */
function leadingProduct(large: Float64Array, small: Float64Array, width: number): Float64Array {
  if (width === 0) return new Float64Array(0);
  const count = Math.sqrt(large.length);
  const result = new Float64Array(count * width);
  for (let i = 0; i < count; i++) {
    const row = large.subarray(i * count, i * count + width);
    for (let k = 0; k < width; k++) result[i * width + k] = dot(small.subarray(k * width, (k + 1) * width), row);
  }
  return result;
}

/** Diagonalizes both small pencils and couples them. */
function assemble(
  prepared: Prepared,
  microphone: Microphone,
  { plate: plateRows, film: filmRows, remainder }: Span,
): { readonly basis: ReducedBasis; readonly turn: Float64Array; readonly filmTurn: Float64Array } {
  const hole = wallHoleOf(prepared.film, microphone);
  const { plate } = prepared;
  const count = plateRows.length;
  const filmCount = filmRows.length;
  const massOf = plateRows.map((row) => matrixTimes(prepared.mass, row));
  const massEigen = symmetricEigen(gram(plateRows, massOf), count);
  const turned = combine(massEigen.vectors, plateRows);
  const film = prepared.film;
  const wavenumbers = film ? squaredWavenumbers(prepared) : new Float64Array(0);
  const ones = film ? filmOnes(film) : new Float64Array(0);
  const scaled = filmRows.map((row) => row.map((value, m) => value * wavenumbers[m]!));
  const filmEigen = symmetricEigen(gram(filmRows, scaled), filmCount);
  const turnedFilm = combine(filmEigen.vectors, filmRows);
  const coupling = new Float64Array(count * filmCount);
  if (film) {
    turned.forEach((row, i) => {
      const onFilm = projectOnFilm(plate, film, row);
      turnedFilm.forEach((pressure, j) => {
        coupling[i * filmCount + j] = dot(onFilm, pressure);
      });
    });
  }
  const bending = prepared.tension
    ? gram(
        turned,
        turned.map((row) => matrixTimes(prepared.bending, row)),
      )
    : null;
  const basis = {
    count,
    filmCount,
    plate: flat(turned, plate.size),
    film: flat(turnedFilm, wavenumbers.length),
    mass: massEigen.values,
    bending,
    // The mean pressure of a closed film does not flow: what round-off leaves of its wavenumber would let it creep.
    kappa: filmEigen.values.map((value) => (Math.abs(value) < 1e-10 ? 0 : value)),
    coupling,
    load: Float64Array.from(turned, (row) => dot(row, plate.load)),
    ones: Float64Array.from(turnedFilm, (row) => dot(row, ones)),
    relief: film?.relief ? reducedRelief(film.relief, turnedFilm) : null,
    nearField: prepared.nearField,
    hole: hole && { prepared: hole, means: Float64Array.from(turnedFilm, (row) => dot(row, hole.means)) },
    remainder,
  };
  return { basis, turn: massEigen.vectors, filmTurn: filmEigen.vectors };
}

/** The same matrices between functions that are rows of the film's terms. */
function reducedRelief({ index, kappa, mass, ones }: FilmRelief, rows: readonly Float64Array[]): FilmRelief {
  const on = (matrix: Float64Array) =>
    gram(
      rows.map((row) => spread(index, matrix, row, new Float64Array(row.length))),
      rows,
    );
  return {
    index: Int32Array.from(rows.keys()),
    kappa: kappa.map(on),
    mass: mass.map(on),
    ones: ones.map((vector) => Float64Array.from(rows, (row) => dot(row, vector))),
  };
}

/** k_m^2 + k_n^2 of every film term, units of (2 / across)^2. */
export function squaredWavenumbers({ film, shape }: Prepared): Float64Array {
  const along = film!.along.count;
  const result = new Float64Array(film!.across.count * along);
  film!.across.wavenumbers.forEach((kx, m) => {
    film!.along.wavenumbers.forEach((ky, n) => {
      result[m * along + n] = kx * kx + (ky / shape.aspect) ** 2;
    });
  });
  return result;
}

/** Rows of a matrix, as long as the vector, times the vector. */
export function matrixTimes(matrix: Float64Array, vector: Float64Array): Float64Array {
  const width = vector.length;
  const result = new Float64Array(width === 0 ? 0 : matrix.length / width);
  for (let i = 0; i < result.length; i++) {
    let sum = 0;
    for (let k = 0; k < width; k++) sum += matrix[i * width + k]! * vector[k]!;
    result[i] = sum;
  }
  return result;
}

/** All inner products of two lists, row-major. */
export function gram(a: readonly Float64Array[], b: readonly Float64Array[]): Float64Array {
  const n = a.length;
  const result = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) result[i * n + j] = dot(a[i]!, b[j]!);
  return result;
}

/** Rows of coefficients times vectors. */
export function combine(coefficients: Float64Array, vectors: readonly Float64Array[]): Float64Array[] {
  const n = vectors.length;
  return vectors.map((_, i) => {
    const result = new Float64Array(vectors[0]!.length);
    vectors.forEach((vector, k) => {
      const factor = coefficients[i * n + k]!;
      for (let m = 0; m < result.length; m++) result[m]! += factor * vector[m]!;
    });
    return result;
  });
}

function flat(rows: readonly Float64Array[], width: number): Float64Array {
  const result = new Float64Array(rows.length * width);
  rows.forEach((row, i) => {
    result.set(row, i * width);
  });
  return result;
}

export function dot(a: Float64Array, b: Float64Array): number {
  // Two sums, so that one need not wait for the other.
  let sum = 0;
  let other = 0;
  const last = a.length - (a.length % 2);
  for (let i = 0; i < last; i += 2) {
    sum += a[i]! * b[i]!;
    other += a[i + 1]! * b[i + 1]!;
  }
  return last < a.length ? sum + other + a[last]! * b[last]! : sum + other;
}
