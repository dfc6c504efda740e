/**
 * The line of light as a functional on the plate: phi = c^T q.
 *
 * Curvature at an edge converges slowly in polynomials, deflection fast. So the phase is not read from the coupled answer's
 * curvature but through the static influence function g = (K_b + K_t)^-1 c, solved once in a larger basis:
 *
 *     (1 + i eta) c^T w = g^T F p - g^T Z w + Lambda g^T M w + i eta g^T K_t w
 *
 * which holds exactly for the true w (test the equation of motion with g) and needs only deflections of the coupled answer.
 * Derivation: docs/theory/phase.md.
 */
import { bandSolve, multiplyKronecker } from "../numerics/kronecker.ts";
import { lineAverages, type Plate } from "../parts/diaphragm/plate.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import { lateralPoints } from "../parts/guide/lateral.ts";
import { bendingPhase } from "../parts/guide/photoelastic.ts";
import { projectOnFilm } from "./filmProjection.ts";
import type { Microphone } from "./microphone.ts";
import type { Prepared } from "./prepare.ts";

/** All guides of a microphone, weighted and summed; per unit of the dimensionless answer of plate.ts [rad/Pa]. */
export interface Line {
  /** g^T F: the static sensitivity of the plate alone [rad/Pa]. */
  readonly static: number;
  /** g^T M and g^T K_t on the coupled basis. */
  readonly mass: Float64Array;
  readonly tension: Float64Array | null;
  /** g on the film's pressure functions, row-major across x along; null without film. */
  readonly film: Float64Array | null;
  /** c^T g, g^T M g and g^T K_t g: what heat sees of the line itself (lineAnswer.ts). */
  readonly self: { readonly compliance: number; readonly mass: number; readonly tension: number };
}

/** Influence function of the guides and its products with everything that loads the plate. */
export function prepareLine(prepared: Prepared, microphone: Microphone): Line {
  const { fine } = prepared;
  const { deflection } = plateScales(microphone.diaphragm);
  const c = guideVector(fine, microphone).map((value) => value * deflection);
  const g = bandSolve(prepared.fineFactor, c);
  const mass = multiplyKronecker(fine.mass, g);
  const tension = fine.tension && multiplyKronecker(fine.tension, g);
  return {
    static: dot(g, fine.load),
    mass: onCoarse(mass, prepared),
    tension: tension && onCoarse(tension, prepared),
    self: { compliance: dot(c, g), mass: dot(g, mass), tension: tension ? dot(g, tension) : 0 },
    film:
      prepared.fineFilm && prepared.film ? projectOnFilm(fine, { ...prepared.film, ...prepared.fineFilm }, g) : null,
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** The part of a vector on the larger basis that belongs to the coupled one; both count from the lowest degree. */
function onCoarse(vector: Float64Array, { fine, plate }: Prepared): Float64Array {
  const result = new Float64Array(plate.size);
  const { count } = plate.along;
  for (let i = 0; i < plate.across.count; i++) {
    for (let j = 0; j < count; j++) result[i * count + j] = vector[i * fine.along.count + j]!;
  }
  return result;
}

/** Phase per unit of each function of a plate, all guides weighted and summed [rad/m]. */
export function guideVector(plate: Plate, { diaphragm, guides, light }: Microphone): Float64Array {
  const across = (2 / diaphragm.across) ** 2;
  const along = (2 / diaphragm.along) ** 2;
  const c = new Float64Array(plate.size);
  for (const guide of guides) {
    const phase = bendingPhase({ guide, wavelength: light.wavelength, diaphragm });
    for (const { x, weight } of lateralPoints(guide, diaphragm.across)) {
      const { xx, yy } = lineAverages(plate, (2 * x) / diaphragm.across);
      const toXx = guide.weight * weight * phase.xx * across;
      const toYy = guide.weight * weight * phase.yy * along;
      for (let i = 0; i < c.length; i++) c[i]! += toXx * xx[i]! + toYy * yy[i]!;
    }
  }
  return c;
}
