/**
 * How plate, film and the air around move by themselves at a pole, and the pole with it, by Rayleigh's quotient.
 *
 * With the film's pressures p and those in front and behind kept beside the deflection q, the device is one symmetric form
 *
 *     R(omega; x) = (1 + i eta) q K_b q + q K_t q - Lambda q M q + 2 q C p - perK p kappa p - uniform p p
 *                   - 2 (p_f - p_b) F q - 2 comp p_b 1 p - y_ff p_f^2 + 2 y_fb p_f p_b - y_bb p_b^2 - 2 u g p + z u^2
 *
 * and over an uneven film, with the matrices of relief.ts for each of its gaps,
 *
 *                     - sum_j perK_j p K_j p + uniform_j p M_j p + 2 comp_j p_b 1 M_j p
 *
 * x = (q, p, p_f, p_b, u), u the flow through the one hole of a wall, where there is one; ten sums of x and as many functions of omega, none of them infinite where a film mode is. It vanishes at a
 * pole, and is stationary there: a motion wrong by e gives the pole to e^2. Between two quotients the motion is improved by
 * inverse iteration, T(omega) x_new = T'(omega) x; together that converges with the third power.
 * Derivation: docs/theory/poles.md. Source: Rayleigh quotient iteration, [parlett-1980] (from memory, to be confirmed).
 */

import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { type ComplexVector, complexVector } from "../../numerics/complexSymmetric.ts";
import { cos } from "../../numerics/sine.ts";
import type { PlateScales } from "../../parts/diaphragm/shape.ts";
import type { FilmLayer } from "../../parts/film/coefficients.ts";
import type { Microphone } from "../microphone.ts";
import { filmNumbers } from "../system/coupled.ts";
import { hasNetwork, inner, lumpedParts } from "../system/network.ts";
import {
  evenly,
  type FilmPiece,
  type FilmRelief,
  pressPlainly,
  pressThrough,
  type ReliefSystem,
} from "../system/relief.ts";
import { drain, type Sink } from "../system/wallHole.ts";

/** A model of the device as that form: on the whole basis or a reduced one. */
export interface Form {
  readonly microphone: Microphone;
  readonly scales: PlateScales;
  /** That of CoupledState. */
  readonly layer: FilmLayer | null;
  /** That of `Prepared`. */
  readonly nearField: number | null;
  /** Fills and factors the plate with the film eliminated at a frequency [rad/s]. */
  readonly set: (omega: Complex) => void;
  /**
   * Answer to a force at the frequency that was set, in its place. Next to a pole it is as large as the matrix is singular, and its
   * direction is what counts: no check of the residual.
   */
  readonly solve: (force: ComplexVector) => void;
  /** 1 / (perK kappa + uniform) of every film function at that frequency. */
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
  readonly kappa: Float64Array;
  readonly ones: Float64Array;
  /** F */
  readonly load: Float64Array;
  /** K_b q, (K_b + K_t) q and M q. */
  readonly bending: (q: ComplexVector) => ComplexVector;
  readonly stiffness: (q: ComplexVector) => ComplexVector;
  readonly mass: (q: ComplexVector) => ComplexVector;
  /** C^T q. */
  readonly toFilm: (q: ComplexVector) => ComplexVector;
  /** Adds C p to a force on the plate. */
  readonly push: (p: ComplexVector, force: ComplexVector) => void;
  /** The film's answers where its gap is uneven, at the frequency that was set; null: one for each function. */
  readonly relief: ReliefSystem | null;
  /** The one hole in the wall; null without. */
  readonly hole: HoleForm | null;
}

interface HoleForm {
  /** g */
  readonly means: Float64Array;
  /** What it takes at the frequency that was set. */
  readonly sink: () => Sink | null;
  /** z, its impedance beyond the film's own functions. */
  readonly beyond: (omega: Complex) => Complex;
}

/** A free motion e^(i omega t), in units of its own. */
export interface OwnMotion {
  /** The pole [rad/s]. */
  readonly omega: Complex;
  readonly plate: ComplexVector;
  readonly film: ComplexVector;
  readonly front: Complex;
  readonly back: Complex;
  /** Flow through the one hole of the wall; 0 without. */
  readonly through: Complex;
  /** dR / d omega at the pole, for this motion's size [s/rad]. */
  readonly slope: Complex;
}

/** A motion that was just polished. */
export interface Polished extends OwnMotion {
  /** Where the form was factored last: its factors still stand there [rad/s]. */
  readonly factoredAt: Complex;
}

