/** Plate and film of one microphone in a reduced basis: the same questions as coupled.ts, some twenty times faster. */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  factorReal,
  factorSymmetric,
  solveFactored,
  symmetricForms,
} from "../../numerics/complexSymmetric.ts";
import { type Room, sharedRoom } from "../../numerics/room.ts";
import { realRowProducts, rowProducts } from "../../numerics/rowProducts.ts";
import {
  fillOwnProducts,
  fillProducts,
  realWeightedSums,
  roomForSums,
  type SumTable,
  sumTable,
  weightedSums,
} from "../../numerics/weightedSums.ts";
import type { Microphone } from "../microphone.ts";
import { type BackLoad, filmNumbers } from "../system/coupled.ts";
import { type CoupledState, coupledState, flowPerAnswer, numbersOf } from "../system/coupledState.ts";
import type { Line } from "../system/line.ts";
import {
  hasNetwork,
  inner,
  lumpedParts,
  moved,
  type PortState,
  type Ports,
  type Pressures,
  portMatrix,
  solveNetwork,
} from "../system/network.ts";
import {
  evenly,
  pressPlainly,
  pressRows,
  type ReliefSystem,
  type RowAnswers,
  reliefSystem,
  rowAnswers,
  setRelief,
} from "../system/relief.ts";
import { drain, drainMatrix, holeOf, restImpedance, sinkOf } from "../system/wallHole.ts";
import { type BentSystem, bentSides, bentSystem } from "./bentSystem.ts";
import { dot, type ReducedBasis, type ReducedMatrices } from "./reducedBasis.ts";

/** On a few functions. The first product: coupling times the answers of an uneven film, count x filmCount. */
export interface ReducedSystem extends CoupledState {
  readonly basis: ReducedMatrices;
  /** null: an uneven film. */
  readonly even: EvenFilm | null;
  /** Room for the loads of both pressures and the light's row, and for what each moves in the sense of each other. */
  readonly rows: ComplexVector;
  readonly forms: ComplexVector;
  /** As in the whole system, on all functions of the film; null: an even film. */
  readonly relief: ReliefSystem | null;
  /** `pass` row by row; null: an even film. */
  readonly answers: RowAnswers | null;
  /** The film's functions of the present frequency; null without film, and before one was set. */
  numbers: ReturnType<typeof filmNumbers> | null;
  /** Plate and uneven film in one matrix, where sound asked for it; null before. */
  bent: BentSystem | null;
}

/**
 * D of an even film is diagonal, so that all it does is a sum over the film's functions of numbers that no frequency changes. Its
 * rows: the coupling C and, last, the integrals 1.
 */
interface EvenFilm {
  readonly rows: Float64Array;
  readonly answers: ComplexVector;
  /** C D C^T, then C D 1 and 1 D 1: the lower triangle, row by row. */
  readonly table: SumTable;
  readonly sums: ComplexVector;
  /** C D g and 1 D g of the line that was asked for last; null before. */
  readonly lit: { line: ReducedLine | null; readonly table: SumTable; readonly sums: ComplexVector };
}

function evenFilm({ count, filmCount, coupling, ones }: ReducedMatrices, answers: ComplexVector, room: Room): EvenFilm {
  const rows = room((count + 1) * filmCount);
  rows.set(coupling);
  rows.set(ones, count * filmCount);
  const table = sumTable(((count + 1) * (count + 2)) / 2, filmCount, room);
  fillOwnProducts(table, rows);
  return {
    rows,
    answers,
    table,
    sums: roomForSums(table.count, room),
    lit: { line: null, table: sumTable(count + 1, filmCount, room), sums: roomForSums(count + 1, room) },
  };
}

/** A line over the film's functions, made ready where it is another one than before. */
function litBy({ rows, lit }: EvenFilm, line: ReducedLine) {
  if (lit.line !== line) {
    fillProducts(lit.table, rows, line.film);
    lit.line = line;
  }
  return lit;
}

