/** Plate and film as the search for poles sees them: whole or reduced, the same questions. */

import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  type SymmetricWork,
  solveFactored,
} from "../../numerics/complexSymmetric.ts";
import { cube } from "../../numerics/power.ts";
import { wallAdmittance } from "../../parts/acoustics/perforation.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import { valuesAt } from "../../parts/diaphragm/polynomials.ts";
import { layerCoefficients } from "../../parts/film/coefficients.ts";
import {
  alikeSystem,
  type ReducedSystem,
  reducedPortState,
  reducedSystem,
  setReducedFrequency,
  solveReduced,
} from "../basis/reduced.ts";
import { dot, matrixTimes, type ReducedBasis, squaredWavenumbers } from "../basis/reducedBasis.ts";
import type { Microphone } from "../microphone.ts";
import {
  type CoupledSystem,
  coupledSystem,
  filmNumbers,
  portState,
  setFrequency,
  solveLoad,
} from "../system/coupled.ts";
import { flowPerAnswer } from "../system/coupledState.ts";
import { fromFilm, projectComplex } from "../system/filmProjection.ts";
import { networkCompliance, type PortState, portPivots } from "../system/network.ts";
import type { Prepared } from "../system/prepare.ts";
import { holeOf, restImpedance, type Sink, type WallHole } from "../system/wallHole.ts";
import type { Form } from "./ownMotion.ts";

export interface PoleModel {
  readonly microphone: Microphone;
  /** Fills and factors at a frequency [rad/s]; afterwards `work`, `filmRe`, `filmIm` belong to it. Gives the port matrix. */
  readonly set: (omega: Complex) => PortState | null;
  readonly work: SymmetricWork;
  /** What the one hole in the wall takes at that frequency; its impedance is a factor of the determinant. Null without. */
  readonly sink: () => Sink | null;
  /** Inverse factors of the film in the determinant. */
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
  /** Wavenumbers of those factors [1/m]. */
  readonly filmWavenumbers: Float64Array;
  /**
   * Wavenumbers of film functions odd across or along that the hole in the wall drives [1/m]: the determinant has their factors as
   * poles, through the hole's impedance. Empty for a hole in the middle.
   */
  readonly asideWavenumbers: Float64Array;
  /** Answer at the frequency that was set. */
  readonly solve: (force: Float64Array) => ComplexVector;
  /** A point force off all lines of symmetry, so that no mode of the class escapes. */
  readonly probe: () => Float64Array;
  /** The same device as a form for ownMotion.ts; shares `work` and the film's factors. */
  readonly form: Form;
  /** The system on a few functions that this is; null: the whole one. */
  readonly reduced: ReducedSystem | null;
}

export function wholeModel(prepared: Prepared, microphone: Microphone): PoleModel {
  const system = coupledSystem(prepared, microphone);
  return {
    microphone,
    set: (omega) => {
      setFrequency(system, omega);
      return portState(system, omega);
    },
    work: system.work,
    sink: () => system.sink,
    filmRe: system.filmRe,
    filmIm: system.filmIm,
    filmWavenumbers: wavenumbers(prepared.film ? squaredWavenumbers(prepared) : new Float64Array(0), microphone),
    asideWavenumbers: wavenumbers(system.hole?.odd.kSquared ?? none.re, microphone),
    solve: (force) => solveLoad(system, force),
    probe: () => probeForce(prepared),
    form: wholeForm(prepared, system),
    reduced: null,
  };
}

const none = { re: new Float64Array(0), im: new Float64Array(0) };

/** A real matrix on a complex vector. */
const both =
  (matrix: Float64Array) =>
  ({ re, im }: ComplexVector): ComplexVector => ({ re: matrixTimes(matrix, re), im: matrixTimes(matrix, im) });

function wholeForm(prepared: Prepared, system: CoupledSystem): Form {
  const { plate, film, bending, tension, mass } = prepared;
  const static_ = tension ? bending.map((value, i) => value + tension[i]!) : bending;
  return {
    microphone: system.microphone,
    scales: system.scales,
    layer: system.layer,
    nearField: prepared.nearField,
    set: (omega) => setFrequency(system, omega),
    solve: (force) => solveFactored(system.work, force),
    filmRe: system.filmRe,
    filmIm: system.filmIm,
    relief: system.relief?.system ?? null,
    kappa: film ? squaredWavenumbers(prepared) : none.re,
    ones: system.ones ?? none.re,
    load: plate.load,
    bending: both(bending),
    stiffness: both(static_),
    mass: both(mass),
    toFilm: (q) => (film ? projectComplex(plate, film, q) : none),
    push: (p, force) => film && addVector(force, fromFilm(plate, film, p)),
    hole: system.hole && {
      means: system.hole.means,
      sink: () => system.sink,
      beyond: (omega) => beyondFilm(system.hole!, system, omega),
    },
  };
}

