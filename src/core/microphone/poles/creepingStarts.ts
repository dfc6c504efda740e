/**
 * Where the real poles of plate and film lie, nearly and all at once: with Psi, chi / s and the plate's stiffness frozen at one
 * rate the creep of the film under a plate that follows is a small symmetric problem for its pressures p,
 *
 *     diag(Psi kappa + y) p = rate (chi / s + C^T (1 + rate^2 m)^-1 C) p,   q = -(1 + rate^2 m)^-1 C p
 *
 * Thin films, whose Psi and chi / s hardly change over the range, it gives to some per mille. Starts only: realPoles.ts polishes
 * and confirms them. Derivation: docs/theory/poles.md.
 */
import { cholesky } from "../../numerics/cholesky.ts";
import { complex } from "../../numerics/complex.ts";
import { generalizedEigen } from "../../numerics/symmetricEigen.ts";
import type { ReducedSystem } from "../basis/reduced.ts";
import { filmNumbers } from "../system/coupled.ts";
import type { CreepMotion } from "./creepMotion.ts";

/** Film functions that are counted, those of the longest waves: eight rates of a square film to 1e-3 of themselves. */
const mostFunctions = 14;

/** Rates of the film alone, under a plate that holds still, by the same coefficients, slowest first; a closed film's rest is none [1/s]. */
export function filmCreeping({ basis, microphone, scales }: ReducedSystem, frozenAt: number): Float64Array {
  if (basis.filmCount === 0) return new Float64Array(0);
  const { perK, uniform, compression } = filmNumbers(microphone, scales, complex(0, frozenAt));
  const rates = basis.kappa.map(
    (kappa) => (-frozenAt * (perK.re * kappa + uniform.re - compression.re)) / compression.re,
  );
  return rates.filter((rate) => rate > 1e-9 * frozenAt).sort();
}

/** Starts for rates between 0 and `upTo` [1/s], slowest first; coefficients are those of the rate `frozenAt`. */
export function creepingStarts(system: ReducedSystem, upTo: number, frozenAt: number): readonly CreepMotion[] {
  const { basis, microphone, scales } = system;
  const { count, filmCount: width, coupling, kappa, mass } = basis;
  // Film functions stand in the order of their wavenumbers.
  const filmCount = Math.min(width, mostFunctions);
  if (filmCount === 0) return [];
  const { perK, uniform, compression } = filmNumbers(microphone, scales, complex(0, frozenAt));
  const follows = mass.map((value) => 1 / (1 + frozenAt ** 2 * scales.lambda * value));
  const stored = new Float64Array(filmCount * filmCount);
  for (let i = 0; i < count; i++) {
    const row = i * width;
    for (let j = 0; j < filmCount; j++) {
      const factor = follows[i]! * coupling[row + j]!;
      for (let k = 0; k < filmCount; k++) stored[j * filmCount + k]! += factor * coupling[row + k]!;
    }
  }
  const flow = new Float64Array(filmCount * filmCount);
  for (let j = 0; j < filmCount; j++) {
    stored[j * filmCount + j]! += compression.re;
    flow[j * filmCount + j] = -frozenAt * (perK.re * kappa[j]! + uniform.re - compression.re);
  }
  // Where flow - upTo stored is positive definite none is slower.
  if (
    cholesky(
      flow.map((value, at) => value - upTo * stored[at]!),
      filmCount,
    ) !== null
  )
    return [];
  const factor = cholesky(stored, filmCount);
  if (factor === null) return [];
  const { values, vectors } = generalizedEigen(factor, flow);
  const starts: CreepMotion[] = [];
  for (let row = filmCount - 1; row >= 0; row--) {
    const rate = 1 / values[row]!;
    if (!(rate > 1e-9 * frozenAt)) continue;
    if (rate > upTo) break;
    const film = new Float64Array(width);
    film.set(vectors.subarray(row * filmCount, (row + 1) * filmCount));
    const plate = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      let pushed = 0;
      for (let j = 0; j < filmCount; j++) pushed += coupling[i * width + j]! * film[j]!;
      plate[i] = -follows[i]! * pushed;
    }
    starts.push({ rate, plate, film });
  }
  return starts;
}