/** The functions of omega in the form. */
interface Coefficients {
  readonly lambda: Complex;
  readonly perK: Complex;
  readonly uniform: Complex;
  readonly compression: Complex;
  readonly front: Complex;
  readonly between: Complex;
  readonly back: Complex;
  readonly hole: Complex;
  /** Of each gap of an uneven film. */
  readonly pieces: readonly FilmPiece[];
}

const zero = complex(0);

function coefficientsAt({ microphone, scales, layer, nearField, hole: inWall }: Form, omega: Complex): Coefficients {
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const film = microphone.film
    ? filmNumbers(microphone, scales, omega, layer)
    : { perK: zero, uniform: zero, compression: zero, chi: zero, pieces: [] };
  const { perK, uniform, compression, pieces } = film;
  const hole = inWall ? inWall.beyond(omega) : zero;
  if (!hasNetwork(microphone)) {
    return { lambda, perK, uniform, compression, front: zero, between: zero, back: zero, hole, pieces };
  }
  const quarter = (microphone.diaphragm.across * microphone.diaphragm.along) / 4;
  const flow = multiply(complex(0, quarter * scales.deflection), omega);
  const { front, back, between } = lumpedParts(microphone, omega, nearField);
  const over = (value: Complex) => divide(value, flow);
  return {
    lambda,
    perK,
    uniform,
    compression,
    front: front ? over(add(front.own, between)) : zero,
    between: over(between),
    back: back ? over(add(add(back.own, between), scale(film.chi, 4 * quarter))) : zero,
    hole,
    pieces,
  };
}

/** The sums of a motion that the form needs. */
interface Sums {
  readonly fixed: Complex;
  readonly mass: Complex;
  readonly kappa: Complex;
  readonly film: Complex;
  readonly compression: Complex;
  readonly front: Complex;
  readonly between: Complex;
  readonly back: Complex;
  readonly hole: Complex;
  readonly pieces: readonly { readonly kappa: Complex; readonly film: Complex; readonly compression: Complex }[];
}

/** Plate, film and air in motion. */
export type Parts = Pick<OwnMotion, "plate" | "film" | "front" | "back" | "through">;

/** The same with C^T q. */
interface Moving extends Parts {
  readonly onFilm: ComplexVector;
}

function sumsOf(form: Form, { plate, film, front, back, through, onFilm }: Moving): Sums {
  const { microphone, kappa, ones, load } = form;
  const eta = microphone.diaphragm.lossFactor;
  const pressed = real(load, plate);
  const { re: filmRe, im: filmIm } = film;
  let [kRe, kIm, pRe, pIm, oneRe, oneIm] = [0, 0, 0, 0, 0, 0];
  for (let j = 0; j < filmRe.length; j++) {
    const re = filmRe[j]!;
    const im = filmIm[j]!;
    const squareRe = re * re - im * im;
    const squareIm = 2 * re * im;
    pRe += squareRe;
    pIm += squareIm;
    kRe += kappa[j]! * squareRe;
    kIm += kappa[j]! * squareIm;
    oneRe += ones[j]! * re;
    oneIm += ones[j]! * im;
  }
  let fixed = inner(form.stiffness(plate), plate);
  if (eta !== 0) fixed = add(fixed, multiply(complex(0, eta), inner(form.bending(plate), plate)));
  fixed = add(fixed, scale(inner(onFilm, film), 2));
  fixed = add(fixed, scale(multiply(pressed, subtract(back, front)), 2));
  if (form.hole) fixed = subtract(fixed, scale(multiply(through, real(form.hole.means, film)), 2));
  return {
    fixed,
    mass: inner(form.mass(plate), plate),
    kappa: { re: kRe, im: kIm },
    film: { re: pRe, im: pIm },
    compression: scale(multiply(back, { re: oneRe, im: oneIm }), 2),
    front: multiply(front, front),
    between: scale(multiply(front, back), 2),
    back: multiply(back, back),
    hole: multiply(through, through),
    pieces: form.relief ? piecesOf(form.relief.matrices, film, back) : [],
  };
}

