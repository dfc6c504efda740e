/**
 * Plate and film as one linear system at one frequency, in the whole polynomial basis. This is the judge of every faster way.
 *
 *     [ (1 + i eta) K_b + K_t - Lambda M + Z ] q = F p
 *     Z_ij = i omega s sum_mn C_im C_jm C_in C_jn / d_mn,   d = Psi k^2 + chi,   s = a^4 / (16 D11)
 *
 * dimensionless as in plate.ts. Because C factors by direction, Z sums in two one-dimensional passes, exactly.
 */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  factorSymmetric,
  residual,
  solveFactored,
  solvePivoted,
  symmetricWork,
} from "../../numerics/complexSymmetric.ts";
import { rowProducts } from "../../numerics/rowProducts.ts";
import { wallAdmittances } from "../../parts/acoustics/perforation.ts";
import type { Plate } from "../../parts/diaphragm/plate.ts";
import type { PlateScales } from "../../parts/diaphragm/shape.ts";
import { type FilmLayer, filmCoefficients, layerCoefficients } from "../../parts/film/coefficients.ts";
import type { Microphone } from "../microphone.ts";
import { type CoupledState, coupledState, flowPerAnswer } from "./coupledState.ts";
import { fromFilm, projectComplex } from "./filmProjection.ts";
import type { Line } from "./line.ts";
import {
  hasNetwork,
  inner,
  lumpedParts,
  moved,
  type PortState,
  type Ports,
  portMatrix,
  solveNetwork,
} from "./network.ts";
import { filmOnes, type Prepared, type PreparedFilm } from "./prepare.ts";
import {
  evenly,
  pressPlainly,
  pressRows,
  pressThrough,
  type ReliefSystem,
  type RowAnswers,
  reliefSystem,
  rowAnswers,
  setRelief,
} from "./relief.ts";
import { drain, drainMatrix, restImpedance, sinkOf, type WallHole, wallHoleOf } from "./wallHole.ts";

/** The whole basis at one frequency. Film terms row-major across x along; the first product: pairs along x film terms across. */
export interface CoupledSystem extends CoupledState {
  readonly prepared: Prepared;
  /** 1_m 1_n: integrals of the film's terms; null without film. */
  readonly ones: Float64Array | null;
  /** The second product: pairs across x pairs along. */
  readonly product: ComplexVector;
  /** Coupled functions of a film of uneven gap, and the plate's functions on them, one row a function; null: an even film. */
  readonly relief: Relief | null;
  /** The one hole in the wall behind the film; null without. */
  readonly hole: WallHole | null;
}

/** `answers` and `product`: room for D^-1 of the rows, and for what that does to the plate. */
interface Relief {
  readonly system: ReliefSystem;
  readonly rows: Float64Array;
  readonly answers: RowAnswers;
  readonly product: ComplexVector;
}

export function coupledSystem(prepared: Prepared, microphone: Microphone): CoupledSystem {
  const across = prepared.film?.across.count ?? 0;
  const along = prepared.film?.along.count ?? 0;
  const pairs = (count: number) => (count * (count + 1)) / 2;
  const [pairsX, pairsY] = [pairs(prepared.plate.across.count), pairs(prepared.plate.along.count)];
  return {
    ...coupledState(microphone, {
      functions: prepared.plate.size,
      filmFunctions: across * along,
      pass: across * pairsY,
    }),
    prepared,
    ones: prepared.film && filmOnes(prepared.film),
    product: complexVector(across > 0 ? pairsX * pairsY : 0),
    relief: prepared.film && microphone.film?.relief ? reliefOf(prepared.plate, prepared.film) : null,
    // Net flow is even across and along; classes odd across do not reach the hole.
    hole: prepared.plate.across.side === "even" ? wallHoleOf(prepared.film, microphone) : null,
  };
}

function reliefOf(plate: Plate, film: PreparedFilm): Relief | null {
  if (film.relief === null) return null;
  const { index } = film.relief;
  const [my, ny] = [film.along.count, plate.along.count];
  const rows = new Float64Array(plate.size * index.length);
  for (let i = 0; i < plate.size; i++) {
    const [x, y] = [Math.floor(i / ny), i % ny];
    for (let a = 0; a < index.length; a++) {
      const [m, n] = [Math.floor(index[a]! / my), index[a]! % my];
      rows[i * index.length + a] = film.projectAcross[x * film.across.count + m]! * film.projectAlong[y * my + n]!;
    }
  }
  const system = reliefSystem(film.relief);
  return {
    system,
    rows,
    answers: rowAnswers(system, complexVector(rows.length)),
    product: complexVector(plate.size * plate.size),
  };
}

