/** Plate and film as the search for poles sees them: whole or reduced, the same questions. */
import { absolute, add, type Complex, complex, divide } from "../numerics/complex.ts";
import type { ComplexVector, SymmetricWork } from "../numerics/complexSymmetric.ts";
import { valuesAt } from "../parts/diaphragm/polynomials.ts";
import { coupledSystem, portState, setFrequency, solveLoad } from "./coupled.ts";
import type { Microphone } from "./microphone.ts";
import { networkCompliance, type PortState, portPivots } from "./network.ts";
import type { Prepared } from "./prepare.ts";
import { reducedPortState, reducedSystem, setReducedFrequency, solveReduced } from "./reduced.ts";
import { dot, type ReducedBasis, squaredWavenumbers } from "./reducedBasis.ts";

export interface PoleModel {
  readonly microphone: Microphone;
  /** Fills and factors at a frequency [rad/s]; afterwards `work`, `filmRe`, `filmIm` belong to it. Gives the port matrix. */
  readonly set: (omega: Complex) => PortState | null;
  readonly work: SymmetricWork;
  /** Inverse factors of the film in the determinant. */
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
  /** Wavenumbers of those factors [1/m]. */
  readonly filmWavenumbers: Float64Array;
  /** Answer at the frequency that was set. */
  readonly solve: (force: Float64Array) => ComplexVector;
  /** A point force off all lines of symmetry, so that no mode of the class escapes. */
  readonly probe: Float64Array;
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
    filmRe: system.filmRe,
    filmIm: system.filmIm,
    filmWavenumbers: wavenumbers(prepared.film ? squaredWavenumbers(prepared) : new Float64Array(0), microphone),
    solve: (force) => solveLoad(system, force),
    probe: probeForce(prepared),
  };
}

export function reducedModel(prepared: Prepared, basis: ReducedBasis, microphone: Microphone): PoleModel {
  const system = reducedSystem(basis, microphone);
  const size = prepared.plate.size;
  const whole = probeForce(prepared);
  return {
    microphone,
    set: (omega) => {
      setReducedFrequency(system, omega);
      return reducedPortState(system, omega);
    },
    work: system.work,
    filmRe: system.filmRe,
    filmIm: system.filmIm,
    filmWavenumbers: wavenumbers(basis.kappa, microphone),
    solve: (force) => solveReduced(system, { re: force, im: new Float64Array(force.length) }),
    probe: Float64Array.from({ length: basis.count }, (_, i) =>
      dot(basis.plate.subarray(i * size, (i + 1) * size), whole),
    ),
  };
}

const wavenumbers = (squared: Float64Array, { diaphragm }: Microphone): Float64Array =>
  squared.map((value) => (2 / diaphragm.across) * Math.sqrt(Math.max(0, value)));

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
  const { probe } = model;
  const q = model.solve(probe);
  let [re, im] = [0, 0];
  for (let i = 0; i < probe.length; i++) {
    re += probe[i]! * q.re[i]!;
    im += probe[i]! * q.im[i]!;
  }
  return ports ? add({ re, im }, networkCompliance(ports, q)) : { re, im };
}

/**
 * Film factors that can have a zero of their own with |omega| < top, and where to look for it. No wave in a film is faster than
 * sound in the open; half its speed covers what walls do to waves that still ring.
 */
export function liveFactors({ microphone, filmWavenumbers }: PoleModel, top: number) {
  const { air } = microphone;
  const speed = Math.sqrt((air.heatRatio * air.pressure) / air.density);
  const live: { readonly index: number; readonly k: number; readonly start: Complex }[] = [];
  filmWavenumbers.forEach((k, index) => {
    if (k > 0 && 0.5 * speed * k <= top) live.push({ index, k, start: complex(0.8 * speed * k, 0.3 * speed * k) });
  });
  // In a plate much longer than wide hundreds of film modes crowd below; the lowest are told apart, the rest found by force.
  return live.sort((a, b) => a.k - b.k).slice(0, mostLive);
}

const mostLive = 60;

/**
 * Determinant over the factors of known poles, as a number and a logarithm: that of the plate with the film eliminated, times
 * those film factors that have a zero nearby (the others only turn slowly, but hundreds of them would slow a search).
 * Near a known pole it is not zero.
 */
export function deflatedDeterminant(
  model: PoleModel,
  live: readonly number[],
  known: readonly Complex[],
  omega: Complex,
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
  for (const pivot of ports ? portPivots(ports) : []) {
    const inverse = divide(complex(1), pivot);
    divideBy(inverse.re, inverse.im);
  }
  const size = absolute(omega);
  for (const pole of known) divideBy((omega.re - pole.re) / size, (omega.im - pole.im) / size);
  return { re, im, logarithm };
}