/** What a film's pressure does at each gap of an uneven film. */
function piecesOf({ index, kappa, mass, ones }: FilmRelief, film: ComplexVector, back: Complex): Sums["pieces"] {
  const form = (matrix: Float64Array): Complex => {
    const size = index.length;
    let [re, im] = [0, 0];
    for (let a = 0; a < size; a++) {
      let [x, y] = [0, 0];
      for (let b = 0; b < size; b++) {
        x += matrix[a * size + b]! * film.re[index[b]!]!;
        y += matrix[a * size + b]! * film.im[index[b]!]!;
      }
      const [p, q] = [film.re[index[a]!]!, film.im[index[a]!]!];
      re += x * p - y * q;
      im += x * q + y * p;
    }
    return { re, im };
  };
  return kappa.map((matrix, j) => ({
    kappa: form(matrix),
    film: form(mass[j]!),
    compression: scale(multiply(back, real(ones[j]!, film)), 2),
  }));
}

function real(row: Float64Array, q: ComplexVector): Complex {
  let [re, im] = [0, 0];
  for (let i = 0; i < row.length; i++) {
    re += row[i]! * q.re[i]!;
    im += row[i]! * q.im[i]!;
  }
  return { re, im };
}

/** R(omega) of a motion with these sums. */
function quotient(form: Form, sums: Sums, omega: Complex): Complex {
  const at = coefficientsAt(form, omega);
  const value = Float64Array.of(sums.fixed.re, sums.fixed.im);
  addProduct(value, -1, at.lambda, sums.mass);
  addProduct(value, -1, at.perK, sums.kappa);
  addProduct(value, -1, at.uniform, sums.film);
  for (let j = 0; j < sums.pieces.length; j++) {
    addProduct(value, -1, at.pieces[j]!.perK, sums.pieces[j]!.kappa);
    addProduct(value, -1, at.pieces[j]!.uniform, sums.pieces[j]!.film);
    addProduct(value, -1, at.pieces[j]!.compression, sums.pieces[j]!.compression);
  }
  if (hasNetwork(form.microphone)) {
    addProduct(value, -1, at.compression, sums.compression);
    addProduct(value, -1, at.front, sums.front);
    addProduct(value, -1, at.back, sums.back);
    addProduct(value, 1, at.between, sums.between);
  }
  if (form.hole) addProduct(value, 1, at.hole, sums.hole);
  return complex(value[0]!, value[1]);
}

/**
 * sum += sign a b, in place: the quotient is computed some ten times a step. Not in a `Complex`: where one of them changes, V8
 * compiles all that reads complex numbers anew.
 */
function addProduct(sum: Float64Array, sign: number, a: Complex, b: Complex): void {
  sum[0]! += sign * (a.re * b.re - a.im * b.im);
  sum[1]! += sign * (a.re * b.im + a.im * b.re);
}

/** Relative step of a derivative by central differences: good to 1e-9. */
const derivativeStep = 1e-4;

/** dR / d omega. */
function slopeOf(form: Form, sums: Sums, omega: Complex): Complex {
  const above = quotient(form, sums, scale(omega, 1 + derivativeStep));
  const below = quotient(form, sums, scale(omega, 1 - derivativeStep));
  return divide(subtract(above, below), scale(omega, 2 * derivativeStep));
}

/** Root of the quotient next to a frequency, by the secant; null where there is none near. */
function rootOf(form: Form, sums: Sums, start: Complex): Complex | null {
  let before = start;
  let valueBefore = quotient(form, sums, before);
  let here = scale(start, 1 + 1e-4);
  let moved = absolute(subtract(here, start));
  for (let step = 0; step < 12; step++) {
    const value = quotient(form, sums, here);
    const change = divide(multiply(value, subtract(here, before)), subtract(value, valueBefore));
    if (!Number.isFinite(change.re) || !Number.isFinite(change.im)) return null;
    before = here;
    valueBefore = value;
    here = subtract(here, change);
    if (absolute(subtract(here, start)) > farthest * absolute(start)) return null;
    // What the secant leaves is about the product of its last two steps.
    const left = moved * absolute(change);
    if (left < 1e-12 * (here.re * here.re + here.im * here.im)) return here;
    moved = absolute(change);
  }
  return null;
}

/** A pole is looked for no farther from its start than this share of it. */
const farthest = 0.3;

/**
 * The pole that a start leads to, with its motion; null where it leads nowhere within a third of itself. `like` is a motion to
 * begin with, `steps` the factorizations at most. It ends where the pole moves by less than `within` of itself, or where its
 * error is estimated to be below `off`: a step that turns the motion by an angle e and moves the pole by d leaves about e^4 d.
 */
