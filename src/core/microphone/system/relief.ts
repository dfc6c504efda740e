/**
 * The film under a plate that is bent at rest: its functions of low wavenumber are coupled by the uneven gap, the others not.
 *
 *     D = diag(perK k^2 + uniform) + sum_j perK_j K_j + uniform_j M_j   on the low functions (parts/film/relief.ts)
 *
 * perK and uniform the means over the area, perK_j and uniform_j those of the gap h_j. Factored once a frequency; its answers
 * take the place of 1 / d for these functions. Derivation: docs/theory/film.md.
 */
import type { Complex } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  factorSymmetric,
  type SymmetricWork,
  solveFactored,
  symmetricWork,
} from "../../numerics/complexSymmetric.ts";
import { plate } from "../../parts/diaphragm/plate.ts";
import { valuesAt } from "../../parts/diaphragm/polynomials.ts";
import { plateShape } from "../../parts/diaphragm/shape.ts";
import type { Film } from "../../parts/film/film.ts";
import { type GapField, gapField, quarterPoints, type ReliefMatrices } from "../../parts/film/relief.ts";
import type { Microphone } from "../microphone.ts";
import type { Rest } from "../rest/rest.ts";

/** Functions of a film that feel where its gap is wide. */
export const lowFunctions = 28;

/** Points of a quarter a direction: enough for the third power of the deflection times the functions that feel it. */
const points = quarterPoints(24);

// A state never changes, so its gap is read once.
const read = new WeakMap<Rest, GapField>();

/** How the gap departs from its mean under a plate at rest, over the plate's thickness. */
export function reliefField(rest: Rest, diaphragm: Microphone["diaphragm"]): GapField {
  const known = read.get(rest);
  if (known) return known;
  const functions = Math.round(Math.sqrt(rest.unknowns.length));
  const { across, along } = plate(plateShape(diaphragm), { across: "even", along: "even", functions });
  const [x, y] = [across, along].map((basis) => Array.from(points.nodes, (xi) => valuesAt(basis, xi).value)) as [
    Float64Array[],
    Float64Array[],
  ];
  const n = points.nodes.length;
  const height = new Float64Array(n * n);
  for (let p = 0; p < n; p++) {
    // The functions across summed first.
    const row = new Float64Array(functions);
    for (let i = 0; i < functions; i++) {
      for (let j = 0; j < functions; j++) row[j]! += x[p]![i]! * rest.unknowns[i * functions + j]!;
    }
    for (let q = 0; q < n; q++) for (let j = 0; j < functions; j++) height[p * n + q]! -= row[j]! * y[q]![j]!;
  }
  const field = gapField(points, height);
  read.set(rest, field);
  return field;
}

/** The matrices of `reliefMatrices`, and what they make of an even pressure. Plain typed arrays. */
export interface FilmRelief extends ReliefMatrices {
  /** (M_j less its share) times the integrals of the functions, one vector on all functions a gap. */
  readonly ones: readonly Float64Array[];
}

export const withOnes = (matrices: ReliefMatrices, ones: Float64Array): FilmRelief => ({
  ...matrices,
  ones: matrices.mass.map((mass) => spread(matrices.index, mass, ones, new Float64Array(ones.length))),
});

/** The gap's departure from its mean at one place [m], over the plate's thickness. */
export function reliefAt(rest: Rest, diaphragm: Microphone["diaphragm"], [x, y]: readonly [number, number]): number {
  const functions = Math.round(Math.sqrt(rest.unknowns.length));
  const { across, along } = plate(plateShape(diaphragm), { across: "even", along: "even", functions });
  const phi = valuesAt(across, (2 * x) / diaphragm.across).value;
  const psi = valuesAt(along, (2 * y) / diaphragm.along).value;
  let height = rest.mean;
  for (let i = 0; i < functions; i++)
    for (let j = 0; j < functions; j++) height -= rest.unknowns[i * functions + j]! * phi[i]! * psi[j]!;
  return height;
}

/** A film as if its gap were the mean everywhere. */
export const levelled = ({ relief: _, ...film }: Film): Film => film;

/** The same microphone with such a film. */
export const withLevelFilm = (microphone: Microphone): Microphone =>
  microphone.film?.relief ? { ...microphone, film: levelled(microphone.film) } : microphone;

/** The film's two functions at one gap, as `filmNumbers` has them. */
export interface FilmPiece {
  readonly perK: Complex;
  readonly uniform: Complex;
  readonly compression: Complex;
}

/** The coupled functions of a film at one frequency. */
export interface ReliefSystem {
  readonly matrices: FilmRelief;
  readonly work: SymmetricWork;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Room for one vector on these functions. */
  readonly part: ComplexVector;
}

export function reliefSystem(matrices: FilmRelief): ReliefSystem {
  const size = matrices.index.length;
  return {
    matrices,
    work: symmetricWork(size),
    re: new Float64Array(size * size),
    im: new Float64Array(size * size),
    part: { re: new Float64Array(size), im: new Float64Array(size) },
  };
}

/**
 * Fills and factors D; `kSquared` of all functions of the film. Afterwards the plain answers 1 / d of the coupled functions,
 * which are in `plain`, are zero: theirs are in the factors.
 */
export function setRelief(
  { matrices, work, re, im }: ReliefSystem,
  kSquared: (at: number) => number,
  given: {
    readonly perK: Complex;
    readonly uniform: Complex;
    readonly pieces: readonly FilmPiece[];
    readonly plain: ComplexVector;
  },
): void {
  const { index } = matrices;
  const { plain } = given;
  fillRelief(matrices, kSquared, given, { re, im, width: index.length });
  for (let a = 0; a < index.length; a++) {
    plain.re[index[a]!] = 0;
    plain.im[index[a]!] = 0;
  }
  factorSymmetric(work, re, im);
}