export function reducedSystem(basis: ReducedMatrices, microphone: Microphone): ReducedSystem {
  const { count, filmCount } = basis;
  const relief = basis.relief && microphone.film?.relief ? reliefSystem(basis.relief) : null;
  const pass = relief ? count * filmCount : 0;
  // Some twenty arrays out of one: a chart makes a system for each of its points.
  const pairs = 3 + ((count + 1) * (count + 2)) / 2;
  const room = sharedRoom(4 * (count + 2) ** 2 + 16 + (pairs + 2 * count + 7) * filmCount + 2 * (pairs + count));
  const state = coupledState(microphone, { functions: count, filmFunctions: filmCount, pass }, room);
  return {
    ...state,
    basis,
    even: relief ? null : evenFilm(basis, { re: state.filmRe, im: state.filmIm }, room),
    rows: complexVector(3 * count, room),
    forms: complexVector(9, room),
    relief,
    answers: relief && rowAnswers(relief, state.pass),
    numbers: null,
    bent: null,
  };
}

/** Another microphone on the same functions, in the same room: what was set there is gone. */
export const alikeSystem = (system: ReducedSystem, microphone: Microphone): ReducedSystem => ({
  ...system,
  ...numbersOf(microphone),
  numbers: null,
  sink: null,
  bent: null,
});

/** Sets what the film does at a frequency [rad/s], for questions that need no answer of the plate. */
export function setReducedFilm(system: ReducedSystem, omega: Complex): void {
  if (system.basis.hole) setReducedFrequency(system, omega);
  else if (system.basis.filmCount > 0) reducedFilm(system, omega);
}

/** Fills and factors the system at a frequency, which may be complex [rad/s]. */
export function setReducedFrequency(system: ReducedSystem, omega: Complex): void {
  const { basis, microphone, scales, even, re, im } = system;
  const { count, filmCount, mass, bending } = basis;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const eta = microphone.diaphragm.lossFactor;
  const isReal = realAt(system, omega);
  if (filmCount > 0) reducedFilm(system, omega);
  if (isReal) im.fill(0);
  if (even === null) {
    const rows = { width: filmCount, count, part: "lower" } as const;
    if (isReal) realRowProducts(basis.coupling, system.pass.re, rows, re);
    else rowProducts(basis.coupling, system.pass, rows, system);
  } else if (isReal) {
    realWeightedSums(even.table, even.answers.re, even.sums.re);
    even.sums.im.fill(0);
    unpack(even.sums.re, count, re);
  } else {
    weightedSums(even.table, even.answers, even.sums);
    unpack(even.sums.re, count, re);
    unpack(even.sums.im, count, im);
  }
  for (let i = 0; i < count; i++) re[i * count + i]! += 1 - lambda.re * mass[i]!;
  if (isReal) {
    factorReal(system.work, re);
    return;
  }
  for (let i = 0; i < count; i++) im[i * count + i]! += (bending ? 0 : eta) - lambda.im * mass[i]!;
  if (bending && eta !== 0) {
    for (let i = 0; i < count; i++) for (let at = i * count; at <= i * count + i; at++) im[at]! += eta * bending[at]!;
  }
  if (basis.hole) openHole(system, basis.hole, omega);
  factorSymmetric(system.work, re, im);
}

/** Without loss all is real on the imaginary axis: a third of the work. */
const realAt = ({ microphone, basis }: ReducedSystem, omega: Complex): boolean =>
  omega.re === 0 && microphone.diaphragm.lossFactor === 0 && !basis.hole;

/** A lower triangle, row by row, into a square matrix. */
function unpack(sums: Float64Array, count: number, matrix: Float64Array): void {
  for (let i = 0, from = 0; i < count; i++) {
    for (let to = i * count; to <= i * count + i; to++, from++) matrix[to] = sums[from]!;
  }
}

/** As in the whole system, on the reduced functions. */
function openHole(
  system: ReducedSystem,
  { prepared, means }: NonNullable<ReducedMatrices["hole"]>,
  omega: Complex,
): void {
  const { microphone, basis } = system;
  const { count, filmCount, coupling } = basis;
  const toPlate = (terms: Float64Array) =>
    Float64Array.from({ length: count }, (_, i) => dot(coupling.subarray(i * filmCount, (i + 1) * filmCount), terms));
  system.sink = sinkOf(holeOf(prepared, microphone), {
    means,
    film: pressed(system, { re: means.slice(), im: new Float64Array(filmCount) }),
    flow: flowPerAnswer(system, omega),
    rest: restImpedance(prepared, microphone.diaphragm, system.numbers!),
    toPlate: ({ re, im }) => ({ re: toPlate(re), im: toPlate(im) }),
    air: microphone.air,
    omega,
  });
  drainMatrix(system.re, system.im, system.sink);
}