export function ownMotion(
  form: Form,
  start: Complex,
  options: { readonly like?: Parts; readonly within?: number; readonly off?: number; readonly steps?: number } = {},
): Polished | null {
  const { off = 0, steps = 8 } = options;
  const within = options.within ?? (off > 0 ? 0 : 1e-6);
  const like = options.like ?? null;
  let parts: Moving | null = like && { ...like, onFilm: form.toFilm(like.plate) };
  let omega = start;
  if (parts) {
    // A motion whose quotient has no root near is none of this device.
    const root = rootOf(form, sumsOf(form, parts), start);
    if (root === null) return null;
    omega = root;
  }
  for (let step = 0; step < steps; step++) {
    const factoredAt = omega;
    const before = parts;
    parts = improved(form, omega, parts);
    if (parts === null) return null;
    const sums = sumsOf(form, parts);
    const next = rootOf(form, sums, omega);
    if (next === null) continue;
    const moved = absolute(subtract(next, omega)) / absolute(next);
    omega = next;
    if (absolute(subtract(omega, start)) > farthest * absolute(start)) return null;
    const turned = before ? turnedBy(before, parts) : 1;
    // Half of each of two motions may lie still between their poles; the next step turns it.
    if (turned < mostTurned && (moved < within || turned ** 2 * moved < off)) {
      const { plate, film, front, back, through } = parts;
      return { omega, plate, film, front, back, through, slope: slopeOf(form, sums, omega), factoredAt };
    }
  }
  return null;
}

/** e^2 beyond which a motion has not settled on one pole, whatever its quotient does. */
const mostTurned = 0.1;

/** sin^2 of the angle between two motions of plate and film. */
function turnedBy(a: Parts, b: Parts): number {
  const plate = overlap(a.plate, b.plate);
  const film = overlap(a.film, b.film);
  const [re, im] = [plate.re + film.re, plate.im + film.im];
  return 1 - (re * re + im * im) / ((plate.first + film.first) * (plate.second + film.second));
}

/** a^H b, and the squares of their sizes. */
function overlap({ re: aRe, im: aIm }: ComplexVector, { re: bRe, im: bIm }: ComplexVector) {
  let [first, second, re, im] = [0, 0, 0, 0];
  for (let i = 0; i < aRe.length; i++) {
    const p = aRe[i]!;
    const q = aIm[i]!;
    const r = bRe[i]!;
    const s = bIm[i]!;
    first += p * p + q * q;
    second += r * r + s * s;
    re += p * r + q * s;
    im += p * s - q * r;
  }
  return { first, second, re, im };
}

/** Solves T(omega) x_new = T'(omega) x; without x for a right side that holds something of every motion. Scaled to size 1. */
function improved(form: Form, omega: Complex, parts: Parts | null): Moving | null {
  form.set(omega);
  const sink = form.hole?.sink() ?? null;
  const { force, source, front: atFront, back: atBack, through: atHole } = rightSide(form, omega, parts);
  // p = (C^T q - comp 1 p_b - source - g u) / d, put into the plate's rows; what the source presses through the hole goes out.
  const turned = pressed(form, copyOf(source));
  const holeDriven = sink ? subtract(real(form.hole!.means, turned), atHole) : zero;
  if (sink) drain(turned, sink.film, holeDriven, sink.impedance);
  form.push(turned, force);
  form.solve(force);
  const plate = force;
  let [front, back] = [zero, zero];
  let stores: ComplexVector | null = null;
  if (hasNetwork(form.microphone)) {
    const at = coefficientsAt(form, omega);
    stores = storesOf(form, at);
    ({ front, back } = joinAir(form, at, plate, { stores, turned, atFront, atBack }));
  }
  const onFilm = form.toFilm(plate);
  const film = pressed(form, difference(onFilm, source, stores, back));
  let through = zero;
  if (sink) {
    const driven = add(real(form.hole!.means, film), atHole);
    through = divide(driven, sink.impedance);
    drain(film, sink.film, driven, sink.impedance);
  }
  return sizedOne({ plate, film, front, back, through, onFilm });
}

const copyOf = ({ re, im }: ComplexVector): ComplexVector => ({ re: re.slice(), im: im.slice() });