/** Fills and factors the system at a frequency, which may be complex [rad/s]. */
export function setFrequency(system: CoupledSystem, omega: Complex): void {
  fillPlate(system, omega);
  if (system.prepared.film) fillFilm(system, system.prepared.film, omega);
  if (system.hole && system.prepared.film) openHole(system, system.hole, system.prepared.film, omega);
  factorSymmetric(system.work, system.re, system.im);
}

function fillPlate({ prepared, microphone, scales, re, im }: CoupledSystem, omega: Complex): void {
  const { bending, tension, mass } = prepared;
  const { re: lambdaRe, im: lambdaIm } = scale(multiply(omega, omega), scales.lambda);
  const eta = microphone.diaphragm.lossFactor;
  const length = re.length;
  for (let i = 0; i < length; i++) {
    const stiff = bending[i]!;
    const heavy = mass[i]!;
    re[i] = stiff - lambdaRe * heavy;
    im[i] = eta * stiff - lambdaIm * heavy;
  }
  if (tension) for (let i = 0; i < re.length; i++) re[i]! += tension[i]!;
}

function fillFilm(system: CoupledSystem, film: PreparedFilm, omega: Complex): void {
  filmAnswers(system, film, omega);
  const { filmRe, filmIm, pass, product, re, im, prepared } = system;
  const { across, along, pairsAcross, pairsAlong } = film;
  const [nx, ny] = [prepared.plate.across.count, prepared.plate.along.count];
  const pairsY = (ny * (ny + 1)) / 2;
  rowProducts(pairsAlong, { re: filmRe, im: filmIm }, { width: along.count, count: across.count, part: "all" }, pass);
  rowProducts(pairsAcross, pass, { width: across.count, count: pairsY, part: "all" }, product);
  const size = nx * ny;
  let at = 0;
  for (let i = 0; i < nx; i++) {
    for (let k = 0; k <= i; k++) {
      const block = i * ny * size + k * ny;
      for (let j = 0; j < ny; j++) {
        for (let l = 0; l <= j; l++, at++) {
          const valueRe = product.re[at]!;
          const valueIm = product.im[at]!;
          re[block + j * size + l]! += valueRe;
          im[block + j * size + l]! += valueIm;
          // The same product belongs to (i, l) with (k, j); for i = k that one lies above the diagonal, unread.
          if (j === l || i === k) continue;
          re[block + l * size + j]! += valueRe;
          im[block + l * size + j]! += valueIm;
        }
      }
    }
  }
  if (system.relief) addRelief(system.relief, size, re, im);
}

/** What the functions that feel the uneven gap do to the plate, added to the lower triangle. */
function addRelief({ system, rows, answers, product }: Relief, size: number, re: Float64Array, im: Float64Array): void {
  pressRows(system, rows, answers);
  rowProducts(rows, answers, { width: rows.length / size, count: size, part: "lower" }, product);
  for (let i = 0; i < size; i++) {
    for (let at = i * size; at <= i * size + i; at++) {
      re[at]! += product.re[at]!;
      im[at]! += product.im[at]!;
    }
  }
}

/** Lets the hole in the wall take its flow from film and plate. */
function openHole(system: CoupledSystem, hole: WallHole, film: PreparedFilm, omega: Complex): void {
  const { microphone, prepared, scales } = system;
  const { diaphragm, air } = microphone;
  const driven = { re: hole.means.slice(), im: new Float64Array(hole.means.length) };
  system.sink = sinkOf(hole, {
    means: hole.means,
    film: pressed(system, driven),
    flow: flowPerAnswer(system, omega),
    rest: restImpedance(hole, diaphragm, filmNumbers(microphone, scales, omega)),
    toPlate: (terms) => fromFilm(prepared.plate, film, terms),
    air,
    omega,
  });
  drainMatrix(system.re, system.im, system.sink);
}

/** The film at one frequency and gap: d / (i omega s) = perK k^2 + uniform, with k in units of 2 / across, and chi / (i omega s). */
export interface FilmNumbers {
  readonly perK: Complex;
  readonly uniform: Complex;
  readonly compression: Complex;
  readonly psi: Complex;
  readonly chi: Complex;
  /** Through the wall, y [m/(Pa s)]. */
  readonly through: Complex;
}