function reducedFilm(system: ReducedSystem, omega: Complex): void {
  const { basis, microphone, scales, layer, filmRe, filmIm } = system;
  const { filmCount, coupling, kappa } = basis;
  system.numbers = filmNumbers(microphone, scales, omega, layer);
  const { perK, uniform, pieces } = system.numbers;
  if (system.relief) {
    const plain = { re: filmRe, im: filmIm };
    setRelief(system.relief, (j) => kappa[j]!, { perK, uniform, pieces, plain });
    pressRows(system.relief, coupling, system.answers!);
    return;
  }
  const [kRe, kIm, uRe, uIm] = [perK.re, perK.im, uniform.re, uniform.im];
  for (let j = 0; j < filmCount; j++) {
    const re = kRe * kappa[j]! + uRe;
    const im = kIm * kappa[j]! + uIm;
    const squared = re * re + im * im;
    filmRe[j] = re / squared;
    filmIm[j] = -im / squared;
  }
}

/** Answer to a load on the reduced functions at the frequency that was set. */
export function solveReduced({ work }: ReducedSystem, load: ComplexVector): ComplexVector {
  const answer = { re: Float64Array.from(load.re), im: Float64Array.from(load.im) };
  solveFactored(work, answer);
  return answer;
}

const real = (values: Float64Array): ComplexVector => ({ re: values, im: new Float64Array(values.length) });

/** The line of light (line.ts) on the reduced functions. */
export interface ReducedLine {
  /** Influence function times a uniform load. */
  readonly force: number;
  readonly mass: Float64Array;
  readonly tension: Float64Array | null;
  readonly stretched: Line["stretched"];
  /** Influence function on the film functions. */
  readonly film: Float64Array;
}

export function reduceLine(basis: ReducedBasis, line: Line): ReducedLine {
  const { count, filmCount } = basis;
  const size = basis.plate.length / count;
  const onPlate = (row: Float64Array) =>
    Float64Array.from({ length: count }, (_, i) => dot(basis.plate.subarray(i * size, (i + 1) * size), row));
  const terms = filmCount === 0 ? 0 : basis.film.length / filmCount;
  return {
    force: line.force,
    mass: onPlate(line.mass),
    tension: line.tension && onPlate(line.tension),
    stretched: line.stretched && { force: onPlate(line.stretched.force), strain: onPlate(line.stretched.strain) },
    film: Float64Array.from({ length: line.film ? filmCount : 0 }, (_, j) =>
      dot(basis.film.subarray(j * terms, (j + 1) * terms), line.film!),
    ),
  };
}

/** S(f) [rad/Pa] at one frequency, which may be complex [rad/s]. */
export const reducedResponseAt = (system: ReducedSystem, line: ReducedLine, omega: Complex): Complex =>
  reducedAnswer(system, line, omega).response;

/** S(f) and the pressures before and behind the diaphragm, for 1 Pa of sound. */
function reducedAnswer(
  system: ReducedSystem,
  line: ReducedLine,
  omega: Complex,
): Pressures & { readonly response: Complex } {
  if (!hasNetwork(system.microphone)) {
    const bent = bentOf(system);
    if (bent) return { ...alone, response: bentSides(system, bent, line, omega).byFront };
    setReducedFrequency(system, omega);
    formsOfRows(system, line, omega, 2);
    return { ...alone, response: add(lineOver(system, line.force), formAt(system.forms, 2)) };
  }
  const { byFront, byBack, ports } = reducedSides(system, line, omega);
  const { front, back } = solveNetwork(lumpedParts(system.microphone, omega, system.basis.nearField), ports);
  return { front, back, response: subtract(multiply(front, byFront), multiply(back, byBack)) };
}

/** Where nothing lies before or behind. */
const alone: Pressures = { front: complex(1), back: complex(0) };

/**
 * S(f) as above, what 1 Pa of sound moves, and `output`: what a load moves that acts as the light reads, A^-1 r with the film's
 * pressure under it and under the line itself. Over an even film without a hole in its wall.
 */