/** z of ownMotion.ts: the hole and the functions that the film does not have. */
function beyondFilm(
  hole: WallHole,
  { microphone, scales, layer }: Pick<CoupledSystem, "microphone" | "scales" | "layer">,
  omega: Complex,
) {
  const { diaphragm, air } = microphone;
  const flow = flowPerAnswer({ microphone, scales }, omega);
  const rest = restImpedance(hole, diaphragm, filmNumbers(microphone, scales, omega, layer));
  return multiply(flow, add(rest, holeImpedance({ ...hole.hole, air, omega })));
}

/**
 * Plate and film on a few functions as a form. What runs over their entries stands in functions of the file: V8 drops the machine
 * code of closures that are made anew for each device whenever it collects garbage.
 */
function reducedForm(system: ReducedSystem): Form {
  const { basis } = system;
  const { coupling, bending } = basis;
  return {
    microphone: system.microphone,
    scales: system.scales,
    layer: system.layer,
    nearField: basis.nearField,
    set: (omega) => setReducedFrequency(system, omega),
    solve: (force) => solveFactored(system.work, force),
    filmRe: system.filmRe,
    filmIm: system.filmIm,
    relief: system.relief,
    kappa: basis.kappa,
    ones: basis.ones,
    load: basis.load,
    bending: bending ? both(bending) : (q) => q,
    stiffness: (q) => q,
    mass: (q) => entryByEntry(basis.mass, q),
    toFilm: (q) => transposedTimes(coupling, q, basis.filmCount),
    push: (p, force) => addTimes(coupling, p, force),
    hole: basis.hole && {
      means: basis.hole.means,
      sink: () => system.sink,
      beyond: (omega) => beyondFilm(holeOf(basis.hole!.prepared, system.microphone), system, omega),
    },
  };
}

function entryByEntry(diagonal: Float64Array, { re, im }: ComplexVector): ComplexVector {
  const result = complexVector(diagonal.length);
  const { re: outRe, im: outIm } = result;
  for (let i = 0; i < diagonal.length; i++) {
    outRe[i] = diagonal[i]! * re[i]!;
    outIm[i] = diagonal[i]! * im[i]!;
  }
  return result;
}

/** M^T v of a real matrix with that many columns. */
function transposedTimes(matrix: Float64Array, { re, im }: ComplexVector, columns: number): ComplexVector {
  const result = complexVector(columns);
  const { re: outRe, im: outIm } = result;
  for (let i = 0, at = 0; i < re.length; i++) {
    const x = re[i]!;
    const y = im[i]!;
    for (let j = 0; j < columns; j++, at++) {
      const c = matrix[at]!;
      outRe[j]! += c * x;
      outIm[j]! += c * y;
    }
  }
  return result;
}

/** sum += M v of a real matrix, in place. */
function addTimes(matrix: Float64Array, { re, im }: ComplexVector, sum: ComplexVector): void {
  const { re: sumRe, im: sumIm } = sum;
  const columns = re.length;
  for (let i = 0, at = 0; i < sumRe.length; i++) {
    let x = 0;
    let y = 0;
    for (let j = 0; j < columns; j++, at++) {
      const c = matrix[at]!;
      x += c * re[j]!;
      y += c * im[j]!;
    }
    sumRe[i]! += x;
    sumIm[i]! += y;
  }
}

function addVector(sum: ComplexVector, { re, im }: ComplexVector): void {
  for (let i = 0; i < re.length; i++) {
    sum.re[i]! += re[i]!;
    sum.im[i]! += im[i]!;
  }
}

/** A model on a few functions. */
export type SmallModel = PoleModel & { readonly reduced: ReducedSystem };

/** `room`: of a system on the same basis, which the model then works in; default its own. */
export function reducedModel(
  prepared: Prepared,
  basis: ReducedBasis,
  microphone: Microphone,
  room: ReducedSystem | null = null,
): SmallModel {
  const size = prepared.plate.size;
  return modelOf(room ? alikeSystem(room, microphone) : reducedSystem(basis, microphone), () => {
    const whole = probeForce(prepared);
    return Float64Array.from({ length: basis.count }, (_, i) =>
      dot(basis.plate.subarray(i * size, (i + 1) * size), whole),
    );
  });
}