/**
 * Those of the microphone's film; of an uneven one the means over its area, with those of each gap beside them. `layer`: that of the
 * gap, where it is at hand.
 */
export function filmNumbers(
  microphone: Microphone,
  scales: PlateScales,
  omega: Complex,
  layer: FilmLayer | null = null,
): FilmNumbers & { readonly pieces: readonly FilmNumbers[]; readonly atHole: FilmNumbers | null } {
  const { film, air, diaphragm } = microphone;
  const { relief, backPlate, gap } = film!;
  const one = divide(complex(1), multiply(complex(0, scales.deflection), omega));
  // Kept apart from `one`, which is next to the largest number there is where the frequency is next to nothing.
  const perArea = 4 / diaphragm.across ** 2;
  const through = backPlate && backPlate.kind !== "hole" ? wallAdmittances(backPlate, { air, omega }) : null;
  if (!relief) {
    // Asked for ten times a pole: no functions are made for it.
    const { psi, chi } = layer ? layerCoefficients(layer, omega) : filmCoefficients({ gap, air, omega });
    return numbersOf(psi, chi, { through: through ? through(psi) : zero, one, perArea, pieces: noPieces });
  }
  const at = (height: number): FilmNumbers => {
    const { psi, chi } = filmCoefficients({ gap: gap + height, air, omega });
    return numbersOf(psi, chi, { through: through ? through(psi) : zero, one, perArea, pieces: noPieces });
  };
  const { heights, shares } = relief;
  const pieces: FilmNumbers[] = [];
  let [psiRe, psiIm, chiRe, chiIm, throughRe, throughIm] = [0, 0, 0, 0, 0, 0];
  for (let j = 0; j < heights.length; j++) {
    const piece = at(heights[j]!);
    const share = shares[j]!;
    pieces.push(piece);
    psiRe += share * piece.psi.re;
    psiIm += share * piece.psi.im;
    chiRe += share * piece.chi.re;
    chiIm += share * piece.chi.im;
    throughRe += share * piece.through.re;
    throughIm += share * piece.through.im;
  }
  const mean = { through: complex(throughRe, throughIm), one, perArea, pieces };
  const atHole = relief.atHole === undefined ? null : at(relief.atHole);
  return numbersOf(complex(psiRe, psiIm), complex(chiRe, chiIm), mean, atHole);
}

function numbersOf(
  psi: Complex,
  chi: Complex,
  given: {
    readonly through: Complex;
    readonly one: Complex;
    readonly perArea: number;
    readonly pieces: readonly FilmNumbers[];
  },
  atHole: FilmNumbers | null = null,
): FilmNumbers & { readonly pieces: readonly FilmNumbers[]; readonly atHole: FilmNumbers | null } {
  const { through, one, perArea, pieces } = given;
  return {
    perK: multiply(scale(psi, perArea), one),
    uniform: multiply(add(chi, through), one),
    compression: multiply(chi, one),
    psi,
    chi,
    through,
    pieces,
    atHole,
  };
}

const zero = complex(0);
const noPieces: readonly FilmNumbers[] = [];

/** i omega s / d_mn for every film term. */
function filmAnswers(system: CoupledSystem, film: PreparedFilm, omega: Complex): void {
  const { microphone, scales, layer, filmRe, filmIm, prepared } = system;
  const { perK, uniform, pieces } = filmNumbers(microphone, scales, omega, layer);
  const [kRe, kIm, uRe, uIm] = [perK.re, perK.im, uniform.re, uniform.im];
  const alphaSquared = 1 / prepared.shape.aspect ** 2;
  const { across, along } = film;
  const alongSquared = along.wavenumbers.map((k) => alphaSquared * k ** 2);
  for (let m = 0; m < across.count; m++) {
    const kx = across.wavenumbers[m]! ** 2;
    const row = m * along.count;
    for (let n = 0; n < alongSquared.length; n++) {
      const kSquared = kx + alongSquared[n]!;
      const re = kRe * kSquared + uRe;
      const im = kIm * kSquared + uIm;
      const squared = re * re + im * im;
      filmRe[row + n] = re / squared;
      filmIm[row + n] = -im / squared;
    }
  }
  if (!system.relief) return;
  const width = along.count;
  const kSquared = (at: number) => across.wavenumbers[Math.floor(at / width)]! ** 2 + alongSquared[at % width]!;
  setRelief(system.relief.system, kSquared, { perK, uniform, pieces, plain: { re: filmRe, im: filmIm } });
}