export function reducedDuals(system: ReducedSystem, line: ReducedLine, omega: Complex) {
  const { basis, work, rows, filmRe, filmIm } = system;
  const { count, filmCount } = basis;
  const { front, back, response } = reducedAnswer(system, line, omega);
  const sound = stateUnder(system, { front, back }, 2 * count);
  const room = sharedRoom(2 * (count + filmCount));
  const plate = complexVector(count, room);
  for (let i = 0; i < count; i++) {
    plate.re[i] = rows.re[count + i]!;
    plate.im[i] = rows.im[count + i]!;
  }
  solveFactored(work, plate);
  const film = complexVector(filmCount, room);
  const inverse = lineOver(system, 1);
  for (let j = 0; j < filmCount; j++) {
    film.re[j] = line.film[j]! * inverse.re;
    film.im[j] = line.film[j]! * inverse.im;
  }
  addThrough(basis.coupling, plate, film);
  pressPlainly({ re: filmRe, im: filmIm }, film);
  return { response, sound, output: { plate, film } };
}

/** C^T of a motion of the plate, added to a vector on the film's functions. */
function addThrough(coupling: Float64Array, plate: ComplexVector, film: ComplexVector): void {
  const { re: filmRe, im: filmIm } = film;
  for (let i = 0, at = 0; i < plate.re.length; i++) {
    const [re, im] = [plate.re[i]!, plate.im[i]!];
    for (let j = 0; j < filmRe.length; j++, at++) {
      const c = coupling[at]!;
      filmRe[j]! += c * re;
      filmIm[j]! += c * im;
    }
  }
}

/**
 * Phase for 1 Pa before the diaphragm and for 1 Pa behind the film [rad/Pa], and the flows between. All of them are products
 * x^T A^-1 y of three vectors, both loads F and B and the row r that the light reads (line.ts), so that nothing is solved for:
 *
 *     S = loaded / (1 + i eta) + r^T A^-1 load,   r = (Lambda m + i eta t - C D g - k) / (1 + i eta) + e
 *     B = F - chi C D 1,                          D: answers of the film, less what a hole in its wall takes
 */
export function reducedSides(system: ReducedSystem, line: ReducedLine, omega: Complex): ReducedSides {
  const bent = bentOf(system);
  if (bent) return bentSides(system, bent, line, omega);
  setReducedFrequency(system, omega);
  return evenSides(system, line, omega);
}

export interface ReducedSides {
  readonly byFront: Complex;
  readonly byBack: Complex;
  readonly ports: Ports;
}

/** The same over an even film at the frequency that was set. */
export function evenSides(system: ReducedSystem, line: ReducedLine, omega: Complex): ReducedSides {
  const even = formsOfRows(system, line, omega, 3);
  const { microphone, numbers, forms } = system;
  const flow = flowPerAnswer(system, omega);
  return {
    byFront: add(lineOver(system, line.force), formAt(forms, 3)),
    byBack: add(lineOver(system, line.force - even.line.re, -even.line.im), formAt(forms, 7)),
    ports: {
      frontFront: multiply(flow, formAt(forms, 0)),
      frontBack: multiply(flow, formAt(forms, 6)),
      backBack: multiply(flow, formAt(forms, 8)),
      film: filmFlow(microphone, numbers, even.ones),
    },
  };
}

/** Motion of the plate under pressures before and behind it, right after `evenSides`; B stands from `backFrom` on in `rows`. */
export function motionBetween(
  { basis: { count }, rows, work }: ReducedSystem,
  { front, back }: Pressures,
  backFrom = 2 * count,
): ComplexVector {
  const plate = complexVector(count, sharedRoom(2 * count));
  for (let i = 0, j = backFrom; i < count; i++, j++) {
    const [load, bRe, bIm] = [rows.re[i]!, rows.re[j]!, rows.im[j]!];
    plate.re[i] = front.re * load - back.re * bRe + back.im * bIm;
    plate.im[i] = front.im * load - back.re * bIm - back.im * bRe;
  }
  solveFactored(work, plate);
  return plate;
}

/** Plate and an uneven film in one matrix; null: an even film. */
function bentOf(system: ReducedSystem): BentSystem | null {
  if (!system.relief) return null;
  system.bent ??= bentSystem(system.basis, system.microphone.diaphragm.lossFactor);
  return system.bent;
}

