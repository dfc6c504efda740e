/** Many holes in the wall behind the film: what they let through, and what the film costs on the way to them. */

import { add, type Complex, complex, divide, scale } from "../../numerics/complex.ts";
import { fourth } from "../../numerics/power.ts";
import type { BackPlate, HoleArray, Tone } from "./acoustics.ts";
import { holeImpedance } from "./tube.ts";

/** Share of holes in the wall, square array [-]: (pi / 4) (diameter / pitch)^2. */
export const porosity = ({ diameter, pitch }: Pick<HoleArray, "diameter" | "pitch">): number =>
  (Math.PI / 4) * (diameter / pitch) ** 2;

/**
 * Fok function [-]: the end correction of a hole among many is divided by it.
 *
 *     psi(xi) = 1 / (1 - 1.40925 xi + 0.33818 xi^3 + 0.06793 xi^5 - ...),   xi = sqrt(porosity)
 *
 * Source: [fok-1941] (coefficients from memory, to be confirmed); its slope at xi = 0 is checked against the lattice sum of
 * a square array in truth/. Holds: xi up to 0.8; at touching holes (0.886) the cut series is useless.
 */
export function fokFunction(xi: number): number {
  let sum = 0;
  for (let n = fokTerms.length - 1; n >= 0; n--) sum = sum * xi + fokTerms[n]!;
  return 1 / sum;
}

const fokTerms = [
  1, -1.40925, 0, 0.33818, 0, 0.06793, -0.02287, 0.03015, -0.01641, 0.01729, -0.01248, 0.01205, -0.00985,
] as const;

/**
 * Velocity through a perforated wall per pressure across it [m/(Pa s)]: `y` of the film's d_m.
 *
 *     y = 1 / (pitch^2 Z_hole + Z_cell)
 *
 * Z_hole of one hole with its end corrections divided by the Fok function; Z_cell = R^2 B / Psi of `cellImpedance`, left
 * out where `psi` is null. Source: docs/theory/acoustics.md. Holds: pitch << side of the film; the end that looks into the
 * film has less room than its end correction supposes, so that its mass is an upper bound.
 */
export function perforatedWallAdmittance(given: Tone & HoleArray & { readonly psi: Complex | null }): Complex {
  return perforatedWall(given)(given.psi);
}

/** The same for any film over it, the holes reckoned once. */
function perforatedWall(given: Tone & HoleArray): (psi: Complex | null) => Complex {
  const { pitch, diameter, length, ends, air, omega } = given;
  const share = porosity(given);
  const openness = 1 / fokFunction(Math.sqrt(share));
  const through = scale(holeImpedance({ diameter, length, ends, air, omega, openness }), pitch * pitch);
  const radius = pitch / Math.sqrt(Math.PI);
  return (psi) => divide(complex(1), psi === null ? through : add(through, cellImpedance({ radius, share, psi })));
}

/**
 * Mean pressure over a round cell of film per velocity of its wall, the air leaving by a hole in the middle [Pa s/m].
 *
 *     Z = R^2 B(A) / Psi;   Psi = g^3 / (12 mu): F = pi R^2 Z v = 12 pi mu R^4 B(A) v / g^3
 *
 * `share` A is the hole's area over the cell's; Psi the film's flow coefficient [m3/(Pa s)].
 * Source: [skvor-1967], exact for Reynolds flow; with inertia in Psi: derivation in docs/theory/acoustics.md.
 * Holds: gap << hole and cell, no compression within a cell.
 */
export function cellImpedance(given: {
  readonly radius: number;
  readonly share: number;
  readonly psi: Complex;
}): Complex {
  const { radius, share, psi } = given;
  return divide(complex(radius * radius * skvorB(share)), psi);
}

/** B(A) = A / 2 - A^2 / 8 - ln(A) / 4 - 3 / 8 [-], A from 0 (excluded) to 1. Source: [skvor-1967] (from memory; derived anew). */
export const skvorB = (share: number): number => share / 2 - (share * share) / 8 - Math.log(share) / 4 - 3 / 8;

/** K(beta) = 4 beta^2 - beta^4 - 4 ln beta - 3 [-], beta hole radius over cell radius; 8 B(beta^2). Source: [bao-2003] (from memory). */
export const baoK = (beta: number): number => 4 * beta ** 2 - fourth(beta) - 4 * Math.log(beta) - 3;

/**
 * Velocity per pressure through the wall behind a film [m/(Pa s)]. One hole is no property of the wall's area: throws, because
 * `project/describe.ts` refuses it.
 */
export const wallAdmittance = (plate: BackPlate, tone: Tone & { readonly psi: Complex | null }): Complex =>
  wallAdmittances(plate, tone)(tone.psi);

/** The same at one frequency for the flow coefficient of any gap. */
export function wallAdmittances(plate: BackPlate, { air, omega }: Tone): (psi: Complex | null) => Complex {
  if (plate.kind === "admittance") return () => complex(plate.admittance);
  if (plate.kind === "holes") {
    const { diameter, pitch, length, ends } = plate.holes;
    return perforatedWall({ diameter, pitch, length, ends, air, omega });
  }
  throw new Error("One hole in the wall has no admittance per area.");
}