/** a - b - c factor; without c where it is null. */
function difference(a: ComplexVector, b: ComplexVector, c: ComplexVector | null, factor: Complex): ComplexVector {
  const re = new Float64Array(a.re.length);
  const im = new Float64Array(a.re.length);
  for (let j = 0; j < re.length; j++) {
    const x = c ? c.re[j]! : 0;
    const y = c ? c.im[j]! : 0;
    re[j] = a.re[j]! - b.re[j]! - (x * factor.re - y * factor.im);
    im[j] = a.im[j]! - b.im[j]! - (x * factor.im + y * factor.re);
  }
  return { re, im };
}

function rightSide(form: Form, omega: Complex, parts: Parts | null) {
  if (parts === null) {
    // Something of every function, so that no motion is missing; not derived.
    const some = (count: number, turn: number): ComplexVector => ({
      re: Float64Array.from({ length: count }, (_, i) => cos(turn * (i + 1))),
      im: new Float64Array(count),
    });
    return {
      force: some(form.load.length, 1.3),
      source: some(form.kappa.length, 0.7),
      front: complex(1),
      back: zero,
      through: zero,
    };
  }
  const above = coefficientsAt(form, scale(omega, 1 + derivativeStep));
  const below = coefficientsAt(form, scale(omega, 1 - derivativeStep));
  const over = scale(omega, 2 * derivativeStep);
  const slope = (name: Exclude<keyof Coefficients, "pieces">) => divide(subtract(above[name], below[name]), over);
  const [lambda, perK, uniform, compression] = [slope("lambda"), slope("perK"), slope("uniform"), slope("compression")];
  const force = form.mass(parts.plate);
  for (let i = 0; i < force.re.length; i++) {
    const [re, im] = [force.re[i]!, force.im[i]!];
    force.re[i] = lambda.im * im - lambda.re * re;
    force.im[i] = -lambda.re * im - lambda.im * re;
  }
  const { front, back } = parts;
  const pieces = above.pieces.map((up, j) => {
    const down = below.pieces[j]!;
    const change = (name: keyof FilmPiece) => divide(subtract(up[name], down[name]), over);
    return { perK: change("perK"), uniform: change("uniform"), compression: change("compression") };
  });
  const drop = multiply(compression, back);
  const { kappa, ones } = form;
  const { re: filmRe, im: filmIm } = parts.film;
  const source = complexVector(kappa.length);
  let [onesRe, onesIm] = [0, 0];
  for (let j = 0; j < kappa.length; j++) {
    const re = filmRe[j]!;
    const im = filmIm[j]!;
    const one = ones[j]!;
    const dRe = perK.re * kappa[j]! + uniform.re;
    const dIm = perK.im * kappa[j]! + uniform.im;
    source.re[j] = dIm * im - dRe * re - drop.re * one;
    source.im[j] = -dRe * im - dIm * re - drop.im * one;
    onesRe += one * re;
    onesIm += one * im;
  }
  const even = multiply(compression, complex(onesRe, onesIm));
  const stored = form.relief ? add(even, addPieces(form.relief.matrices, pieces, { ...parts, source })) : even;
  return {
    force,
    source,
    front: subtract(multiply(slope("between"), back), multiply(slope("front"), front)),
    back: subtract(subtract(multiply(slope("between"), front), multiply(slope("back"), back)), stored),
    through: form.hole ? multiply(slope("hole"), parts.through) : zero,
  };
}

/** Takes what an uneven film's pieces do to a motion from the source, in place; gives what they store of its pressure. */
function addPieces(
  { index, kappa, mass, ones }: FilmRelief,
  pieces: readonly FilmPiece[],
  { film, back, source }: Pick<Parts, "film" | "back"> & { readonly source: ComplexVector },
): Complex {
  const size = index.length;
  let stored = zero;
  for (const [j, { perK, uniform, compression }] of pieces.entries()) {
    const [k, m, one] = [kappa[j]!, mass[j]!, ones[j]!];
    for (let a = 0; a < size; a++) {
      let [kRe, kIm, mRe, mIm] = [0, 0, 0, 0];
      for (let b = 0; b < size; b++) {
        const [re, im] = [film.re[index[b]!]!, film.im[index[b]!]!];
        kRe += k[a * size + b]! * re;
        kIm += k[a * size + b]! * im;
        mRe += m[a * size + b]! * re;
        mIm += m[a * size + b]! * im;
      }
      source.re[index[a]!]! -= perK.re * kRe - perK.im * kIm + uniform.re * mRe - uniform.im * mIm;
      source.im[index[a]!]! -= perK.re * kIm + perK.im * kRe + uniform.re * mIm + uniform.im * mRe;
    }
    const drop = multiply(compression, back);
    for (let i = 0; i < one.length; i++) {
      source.re[i]! -= drop.re * one[i]!;
      source.im[i]! -= drop.im * one[i]!;
    }
    stored = add(stored, multiply(compression, real(one, film)));
  }
  return stored;
}