/** D^-1 of a vector on the film's functions, without what a hole takes; overwrites and returns it. */
export function pressed({ filmRe, filmIm, relief }: CoupledSystem, vector: ComplexVector): ComplexVector {
  const plain = { re: filmRe, im: filmIm };
  if (relief) pressThrough(relief.system, plain, vector);
  else pressPlainly(plain, vector);
  return vector;
}

// L D L^T without pivoting loses digits only next to a singular leading block; the residual says so.
const worstResidual = 1e-9;

/** Answer q to a load at the frequency that was set; dimensionless deflection per unit of the load. */
export const solveLoad = (system: CoupledSystem, load: Float64Array): ComplexVector =>
  solveComplexLoad(system, { re: load, im: new Float64Array(load.length) });

/** The same for a complex load. */
export function solveComplexLoad(system: CoupledSystem, right: ComplexVector): ComplexVector {
  const size = system.prepared.plate.size;
  const x = { re: Float64Array.from(right.re), im: Float64Array.from(right.im) };
  solveFactored(system.work, x);
  if (residual(size, system.re, system.im, x, right) < worstResidual) return x;
  return solvePivoted(size, system.re, system.im, right);
}

/**
 * Phase of the light for the answer q to a load [rad per unit of it], by the influence function of line.ts. `loaded` is the
 * influence function times the load: the static output for a uniform pressure; `pressure` that of the film where it is at hand.
 */
export function readPhase(
  system: CoupledSystem,
  line: Line,
  q: ComplexVector,
  omega: Complex,
  loaded: Complex = complex(line.force),
  pressure?: ComplexVector,
): Complex {
  const eta = system.microphone.diaphragm.lossFactor;
  let phase = loaded;
  const lambda = scale(multiply(omega, omega), system.scales.lambda);
  phase = add(phase, multiply(lambda, project(line.mass, q)));
  if (line.tension) phase = add(phase, multiply(complex(0, eta), project(line.tension, q)));
  if (line.film && system.prepared.film) {
    phase = subtract(phase, project(line.film, pressure ?? filmPressure(system, system.prepared.film, q)));
  }
  if (!line.stretched) return divide(phase, complex(1, eta));
  phase = subtract(phase, project(line.stretched.force, q));
  return add(divide(phase, complex(1, eta)), project(line.stretched.strain, q));
}

function project(row: Float64Array, q: ComplexVector): Complex {
  const { re: qRe, im: qIm } = q;
  let re = 0;
  let im = 0;
  for (let i = 0; i < row.length; i++) {
    const weight = row[i]!;
    re += weight * qRe[i]!;
    im += weight * qIm[i]!;
  }
  return { re, im };
}

/** Pressure of the film under the answer q, term by term, row-major across x along; dimensionless like q. */
export const filmPressure = (system: CoupledSystem, film: PreparedFilm, q: ComplexVector): ComplexVector =>
  pressedFilm(system, projectComplex(system.prepared.plate, film, q));

/** Pressure of the film under a deflection given on its own functions; overwrites and returns it. */
export function pressedFilm(system: CoupledSystem, pressure: ComplexVector): ComplexVector {
  const { sink } = system;
  const into = sink && inner(sink.film, pressure);
  pressed(system, pressure);
  if (sink && into) drain(pressure, sink.film, into, sink.impedance);
  return pressure;
}

/** The device at one frequency, for 1 Pa of sound. */
export interface DeviceAnswer {
  /** Phase of the light, S [rad/Pa]. */
  readonly response: Complex;
  /** Pressures before and behind the diaphragm [Pa/Pa]. */
  readonly front: Complex;
  readonly back: Complex;
}

/** What moves at one frequency for 1 Pa of sound. */
export interface DeviceState {
  /** Pressures before and behind the diaphragm [Pa/Pa]. */
  readonly front: Complex;
  readonly back: Complex;
  /** Answer of plate and film to a unit pressure in front. */
  readonly onFront: ComplexVector;
  /** Load of a unit pressure behind, and the answer to it; null where nothing lies before or behind. */
  readonly behind: (BackLoad & { readonly q: ComplexVector }) | null;
}