/** D into the first rows and columns of a matrix of `width`, row-major, lower triangle. */
export function fillRelief(
  { index, kappa, mass }: FilmRelief,
  kSquared: (at: number) => number,
  given: { readonly perK: Complex; readonly uniform: Complex; readonly pieces: readonly FilmPiece[] },
  { re, im, width }: ComplexVector & { readonly width: number },
): void {
  const { perK, uniform, pieces } = given;
  const size = index.length;
  // Two gaps at a time: their number is even.
  for (let j = 0; j < pieces.length; j += 2) {
    const { perK: k, uniform: u } = pieces[j]!;
    const { perK: l, uniform: v } = pieces[j + 1]!;
    const [kRe, kIm, lRe, lIm] = [k.re, k.im, l.re, l.im];
    const [uRe, uIm, vRe, vIm] = [u.re, u.im, v.re, v.im];
    const kRow = kappa[j]!;
    const lRow = kappa[j + 1]!;
    const uRow = mass[j]!;
    const vRow = mass[j + 1]!;
    for (let a = 0; a < size; a++) {
      const end = a * size + a;
      for (let at = a * size, to = a * width; at <= end; at++, to++) {
        const x = kRow[at]!;
        const y = lRow[at]!;
        const z = uRow[at]!;
        const w = vRow[at]!;
        const ofRe = kRe * x + lRe * y + uRe * z + vRe * w;
        const ofIm = kIm * x + lIm * y + uIm * z + vIm * w;
        re[to] = j === 0 ? ofRe : re[to]! + ofRe;
        im[to] = j === 0 ? ofIm : im[to]! + ofIm;
      }
    }
  }
  for (let a = 0; a < size; a++) {
    const at = a * width + a;
    const k = kSquared(index[a]!);
    re[at]! += perK.re * k + uniform.re;
    im[at]! += perK.im * k + uniform.im;
  }
}

/** D^-1 of a vector on all functions of the film, in place; `plain` the answers of those that are not coupled. */
export function pressThrough(
  { matrices, work, part }: ReliefSystem,
  plain: ComplexVector,
  vector: ComplexVector,
): void {
  const { index } = matrices;
  for (let a = 0; a < index.length; a++) {
    part.re[a] = vector.re[index[a]!]!;
    part.im[a] = vector.im[index[a]!]!;
  }
  solveFactored(work, part);
  pressPlainly(plain, vector);
  for (let a = 0; a < index.length; a++) {
    vector.re[index[a]!] = part.re[a]!;
    vector.im[index[a]!] = part.im[a]!;
  }
}

/** The same of a film of one gap: each function by itself. */
export function pressPlainly(plain: ComplexVector, vector: ComplexVector): void {
  const { re: dRe, im: dIm } = plain;
  const { re: pRe, im: pIm } = vector;
  for (let m = 0; m < dRe.length; m++) {
    const [re, im] = [pRe[m]!, pIm[m]!];
    pRe[m] = dRe[m]! * re - dIm[m]! * im;
    pIm[m] = dRe[m]! * im + dIm[m]! * re;
  }
}

/** Room for answers to rows on the coupled functions, and a view of each of them. */
export interface RowAnswers extends ComplexVector {
  readonly each: readonly ComplexVector[];
}

export function rowAnswers({ work }: ReliefSystem, { re, im }: ComplexVector): RowAnswers {
  const { size } = work;
  const each = Array.from({ length: size === 0 ? 0 : re.length / size }, (_, i) => ({
    re: re.subarray(i * size, (i + 1) * size),
    im: im.subarray(i * size, (i + 1) * size),
  }));
  return { re, im, each };
}

/** D^-1 of real rows on the coupled functions, into `answers`. */
export function pressRows({ work }: ReliefSystem, rows: Float64Array, answers: RowAnswers): void {
  answers.re.set(rows);
  answers.im.fill(0);
  for (let i = 0; i < answers.each.length; i++) solveFactored(work, answers.each[i]!);
}

/** matrix times the coupled part of a vector, added to `into` at the coupled functions. */
export function spread(
  index: Int32Array,
  matrix: Float64Array,
  vector: Float64Array,
  into: Float64Array,
): Float64Array {
  const size = index.length;
  for (let a = 0; a < size; a++) {
    let sum = 0;
    for (let b = 0; b < size; b++) sum += matrix[a * size + b]! * vector[index[b]!]!;
    into[index[a]!]! += sum;
  }
  return into;
}

/** What an even pressure moves, function by function: `mean` times 1, and what the pieces of an uneven film do besides. */
export function evenly(
  ones: Float64Array,
  relief: FilmRelief | null,
  mean: Complex,
  pieces: readonly Complex[],
): ComplexVector {
  const { length } = ones;
  const [re, im] = [new Float64Array(length), new Float64Array(length)];
  for (let m = 0; m < length; m++) {
    re[m] = mean.re * ones[m]!;
    im[m] = mean.im * ones[m]!;
  }
  if (!relief) return { re, im };
  for (let j = 0; j < pieces.length; j++) {
    const { re: x, im: y } = pieces[j]!;
    const row = relief.ones[j]!;
    for (let m = 0; m < length; m++) {
      re[m]! += x * row[m]!;
      im[m]! += y * row[m]!;
    }
  }
  return { re, im };
}