/** What an even pressure stores in the film, function by function, over i omega s. */
const storesOf = ({ ones, relief }: Form, at: Coefficients): ComplexVector =>
  evenly(
    ones,
    relief?.matrices ?? null,
    at.compression,
    at.pieces.map(({ compression }) => compression),
  );

/** The film's answer to a vector on its functions, at the frequency that was set; overwrites and returns it. */
function pressed({ filmRe, filmIm, relief }: Form, vector: ComplexVector): ComplexVector {
  const plain = { re: filmRe, im: filmIm };
  if (relief) pressThrough(relief, plain, vector);
  else pressPlainly(plain, vector);
  return vector;
}

/** Adds what the pressures in front and behind do to the plate, in place, and gives them. */
function joinAir(
  form: Form,
  at: Coefficients,
  plate: ComplexVector,
  given: {
    readonly stores: ComplexVector;
    readonly turned: ComplexVector;
    readonly atFront: Complex;
    readonly atBack: Complex;
  },
): { readonly front: Complex; readonly back: Complex } {
  const { microphone, load } = form;
  const { stores } = given;
  const hasFront = microphone.front !== null || form.nearField !== null;
  const count = load.length;
  const drop = pressed(form, copyOf(stores));
  const sink = form.hole?.sink() ?? null;
  if (sink) drain(drop, sink.film, real(form.hole!.means, drop), sink.impedance);
  const [spread, sourced] = [inner(stores, drop), inner(stores, given.turned)];
  const byFilm = complexVector(count);
  form.push(drop, byFilm);
  const onFront = { re: load.slice(), im: new Float64Array(count) };
  const loadBack = difference(onFront, byFilm, null, zero);
  const onBack = copyOf(loadBack);
  form.solve(onFront);
  form.solve(onBack);
  // Rows of p_f and p_b with q = q_u + p_f q_F - p_b q_B.
  const ff = subtract(scale(real(load, onFront), -1), at.front);
  const fb = add(real(load, onBack), at.between);
  const bb = subtract(add(scale(inner(loadBack, onBack), -1), spread), at.back);
  const rightFront = add(given.atFront, real(load, plate));
  const rightBack = subtract(subtract(given.atBack, inner(loadBack, plate)), sourced);
  let [front, back] = [zero, zero];
  if (hasFront && microphone.back) {
    const determinant = subtract(multiply(ff, bb), multiply(fb, fb));
    front = divide(subtract(multiply(rightFront, bb), multiply(fb, rightBack)), determinant);
    back = divide(subtract(multiply(ff, rightBack), multiply(fb, rightFront)), determinant);
  } else if (hasFront) front = divide(rightFront, ff);
  else back = divide(rightBack, bb);
  for (let i = 0; i < count; i++) {
    plate.re[i]! +=
      front.re * onFront.re[i]! - front.im * onFront.im[i]! - back.re * onBack.re[i]! + back.im * onBack.im[i]!;
    plate.im[i]! +=
      front.re * onFront.im[i]! + front.im * onFront.re[i]! - back.re * onBack.im[i]! - back.im * onBack.re[i]!;
  }
  return { front, back };
}

/** Divides by the size of plate and film together; null where there is none. */
function sizedOne({ plate, film, front, back, through, onFilm }: Moving): Moving | null {
  const factor = 1 / Math.sqrt(squaredSize(plate) + squaredSize(film));
  if (!Number.isFinite(factor) || !(factor > 0)) return null;
  for (const vector of [plate, film, onFilm]) scaleVector(vector, factor);
  return {
    plate,
    film,
    front: scale(front, factor),
    back: scale(back, factor),
    through: scale(through, factor),
    onFilm,
  };
}

function squaredSize({ re, im }: ComplexVector): number {
  let squared = 0;
  for (let i = 0; i < re.length; i++) squared += re[i]! * re[i]! + im[i]! * im[i]!;
  return squared;
}

function scaleVector({ re, im }: ComplexVector, factor: number): void {
  for (let i = 0; i < re.length; i++) {
    re[i]! *= factor;
    im[i]! *= factor;
  }
}