/** The same for matrices that are at hand, with the probe on their functions, or what computes it when it is asked for. */
export function modelOf(system: ReducedSystem, probe: Float64Array | (() => Float64Array)): SmallModel {
  let known = typeof probe === "function" ? null : probe;
  return {
    microphone: system.microphone,
    set: (omega) => {
      setReducedFrequency(system, omega);
      return reducedPortState(system, omega);
    },
    work: system.work,
    sink: () => system.sink,
    filmRe: system.filmRe,
    filmIm: system.filmIm,
    filmWavenumbers: wavenumbers(system.basis.kappa, system.microphone),
    asideWavenumbers: wavenumbers(system.basis.hole?.prepared.odd.kSquared ?? none.re, system.microphone),
    solve: (force) => solveReduced(system, { re: force, im: new Float64Array(force.length) }),
    probe: () => {
      known ??= typeof probe === "function" ? probe() : probe;
      return known;
    },
    form: reducedForm(system),
    reduced: system,
  };
}

/**
 * The same device without its constant loss factor, on the room of a model over few functions: of both, only the one that was set
 * last stands.
 */
export const withoutLossIn = (model: SmallModel): SmallModel => {
  const { diaphragm } = model.microphone;
  const microphone = { ...model.microphone, diaphragm: { ...diaphragm, lossFactor: 0 } };
  return modelOf(alikeSystem(model.reduced, microphone), model.probe);
};

function wavenumbers(squared: Float64Array, { diaphragm }: Microphone): Float64Array {
  const result = new Float64Array(squared.length);
  for (let m = 0; m < result.length; m++) result[m] = (2 / diaphragm.across) * Math.sqrt(Math.max(0, squared[m]!));
  return result;
}

/** Where the probe acts, in half sides from the center: on no line of symmetry and on no node of a low mode. */
const probeAt = { x: 0.37, y: 0.23 };

export function probeForce({ plate }: Prepared): Float64Array {
  const x = valuesAt(plate.across, probeAt.x).value;
  const y = valuesAt(plate.along, probeAt.y).value;
  const result = new Float64Array(plate.size);
  for (let i = 0; i < x.length; i++) for (let j = 0; j < y.length; j++) result[i * y.length + j] = x[i]! * y[j]!;
  return result;
}

/** Deflection under the probe per force, the air in front and behind included. */
export function probeCompliance(model: PoleModel, omega: Complex): Complex {
  const ports = model.set(omega);
  const probe = model.probe();
  const q = model.solve(probe);
  let [re, im] = [0, 0];
  for (let i = 0; i < probe.length; i++) {
    re += probe[i]! * q.re[i]!;
    im += probe[i]! * q.im[i]!;
  }
  return ports ? add({ re, im }, networkCompliance(ports, q)) : { re, im };
}

/**
 * What rings in a film at a wavenumber has at least this share of the frequency that it would have in the open: walls slow a wave
 * down to 0.78 before it dies (docs/theory/poles.md).
 */
const slowestWave = 0.7;

/** The longest wavenumber of a film that can ring with |omega| < top [1/m]. */
export const ringingWavenumber = ({ air }: Microphone, top: number): number =>
  top / (slowestWave * Math.sqrt((air.heatRatio * air.pressure) / air.density));

/** Where a film's wave of a wavenumber rings, or null where that is above `top` in any case. */
function filmStart(microphone: Microphone, k: number, top: number): Complex | null {
  const { air } = microphone;
  const speed = Math.sqrt((air.heatRatio * air.pressure) / air.density);
  return k > 0 && k <= ringingWavenumber(microphone, top) ? complex(0.8 * speed * k, 0.3 * speed * k) : null;
}

/** Film factors that can have a zero of their own with |omega| < top, and where to look for it. */
export function liveFactors({ microphone, filmWavenumbers }: PoleModel, top: number) {
  const live: { readonly index: number; readonly k: number; readonly start: Complex }[] = [];
  filmWavenumbers.forEach((k, index) => {
    const start = filmStart(microphone, k, top);
    if (start) live.push({ index, k, start });
  });
  // In a plate much longer than wide hundreds of film modes crowd below; the lowest are told apart, the rest found by force.
  return live.sort((a, b) => a.k - b.k).slice(0, mostLive);
}

const mostLive = 60;

