/** Modes of the diaphragm in vacuum, without loss, in all four classes of symmetry. */
import { cholesky } from "../../numerics/cholesky.ts";
import { bandCholesky, dense } from "../../numerics/kronecker.ts";
import { generalizedEigen, generalizedEigenvalues } from "../../numerics/symmetricEigen.ts";
import type { Diaphragm } from "./diaphragm.ts";
import type { LoadedPlate } from "./largeDeflection.ts";
import { type Plate, type PlateOptions, plate, stiffness } from "./plate.ts";
import type { Side } from "./polynomials.ts";
import { bendingStiffness, plateScales, plateShape } from "./shape.ts";

/** Parity across (x) and along (y): "oe" is odd across, even along. */
export type Parity = "ee" | "eo" | "oe" | "oo";

export interface PlateMode {
  /** Angular frequency [rad/s]. */
  readonly omega: number;
  readonly parity: Parity;
}

const classes: readonly (readonly [Parity, Side, Side])[] = [
  ["ee", "even", "even"],
  ["eo", "even", "odd"],
  ["oe", "odd", "even"],
  ["oo", "odd", "odd"],
];

/**
 * Modes up to `upTo` times the lowest (default 6), in order of frequency, with `functions` polynomials a direction.
 * With 10 functions the sixth mode of a clamped square is exact to better than 1e-7.
 * `about`: small motions about this plate's state. An empty list where the diaphragm is buckled in some class.
 */
export function plateModes(
  diaphragm: Diaphragm,
  options: { functions: PlateOptions["functions"]; upTo?: number; about?: LoadedPlate | null },
): readonly PlateMode[] {
  const shape = plateShape(diaphragm);
  const { lambda } = plateScales(diaphragm);
  const found: PlateMode[] = [];
  for (const [parity, across, along] of classes) {
    const part = plate(shape, { across, along, functions: options.functions });
    const whole = dense(stiffness(part));
    options.about?.about(part).stiffness.forEach((value, i) => {
      whole[i]! += value;
    });
    const factor = cholesky(whole, part.size);
    if (factor === null) return [];
    for (const value of generalizedEigenvalues(factor, dense(part.mass))) {
      if (value > 0) found.push({ omega: Math.sqrt(value / lambda), parity });
    }
  }
  found.sort((a, b) => a.omega - b.omega);
  const limit = (options.upTo ?? 6) * (found[0]?.omega ?? 0);
  return found.filter((mode) => mode.omega <= limit);
}

/** A mode with its shape: the functions of its class and what each of them has in it. */
export interface PlateModeShape extends PlateMode {
  readonly plate: Plate;
  readonly q: Float64Array;
}

/** The lowest `count` modes with their shapes, in order of frequency; none where the diaphragm is buckled. */
export function plateModeShapes(
  diaphragm: Diaphragm,
  options: { readonly functions: PlateOptions["functions"]; readonly count: number },
): readonly PlateModeShape[] {
  const shape = plateShape(diaphragm);
  const { lambda } = plateScales(diaphragm);
  const found: PlateModeShape[] = [];
  for (const [parity, across, along] of classes) {
    const part = plate(shape, { across, along, functions: options.functions });
    const factor = cholesky(dense(stiffness(part)), part.size);
    if (factor === null) return [];
    const { values, vectors } = generalizedEigen(factor, dense(part.mass));
    values.subarray(0, options.count).forEach((value, i) => {
      const q = vectors.slice(i * part.size, (i + 1) * part.size);
      found.push({ omega: Math.sqrt(value / lambda), parity, plate: part, q });
    });
  }
  return found.sort((a, b) => a.omega - b.omega).slice(0, options.count);
}

/** True where compression has made the stiffness lose its positive definiteness in any class: the plate is buckled. */
export function isBuckled(diaphragm: Diaphragm, functions: number): boolean {
  const { across, along } = diaphragm.tension;
  if (across >= 0 && along >= 0) return false;
  if (resistsBySines(diaphragm)) return false;
  const shape = plateShape(diaphragm);
  return classes.some(([, x, y]) => {
    const part = plate(shape, { across: x, along: y, functions });
    return bandCholesky(stiffness(part)) === null;
  });
}

/**
 * True where the bending stiffness alone outweighs the compression in every wave that the edges let pass: then no shape buckles.
 *
 *     D11 (pi / a)^2 + N_x > 0,   D22 (pi / b)^2 + N_y > 0
 *
 * Derivation: any w that vanishes on the edges is a sum of sines, k_x >= pi / a, k_y >= pi / b, in which the energy has no mixed
 * terms: kx^2 (D11 kx^2 + N_x) + ky^2 (D22 ky^2 + N_y) + 2 (D12 + 2 D66) kx^2 ky^2; edges that resist turning add to it.
 * Enough for most, not needed: clamped edges bear some four times as much.
 */
function resistsBySines(diaphragm: Diaphragm): boolean {
  const { d11, d12, d22, d66 } = bendingStiffness(diaphragm);
  const { across: a, along: b, tension } = diaphragm;
  const waves = d11 * (Math.PI / a) ** 2 + tension.across > 0 && d22 * (Math.PI / b) ** 2 + tension.along > 0;
  return waves && d12 + 2 * d66 >= 0;
}