/** Products of F, r and B, or of the first two; gives what an even pressure does to the film and the light. */
function formsOfRows(system: ReducedSystem, line: ReducedLine, omega: Complex, count: 2 | 3) {
  const even = fillRows(system, line, omega);
  symmetricForms(system.work, system.rows, count, system.forms);
  return even;
}

const formAt = ({ re, im }: ComplexVector, index: number): Complex => ({ re: re[index]!, im: im[index]! });

/** What the load itself does to the light, over 1 + i eta. */
const lineOver = ({ microphone }: ReducedSystem, re: number, im = 0): Complex =>
  divide({ re, im }, complex(1, microphone.diaphragm.lossFactor));

const zero = complex(0);

/** What an even pressure stores in the film, over i omega s, and D of that. */
function storedEvenly(system: ReducedSystem) {
  const { basis, numbers, relief } = system;
  const { compression, pieces } = numbers!;
  const compressions = pieces.map((piece) => piece.compression);
  const stores = evenly(basis.ones, relief?.matrices ?? null, compression, compressions);
  return { stores, drop: pressed(system, { re: stores.re.slice(), im: stores.im.slice() }) };
}

/** Fills F, r and B over an even film; gives chi 1^T D 1 and chi g^T D 1. */
function fillRows(
  system: ReducedSystem,
  line: ReducedLine,
  omega: Complex,
): { readonly ones: Complex; readonly line: Complex } {
  const { basis, microphone, scales, numbers, sink, rows } = system;
  const { count, ones, load } = basis;
  const { re, im } = rows;
  const eta = microphone.diaphragm.lossFactor;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const compression = numbers?.compression ?? zero;
  const inverse = divide(complex(1), complex(1, eta));
  const even = system.even!;
  const lit = litBy(even, line);
  weightedSums(lit.table, even.answers, lit.sums);
  const { re: byOnesRe, im: byOnesIm } = even.sums;
  const { re: byLineRe, im: byLineIm } = lit.sums;
  // C D 1 is the last row of the triangle.
  const last = (count * (count + 1)) / 2;
  let [onesRe, onesIm, lineRe, lineIm] = [
    byOnesRe[last + count]!,
    byOnesIm[last + count]!,
    byLineRe[count]!,
    byLineIm[count]!,
  ];
  // What the hole takes of an even pressure and of the line's.
  const [ofOnes, ofLine] = sink ? [inner(real(ones), sink.film), inner(real(line.film), sink.film)] : [zero, zero];
  const [takenOnes, takenLine] = sink ? [divide(ofOnes, sink.impedance), divide(ofLine, sink.impedance)] : [zero, zero];
  if (sink) {
    const [own, mixed] = [multiply(takenOnes, ofOnes), multiply(takenOnes, ofLine)];
    [onesRe, onesIm, lineRe, lineIm] = [onesRe - own.re, onesIm - own.im, lineRe - mixed.re, lineIm - mixed.im];
  }
  for (let i = 0; i < count; i++) {
    let evenRe = byOnesRe[last + i]!;
    let evenIm = byOnesIm[last + i]!;
    let ownRe = byLineRe[i]!;
    let ownIm = byLineIm[i]!;
    if (sink) {
      const [hRe, hIm] = [sink.plate.re[i]!, sink.plate.im[i]!];
      evenRe -= hRe * takenOnes.re - hIm * takenOnes.im;
      evenIm -= hRe * takenOnes.im + hIm * takenOnes.re;
      ownRe -= hRe * takenLine.re - hIm * takenLine.im;
      ownIm -= hRe * takenLine.im + hIm * takenLine.re;
    }
    const m = line.mass[i]!;
    const t = line.tension ? eta * line.tension[i]! : 0;
    const rRe = lambda.re * m - ownRe - (line.stretched ? line.stretched.force[i]! : 0);
    const rIm = lambda.im * m - ownIm + t;
    re[i] = load[i]!;
    im[i] = 0;
    re[count + i] = rRe * inverse.re - rIm * inverse.im + (line.stretched ? line.stretched.strain[i]! : 0);
    im[count + i] = rRe * inverse.im + rIm * inverse.re;
    re[2 * count + i] = load[i]! - (compression.re * evenRe - compression.im * evenIm);
    im[2 * count + i] = -(compression.re * evenIm + compression.im * evenRe);
  }
  return {
    ones: multiply(compression, { re: onesRe, im: onesIm }),
    line: multiply(compression, { re: lineRe, im: lineIm }),
  };
}

