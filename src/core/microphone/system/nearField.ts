/**
 * The air that a bare diaphragm moves in front of it, as an inertance that belongs to its own shape.
 *
 *     M = rho0 c_n / a,   c_n = (a / 2 pi) (mean of 1 / distance between two points, weighted with w at both)
 *
 * In a wide baffle, small against the wavelength, moving in its static shape w: kinetic energy M U^2 / 2. In wavenumbers, with
 * kx = (2 / a) kappa cos t and ky = (2 / b) kappa sin t, the 1 / k of the kernel cancels against the area element:
 *
 *     c_n = (2 / (pi^2 r)) integral (W / W0)^2 / sqrt(cos^2 t + (sin t / r)^2) dt dkappa,   0 < t < pi / 2,   r = b / a
 *
 * Derivation: docs/theory/acoustics.md. Holds: motion in the static shape (the first mode is within a few per cent of it).
 */

import { cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import { dense } from "../../numerics/kronecker.ts";
import { gaussLegendre } from "../../numerics/legendre.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { plate, stiffness } from "../../parts/diaphragm/plate.ts";
import type { Polynomials } from "../../parts/diaphragm/polynomials.ts";
import type { PlateShape } from "../../parts/diaphragm/shape.ts";
import { projections } from "../../parts/film/pressureTerms.ts";

const angles = gaussLegendre(20);
const radii = gaussLegendre(14);
/** Limits of kappa; beyond 60 a clamped plate leaves 1e-9, a supported one 1e-5. */
const panels = [0, 5, 12, 25, 60];

/** c_n of a shape whose transform over its value at 0 is given as a function of kx a / 2 and ky b / 2 [-]. */
export function nearFieldCoefficient(aspect: number, transform: (x: number, y: number) => number): number {
  let sum = 0;
  angles.nodes.forEach((node, i) => {
    const t = (Math.PI / 4) * (1 + node);
    const [c, s] = [cos(t), sin(t)];
    let along = 0;
    for (let panel = 0; panel + 1 < panels.length; panel++) {
      const [from, to] = [panels[panel]!, panels[panel + 1]!];
      radii.nodes.forEach((place, j) => {
        const kappa = (from + to) / 2 + (place * (to - from)) / 2;
        along += ((radii.weights[j]! * (to - from)) / 2) * transform(kappa * c, kappa * s) ** 2;
      });
    }
    sum += (angles.weights[i]! * (Math.PI / 4) * along) / Math.hypot(c, s / aspect);
  });
  return (2 * sum) / (Math.PI ** 2 * aspect);
}

/** c_n of a plate in its static shape under uniform pressure [-]; null where it is buckled. */
export function plateNearField(shape: PlateShape): number | null {
  // Five polynomials a direction give the static shape to 1e-6.
  const small = plate(shape, { across: "even", along: "even", functions: 5 });
  const factor = cholesky(dense(stiffness(small)), small.size);
  if (factor === null) return null;
  const w = choleskySolve(factor, small.load);
  let swept = 0;
  for (let i = 0; i < small.size; i++) swept += w[i]! * small.load[i]!;
  return nearFieldCoefficient(shape.aspect, (x, y) => {
    const [alongX, alongY] = [cosines(small.across, x), cosines(small.along, y)];
    let sum = 0;
    for (let i = 0; i < alongX.length; i++) {
      for (let j = 0; j < alongY.length; j++) sum += w[i * alongY.length + j]! * alongX[i]! * alongY[j]!;
    }
    return sum / swept;
  });
}

/** integral of phi_i cos(c xi). */
const cosines = (basis: Polynomials, c: number): Float64Array =>
  projections(basis, { count: 1, wavenumbers: Float64Array.of(c), integrals: new Float64Array(1) });