/** Answers of plate and film, and the pressures around them, at one frequency, which may be complex [rad/s]. */
export function deviceState(system: CoupledSystem, omega: Complex): DeviceState {
  setFrequency(system, omega);
  return stateAround(system, plateAnswers(system, omega), omega, system.microphone);
}

/** What plate and film do whatever lies around them, at the frequency that was set: answers to pressures, and flows. */
export interface PlateAnswers {
  readonly onFront: ComplexVector;
  /** null where nothing lies before or behind. */
  readonly behind: (BackLoad & { readonly q: ComplexVector; readonly ports: Ports }) | null;
}

export function plateAnswers(system: CoupledSystem, omega: Complex): PlateAnswers {
  const onFront = solveLoad(system, system.prepared.plate.load);
  if (!hasNetwork(system.microphone)) return { onFront, behind: null };
  const behind = backLoad(system, omega);
  const q = solveComplexLoad(system, behind.load);
  return { onFront, behind: { ...behind, q, ports: portsOf(system, { onFront, onBack: q, behind, omega }) } };
}

/** The device with those answers of its plate and film, between what lies around `microphone`. */
export function stateAround(
  { prepared }: CoupledSystem,
  { onFront, behind }: PlateAnswers,
  omega: Complex,
  microphone: Microphone,
): DeviceState {
  if (behind === null) return { front: complex(1), back: complex(0), onFront, behind };
  return {
    ...solveNetwork(lumpedParts(microphone, omega, prepared.nearField), behind.ports),
    onFront,
    behind,
  };
}

/** Phase and pressures at one frequency, which may be complex [rad/s]. */
export function deviceAt(system: CoupledSystem, line: Line, omega: Complex): DeviceAnswer {
  const state = deviceState(system, omega);
  return { response: responseIn(system, line, state, omega), front: state.front, back: state.back };
}

/**
 * Phase of a line of light in a state at the frequency that was set [rad/Pa]; `film`: its pressures under the answers to front and
 * back, where they are at hand.
 */
export function responseIn(
  system: CoupledSystem,
  line: Line,
  state: DeviceState,
  omega: Complex,
  film?: { readonly onFront: ComplexVector; readonly onBack: ComplexVector },
): Complex {
  const { front, back, onFront, behind } = state;
  if (behind === null) return readPhase(system, line, onFront, omega, undefined, film?.onFront);
  // One reading of what both pressures move together.
  const q = moved(onFront, behind.q, { front, back });
  const loaded = subtract(scale(front, line.force), multiply(staticBehind(system, line, behind), back));
  return readPhase(system, line, q, omega, loaded, film && moved(film.onFront, film.onBack, { front, back }));
}

/** S(f) [rad/Pa] at one frequency, which may be complex [rad/s]. */
export const responseAt = (system: CoupledSystem, line: Line, omega: Complex): Complex =>
  deviceAt(system, line, omega).response;

/** The load that a unit pressure behind makes on the plate through the film: B, and what it says about the film itself. */
export interface BackLoad {
  readonly load: ComplexVector;
  /** chi 1_m / d_m, the film's pressure below that behind, per unit of it. */
  readonly drop: ComplexVector;
  /** The film's flow per pressure, Y [m3/(Pa s)]. */
  readonly admittance: Complex;
}

/**
 *     B_i = F_i - chi sum C_im 1_m / d_m,   Y = chi A - chi^2 sum 1_m^2 / d_m
 *
 * No film: the plate meets the volume behind directly, B = F, Y = 0.
 */
export function backLoad(system: CoupledSystem, omega: Complex): BackLoad {
  const { prepared, microphone, scales, layer, ones } = system;
  const { plate, film } = prepared;
  const load = { re: Float64Array.from(plate.load), im: new Float64Array(plate.size) };
  if (!film || !ones)
    return { load, drop: { re: new Float64Array(0), im: new Float64Array(0) }, admittance: complex(0) };
  const numbers = filmNumbers(microphone, scales, omega, layer);
  const stores = storing(system, ones, numbers, "compression");
  const drop = pressed(system, { re: stores.re.slice(), im: stores.im.slice() });
  const { sink, hole } = system;
  if (sink && hole)
    drain(drop, sink.film, inner({ re: hole.means, im: hole.means.map(() => 0) }, drop), sink.impedance);
  const back = fromFilm(plate, film, drop);
  for (let i = 0; i < plate.size; i++) {
    load.re[i]! -= back.re[i]!;
    load.im[i]! -= back.im[i]!;
  }
  const quarter = (microphone.diaphragm.across * microphone.diaphragm.along) / 4;
  // chi / compression is i omega s.
  const taken = multiply(divide(numbers.chi, numbers.compression), inner(stores, drop));
  const admittance = scale(subtract(scale(numbers.chi, 4), taken), quarter);
  return { load, drop, admittance };
}