/** Wavenumbers of the film functions aside that can have a zero of their own with |omega| < top [1/m], lowest first. */
export const liveAside = ({ microphone, asideWavenumbers }: PoleModel, top: number): Float64Array =>
  asideWavenumbers
    .filter((k) => filmStart(microphone, k, top) !== null)
    .sort()
    .slice(0, mostLive);

/** Psi k^2 + chi + y, the film's factor of one wavenumber. */
export function filmFactor({ microphone: { film, air }, form }: PoleModel, k: number, omega: Complex): Complex {
  const { psi, chi } = layerCoefficients(form.layer!, omega);
  const factor = add(scale(psi, k * k), chi);
  const { backPlate } = film!;
  if (!backPlate || backPlate.kind === "hole") return factor;
  return add(factor, wallAdmittance(backPlate, { air, omega, psi }));
}

/** A mode of the film alone: a zero of one of its factors. */
export interface FilmMode {
  readonly index: number;
  readonly omega: Complex;
}

/** Modes of the film alone, Psi k^2 + chi + y = 0 factor by factor: where poles lie that hardly move the plate. */
export const filmModes = (model: PoleModel, top: number): readonly FilmMode[] =>
  liveFactors(model, top).flatMap(({ index, k, start }) => {
    const omega = secant((at) => filmFactor(model, k, at), start);
    return omega ? [{ index, omega }] : [];
  });

/** Modes of the film aside, which only the hole in the wall joins to the rest [rad/s]. */
export const asideModes = (model: PoleModel, top: number): readonly Complex[] =>
  Array.from(liveAside(model, top)).flatMap((k) => {
    const omega = secant((at) => filmFactor(model, k, at), filmStart(model.microphone, k, top)!);
    return omega ? [omega] : [];
  });

/** Zero of a function from a start; null where it runs off or does not settle. */
function secant(f: (omega: Complex) => Complex, start: Complex): Complex | null {
  let before = start;
  let valueBefore = f(before);
  let here = multiply(start, complex(1.001, 0.0005));
  for (let step = 0; step < 40; step++) {
    const value = f(here);
    const change = divide(multiply(value, subtract(here, before)), subtract(value, valueBefore));
    if (!Number.isFinite(change.re) || !Number.isFinite(change.im)) return null;
    before = here;
    valueBefore = value;
    here = subtract(here, change);
    if (absolute(change) < 1e-6 * absolute(here)) return here;
  }
  return null;
}

/** Factors of the determinant beside plate and film: the ports, and the hole in the wall. */
export function pivotsOf(model: PoleModel, ports: PortState | null): readonly Complex[] {
  const sink = model.sink();
  return [...(ports ? portPivots(ports) : []), ...(sink ? [sink.impedance] : [])];
}

/**
 * Determinant over the factors of known poles, as a number and a logarithm: that of the plate with the film eliminated, times
 * those film factors that have a zero nearby (the others only turn slowly, but hundreds of them would slow a search), those that
 * only the hole in the wall drives among them.
 * Near a known pole it is not zero.
 */
export function deflatedDeterminant(
  model: PoleModel,
  live: readonly number[],
  known: readonly Complex[],
  omega: Complex,
  aside: Float64Array = none.re,
) {
  const ports = model.set(omega);
  let logarithm = 0;
  let [re, im] = [1, 0];
  const divideBy = (dRe: number, dIm: number) => {
    const squared = dRe * dRe + dIm * dIm;
    const next = (re * dRe + im * dIm) / squared;
    im = (im * dRe - re * dIm) / squared;
    re = next;
    const size = Math.abs(re) + Math.abs(im);
    if (size > 1e100 || size < 1e-100) {
      logarithm += Math.log(size);
      re /= size;
      im /= size;
    }
  };
  const { pivotRe, pivotIm } = model.work;
  for (let i = 0; i < pivotRe.length; i++) divideBy(pivotRe[i]!, pivotIm[i]!);
  for (const index of live) divideBy(model.filmRe[index]!, model.filmIm[index]!);
  for (const k of aside) {
    // Their sizes differ by orders: only the direction and how it grows near a zero count, so each over its own wavenumber.
    const factor = filmFactor(model, k, omega);
    const inverse = divide(complex(k * k * cube(model.microphone.film!.gap)), factor);
    divideBy(inverse.re, inverse.im);
  }
  for (const pivot of pivotsOf(model, ports)) {
    const inverse = divide(complex(1), pivot);
    divideBy(inverse.re, inverse.im);
  }
  const size = absolute(omega);
  for (const pole of known) divideBy((omega.re - pole.re) / size, (omega.im - pole.im) / size);
  return { re, im, logarithm };
}