/** Answers of plate and film to unit pressures before and behind, at the frequency that was set. */
function answersToPorts(system: ReducedSystem, omega: Complex) {
  const front = solveReduced(system, real(system.basis.load));
  const behind = reducedBackLoad(system);
  const back = solveReduced(system, behind.load);
  return { front, back, behind, ports: reducedPorts(system, { front, back, behind, omega }) };
}

/** What moves: plate, film above the pressure behind, and the pressures before and behind, by which readMotion reads it. */
export interface ReducedState {
  readonly plate: ComplexVector;
  readonly film: ComplexVector;
  readonly front: Complex;
  readonly back: Complex;
}

/** For 1 Pa of sound at one frequency. */
export function reducedState(system: ReducedSystem, omega: Complex): ReducedState {
  setReducedFrequency(system, omega);
  const { basis, microphone } = system;
  if (!hasNetwork(microphone)) {
    const plate = solveReduced(system, real(basis.load));
    return { plate, film: filmUnder(system, plate), ...alone };
  }
  const lumped = lumpedParts(microphone, omega, basis.nearField);
  if (system.even && !system.sink)
    return stateUnder(system, solveNetwork(lumped, evenPorts(system, omega)), basis.count);
  const answers = answersToPorts(system, omega);
  const { front, back } = solveNetwork(lumped, answers.ports);
  const plate = moved(answers.front, answers.back, { front, back });
  const film = filmUnder(system, plate);
  // Where a hole is in the wall the drop is what is left of it.
  for (let j = 0; j < basis.filmCount; j++) {
    const drop = multiply({ re: answers.behind.drop.re[j]!, im: answers.behind.drop.im[j]! }, back);
    film.re[j]! -= drop.re;
    film.im[j]! -= drop.im;
  }
  return { plate, film, front, back };
}

/** What pressures before and behind move over an even film, by their loads F and, from `backFrom` on, B in `rows`. */
function stateUnder(system: ReducedSystem, pressures: Pressures, backFrom: number): ReducedState {
  const { basis, filmRe, filmIm, numbers } = system;
  const { filmCount, coupling, ones } = basis;
  const { front, back } = pressures;
  const plate = motionBetween(system, pressures, backFrom);
  const film = complexVector(filmCount, sharedRoom(2 * filmCount));
  const behind = multiply(numbers?.compression ?? zero, back);
  for (let j = 0; j < filmCount; j++) {
    film.re[j] = -behind.re * ones[j]!;
    film.im[j] = -behind.im * ones[j]!;
  }
  addThrough(coupling, plate, film);
  pressPlainly({ re: filmRe, im: filmIm }, film);
  return { plate, film, front, back };
}

/** Fills F and B over an even film that no hole drains, one after the other, at the frequency that was set: their forms are flows. */
function evenPorts(system: ReducedSystem, omega: Complex): Ports {
  const { basis, microphone, numbers, rows, forms } = system;
  const { count, load } = basis;
  const { re: byOnesRe, im: byOnesIm } = system.even!.sums;
  const { re: chiRe, im: chiIm } = numbers?.compression ?? zero;
  // C D 1 and 1 D 1 are the last row of the triangle.
  const last = (count * (count + 1)) / 2;
  for (let i = 0; i < count; i++) {
    const re = byOnesRe[last + i]!;
    const im = byOnesIm[last + i]!;
    rows.re[i] = load[i]!;
    rows.im[i] = 0;
    rows.re[count + i] = load[i]! - (chiRe * re - chiIm * im);
    rows.im[count + i] = -(chiRe * im + chiIm * re);
  }
  symmetricForms(system.work, rows, 2, forms);
  const flow = flowPerAnswer(system, omega);
  const stored = multiply({ re: chiRe, im: chiIm }, { re: byOnesRe[last + count]!, im: byOnesIm[last + count]! });
  return {
    frontFront: multiply(flow, formAt(forms, 0)),
    frontBack: multiply(flow, formAt(forms, 2)),
    backBack: multiply(flow, formAt(forms, 3)),
    film: filmFlow(microphone, numbers, stored),
  };
}

