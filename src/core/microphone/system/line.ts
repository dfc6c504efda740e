/**
 * The line of light as a functional on the plate: phi = c^T q.
 *
 * Curvature at an edge converges slowly in polynomials, deflection fast. So the phase is not read from the coupled answer's
 * curvature but through the static influence function g = (K_b + K_t)^-1 c, solved once in a larger basis:
 *
 *     (1 + i eta) c^T w = g^T F p - g^T Z w + Lambda g^T M w + i eta g^T K_t w
 *
 * which holds exactly for the true w (test the equation of motion with g) and needs only deflections of the coupled answer.
 * About a static load the stretch of the motion, K_m, pulls as well: - g^T K_m w on the right, and phi = c^T w + t^T w with the
 * strain of the neutral plane, t. Both are smooth. Derivation: docs/theory/phase.md, docs/theory/staticLoad.md.
 */
import { cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import { bandSolve, multiplyKronecker } from "../../numerics/kronecker.ts";
import type { SoundAbout } from "../../parts/diaphragm/largeDeflection.ts";
import { overLine, type Plate, plate } from "../../parts/diaphragm/plate.ts";
import { weightedValues } from "../../parts/diaphragm/polynomials.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { lateralPoints } from "../../parts/guide/lateral.ts";
import { readingsOf } from "../../parts/guide/readings.ts";
import type { Microphone } from "../microphone.ts";
import { restingPlate } from "../rest/rest.ts";
import { projectOnFilm } from "./filmProjection.ts";
import { type Prepared, wholeStiffness } from "./prepare.ts";

/** All guides of a microphone, weighted and summed; per unit of the dimensionless answer of plate.ts [rad/Pa]. */
export interface Line {
  /** Static sensitivity of the plate alone, about its state at rest [rad/Pa]. */
  readonly static: number;
  /** g^T F: the same of the plate that no static load stretches [rad/Pa]. */
  readonly force: number;
  /** g^T K_m and t on the coupled basis; null: nothing loads the plate at rest. */
  readonly stretched: { readonly force: Float64Array; readonly strain: Float64Array } | null;
  /** g^T M and g^T K_t on the coupled basis. */
  readonly mass: Float64Array;
  readonly tension: Float64Array | null;
  /** g on the film's pressure functions, row-major across x along; null without film. */
  readonly film: Float64Array | null;
  /** c^T g, g^T M g, g^T K_t g, g^T K_m g and t^T g: what heat sees of the line itself (lineAnswer.ts). */
  readonly self: {
    readonly compliance: number;
    readonly mass: number;
    readonly tension: number;
    readonly stretchForce: number;
    readonly stretchStrain: number;
  };
}

/** Influence function of the guides and its products with everything that loads the plate. */
export function prepareLine(prepared: Prepared, microphone: Microphone): Line {
  const { fine } = prepared;
  const { deflection } = plateScales(microphone.diaphragm);
  const c = guideVector(fine, microphone).map((value) => value * deflection);
  const g = bandSolve(prepared.fineFactor, c);
  const mass = multiplyKronecker(fine.mass, g);
  const tension = fine.tension && multiplyKronecker(fine.tension, g);
  const force = dot(g, fine.load);
  const stretch = stretchOf(prepared, microphone, g);
  return {
    static: stretch ? staticAbout(prepared, force, stretch) : force,
    force,
    stretched: stretch && { force: stretch.force, strain: stretch.strain },
    mass: leading(mass, fine, prepared.plate),
    tension: tension && leading(tension, fine, prepared.plate),
    self: {
      compliance: dot(c, g),
      mass: dot(g, mass),
      tension: tension ? dot(g, tension) : 0,
      stretchForce: stretch?.selfForce ?? 0,
      stretchStrain: stretch?.selfStrain ?? 0,
    },
    film:
      prepared.fineFilm && prepared.film ? projectOnFilm(fine, { ...prepared.film, ...prepared.fineFilm }, g) : null,
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** The part of a vector on a larger basis that belongs to a smaller one; both count from the lowest degree. */
function leading(vector: Float64Array, from: Plate, to: Plate): Float64Array {
  const result = new Float64Array(to.size);
  const { count } = to.along;
  for (let i = 0; i < to.across.count; i++) {
    for (let j = 0; j < count; j++) result[i * count + j] = vector[i * from.along.count + j]!;
  }
  return result;
}

/** Functions a direction on which the membrane's force on g is counted; it falls off with their degree as a smooth force does. */
const stretchFunctions = 24;

/** K_m g and t; null without a static load. */
function stretchOf(prepared: Prepared, microphone: Microphone, g: Float64Array) {
  const { plate: coarse, fine } = prepared;
  const resting = restingPlate(microphone, prepared.rest);
  if (!resting) return null;
  const middle = plate(prepared.shape, {
    across: fine.across.side,
    along: fine.along.side,
    functions: {
      across: Math.min(stretchFunctions, fine.across.count),
      along: Math.min(stretchFunctions, fine.along.count),
    },
  });
  const motion = leading(g, fine, middle);
  const [onCoarse, onMiddle] = [resting.about(coarse), resting.about(middle)];
  const { deflection } = plateScales(microphone.diaphragm);
  const strain = (about: SoundAbout, size: number) => stretchVector(about, size, microphone).map((v) => v * deflection);
  return {
    force: onCoarse.push(middle, motion),
    strain: strain(onCoarse, coarse.size),
    selfForce: dot(motion, onMiddle.push(middle, motion)),
    selfStrain: dot(motion, strain(onMiddle, middle.size)),
  };
}

/** g^T F - g^T K_m q + t^T q for the static answer q. */
function staticAbout(prepared: Prepared, force: number, row: { force: Float64Array; strain: Float64Array }): number {
  const factor = cholesky(wholeStiffness(prepared), prepared.plate.size);
  if (factor === null) throw new Error("A plate that is not buckled has a positive stiffness.");
  const q = choleskySolve(factor, prepared.plate.load);
  return force - dot(row.force, q) + dot(row.strain, q);
}

/** Phase per unit of each function of a plate by the stretch of its neutral plane, all guides weighted and summed [rad/m]. */
function stretchVector(about: SoundAbout, size: number, { diaphragm, guides, light }: Microphone): Float64Array {
  const t = new Float64Array(size);
  for (const guide of guides) {
    for (const phase of readingsOf({ guide, wavelength: light.wavelength, diaphragm })) {
      for (const { x, weight } of lateralPoints({ at: guide.at, width: phase.width }, diaphragm.across)) {
        const strain = about.stretch((2 * x) / diaphragm.across);
        const by = guide.weight * weight;
        for (let i = 0; i < size; i++) t[i]! += by * (phase.x * strain.x[i]! + phase.y * strain.y[i]!);
      }
    }
  }
  return t;
}

/** Phase per unit of each function of a plate, all guides weighted and summed [rad/m]. */
export function guideVector(plate: Plate, microphone: Microphone): Float64Array {
  const { curvature, value } = guideAcross(plate, microphone);
  return overLine(plate, curvature, value);
}

/** The same of the functions across: those along are averaged over the line, which is the same at every x (`overLine`). */
export function guideAcross({ across }: Pick<Plate, "across">, { diaphragm, guides, light }: Microphone) {
  const perXx = (2 / diaphragm.across) ** 2;
  const perYy = (2 / diaphragm.along) ** 2;
  const places = guides.flatMap((guide) =>
    readingsOf({ guide, wavelength: light.wavelength, diaphragm }).flatMap((phase) =>
      lateralPoints({ at: guide.at, width: phase.width }, diaphragm.across).map(({ x, weight }) => ({
        xi: (2 * x) / diaphragm.across,
        toCurvature: guide.weight * weight * phase.xx * perXx,
        toValue: guide.weight * weight * phase.yy * perYy,
      })),
    ),
  );
  return weightedValues(across, places);
}