/** What an even pressure moves, function by function: into the film itself, over i omega s, or through its wall [m/(Pa s)]. */
export function storing(
  { relief }: CoupledSystem,
  ones: Float64Array,
  { pieces, atHole: _, ...mean }: ReturnType<typeof filmNumbers>,
  key: "compression" | "through",
): ComplexVector {
  const matrices = relief?.system.matrices ?? null;
  return evenly(
    ones,
    matrices,
    mean[key],
    pieces.map((piece) => piece[key]),
  );
}

/** g^T B in place of g^T F where the plate is loaded from behind. */
export function staticBehind({ ones }: CoupledSystem, line: Line, { drop }: BackLoad): Complex {
  if (!ones || !line.film) return complex(line.force);
  return subtract(complex(line.force), project(line.film, drop));
}

/** Flows per pressure between plate and volumes. */
export function portsOf(
  system: CoupledSystem,
  given: { onFront: ComplexVector; onBack: ComplexVector; behind: BackLoad; omega: Complex },
): Ports {
  const { onFront, onBack, behind, omega } = given;
  const { prepared } = system;
  const flow = flowPerAnswer(system, omega);
  return {
    frontFront: multiply(flow, project(prepared.plate.load, onFront)),
    frontBack: multiply(flow, project(prepared.plate.load, onBack)),
    backBack: multiply(flow, inner(behind.load, onBack)),
    film: behind.admittance,
  };
}

/** What plate and film take at the frequency that was set. */
export const portFlows = (system: CoupledSystem, omega: Complex): Ports => flowsBehind(system, omega).ports;

function flowsBehind(system: CoupledSystem, omega: Complex) {
  const onFront = solveLoad(system, system.prepared.plate.load);
  const behind = backLoad(system, omega);
  const onBack = solveComplexLoad(system, behind.load);
  return { behind, ports: portsOf(system, { onFront, onBack, behind, omega }) };
}

/** The port matrix at the frequency that was set; null without front and back. */
export function portState(system: CoupledSystem, omega: Complex): PortState | null {
  const { microphone, prepared } = system;
  if (!hasNetwork(microphone)) return null;
  const { behind, ports } = flowsBehind(system, omega);
  return {
    ...portMatrix(lumpedParts(microphone, omega, prepared.nearField), ports),
    onFront: { re: prepared.plate.load, im: new Float64Array(prepared.plate.size) },
    onBack: behind.load,
    flow: flowPerAnswer(system, omega),
  };
}

/**
 * Phase per pressure on plate and film alone, and the same with one function fewer a direction: how much the highest ones
 * still matter. The smaller system is a block of the larger one, because functions count from the lowest degree.
 */
export function plateWithFewer(
  system: CoupledSystem,
  line: Line,
  omega: Complex,
): { readonly value: Complex; readonly fewer: Complex } {
  const { plate } = system.prepared;
  setFrequency(system, omega);
  const value = readPhase(system, line, solveLoad(system, plate.load), omega);
  const { count } = plate.along;
  const kept: number[] = [];
  for (let i = 0; i < plate.across.count - 1; i++) for (let j = 0; j < count - 1; j++) kept.push(i * count + j);
  const size = kept.length;
  const [re, im] = [new Float64Array(size * size), new Float64Array(size * size)];
  kept.forEach((row, i) => {
    for (let k = 0; k <= i; k++) {
      re[i * size + k] = system.re[row * plate.size + kept[k]!]!;
      im[i * size + k] = system.im[row * plate.size + kept[k]!]!;
    }
  });
  const work = symmetricWork(size);
  factorSymmetric(work, re, im);
  const small = { re: Float64Array.from(kept, (row) => plate.load[row]!), im: new Float64Array(size) };
  solveFactored(work, small);
  const q = { re: new Float64Array(plate.size), im: new Float64Array(plate.size) };
  kept.forEach((row, i) => {
    q.re[row] = small.re[i]!;
    q.im[row] = small.im[i]!;
  });
  return { value, fewer: readPhase(system, line, q, omega) };
}