/** The film's flow per pressure behind, chi (4 - 1^T D 1 chi) a b / 4, `stored` the last two factors [m3/(Pa s)]; 0 without film. */
function filmFlow({ diaphragm }: Microphone, numbers: ReducedSystem["numbers"], stored: Complex): Complex {
  if (numbers === null) return zero;
  const quarter = (diaphragm.across * diaphragm.along) / 4;
  return scale(multiply(numbers.chi, complex(4 - stored.re, -stored.im)), quarter);
}

/** Loads of unit pressures before and behind, and the flow per answer, at the frequency that was set. */
export const reducedLoads = (system: ReducedSystem, omega: Complex) => ({
  front: real(system.basis.load),
  behind: reducedBackLoad(system),
  flow: flowPerAnswer(system, omega),
});

/** D^-1 of a vector on the film's functions, without what a hole takes; overwrites and returns it. */
function pressed({ filmRe, filmIm, relief }: ReducedSystem, vector: ComplexVector): ComplexVector {
  // All functions of a reduced film feel an uneven gap.
  if (relief) solveFactored(relief.work, vector);
  else pressPlainly({ re: filmRe, im: filmIm }, vector);
  return vector;
}

/** Pressure of the film under a motion of the plate, at the frequency that was set. */
export function filmUnder(system: ReducedSystem, plate: ComplexVector): ComplexVector {
  const { basis, sink } = system;
  const film = complexVector(basis.filmCount);
  addThrough(basis.coupling, plate, film);
  pressed(system, film);
  if (sink) drain(film, sink.film, inner(sink.plate, plate), sink.impedance);
  return film;
}

/** B and Y of coupled.ts on the reduced functions. */
function reducedBackLoad(system: ReducedSystem): BackLoad {
  const { basis, microphone, numbers, sink } = system;
  const { count, filmCount, coupling } = basis;
  const load = { re: Float64Array.from(basis.load), im: new Float64Array(count) };
  if (!microphone.film || numbers === null)
    return {
      load,
      drop: { re: new Float64Array(filmCount), im: new Float64Array(filmCount) },
      admittance: complex(0),
    };
  const { compression, chi } = numbers;
  const { stores, drop } = storedEvenly(system);
  if (sink && basis.hole) drain(drop, sink.film, inner(real(basis.hole.means), drop), sink.impedance);
  for (let i = 0; i < count; i++) {
    let [re, im] = [load.re[i]!, 0];
    for (let j = 0; j < filmCount; j++) {
      const c = coupling[i * filmCount + j]!;
      re -= c * drop.re[j]!;
      im -= c * drop.im[j]!;
    }
    load.re[i] = re;
    load.im[i] = im;
  }
  const quarter = (microphone.diaphragm.across * microphone.diaphragm.along) / 4;
  // chi / compression is i omega s.
  const taken = multiply(divide(chi, compression), inner(stores, drop));
  return { load, drop, admittance: scale(subtract(scale(chi, 4), taken), quarter) };
}

function reducedPorts(
  system: ReducedSystem,
  given: { front: ComplexVector; back: ComplexVector; behind: BackLoad; omega: Complex },
): Ports {
  const { front, back, behind } = given;
  const flow = flowPerAnswer(system, given.omega);
  const load = real(system.basis.load);
  return {
    frontFront: multiply(flow, inner(load, front)),
    frontBack: multiply(flow, inner(load, back)),
    backBack: multiply(flow, inner(behind.load, back)),
    film: behind.admittance,
  };
}

/** The port matrix at the frequency that was set; null without front and back. */
export function reducedPortState(system: ReducedSystem, omega: Complex): PortState | null {
  const { microphone, basis, rows } = system;
  if (!hasNetwork(microphone)) return null;
  const lumped = lumpedParts(microphone, omega, basis.nearField);
  const around = { onFront: real(basis.load), flow: flowPerAnswer(system, omega) };
  if (system.even && !system.sink) {
    const matrix = portMatrix(lumped, evenPorts(system, omega));
    const onBack = {
      re: rows.re.slice(basis.count, 2 * basis.count),
      im: rows.im.slice(basis.count, 2 * basis.count),
    };
    return { ...matrix, ...around, onBack };
  }
  const { behind, ports } = answersToPorts(system, omega);
  return { ...portMatrix(lumped, ports), ...around, onBack: behind.load };
}
