/**
 * What depends on the shape of the diaphragm and the kind of film edges only: made once, used at every frequency and for
 * every gap, thickness, material of the same shape. Plain typed arrays, so that it can travel to a worker.
 */

import { type BandCholesky, bandCholesky, dense } from "../numerics/kronecker.ts";
import type { Plate } from "../parts/diaphragm/plate.ts";
import { plate, stiffness } from "../parts/diaphragm/plate.ts";
import { type PlateShape, plateShape } from "../parts/diaphragm/shape.ts";
import type { Film, FilmEdge } from "../parts/film/film.ts";
import { type PressureTerms, pressureTerms, projections } from "../parts/film/pressureTerms.ts";
import type { Microphone } from "./microphone.ts";

/** The film's pressure functions over one plate, and the products that its two-pass sum needs. */
export interface PreparedFilm {
  readonly edges: { readonly sides: FilmEdge; readonly ends: FilmEdge };
  readonly across: PressureTerms;
  readonly along: PressureTerms;
  /** Polynomials on pressure functions, one row a polynomial. */
  readonly projectAcross: Float64Array;
  readonly projectAlong: Float64Array;
  /** Products of two projections, one row a pair i >= k in the order (0,0), (1,0), (1,1), (2,0) ... */
  readonly pairsAcross: Float64Array;
  readonly pairsAlong: Float64Array;
}

export interface Prepared {
  readonly shape: PlateShape;
  /** Basis of the coupled answer. */
  readonly plate: Plate;
  /** Its matrices, row-major size x size; tension null where there is none. */
  readonly bending: Float64Array;
  readonly tension: Float64Array | null;
  readonly mass: Float64Array;
  /** Larger basis of the same family for the static answer, and its factored stiffness (head of line.ts). */
  readonly fine: Plate;
  readonly fineFactor: BandCholesky;
  readonly film: PreparedFilm | null;
  /** Film under the larger basis: projections only. */
  readonly fineFilm: { readonly projectAcross: Float64Array; readonly projectAlong: Float64Array } | null;
}

/** Polynomials across and along. */
export interface Functions {
  readonly across: number;
  readonly along: number;
}

export interface Resolution {
  /** Plate functions in the coupled answer. */
  readonly functions: Functions;
  /** Plate functions in the static answer. */
  readonly fine: Functions;
  /** Film terms a direction. */
  readonly filmTerms: number;
}

/**
 * Resolution that belongs to so many functions in the coupled answer. At 8 a direction the coupled deflection is good to 1e-7
 * up to 2.2 times the first resonance, the static curvature along a clamped side to 3e-7 (tests/resolution).
 */
export function resolution({ across, along }: Functions): Resolution {
  return {
    functions: { across, along },
    fine: { across: 4 * across, along: 3 * along + 4 },
    filmTerms: Math.max(28, 3 * Math.max(across, along) + 4),
  };
}

/**
 * Resolution for a diaphragm. Under tension the curvature at an edge lives in a layer sqrt(D / N) wide, and a long plate's ends
 * are layers a short side wide. Polynomials resolve a layer of 1 / n^2 of the side, so their number goes with the root of its
 * inverse: 8 suffice down to a thirtieth of the side under tension, and up to a side ratio of 3.
 */
export function resolutionFor(microphone: Microphone): Resolution {
  const { tensionAcross, tensionAlong, aspect, ratio } = plateShape(microphone.diaphragm);
  const wanted = (tension: number, slender: number) => {
    const layers = Math.max(1, Math.sqrt(Math.max(tension, 0)) / 30, slender / 3);
    return Math.min(16, 2 * Math.ceil(4 * Math.sqrt(layers)));
  };
  return resolution({
    across: wanted(tensionAcross, 1 / aspect),
    along: wanted((tensionAlong * aspect ** 2) / ratio, aspect),
  });
}

/**
 * Prepares the even-even class, the only one that a uniform pressure excites.
 * Throws where the diaphragm is buckled: ask `isBuckled` first.
 */
export function prepare(microphone: Microphone, detail: Resolution = resolutionFor(microphone)): Prepared {
  const shape = plateShape(microphone.diaphragm);
  const sides = { across: "even", along: "even" } as const;
  const coarse = plate(shape, { ...sides, functions: detail.functions });
  const fine = plate(shape, { ...sides, functions: detail.fine });
  const fineFactor = bandCholesky(stiffness(fine));
  if (fineFactor === null)
    throw new Error(`Diaphragm is buckled: N a^2 / D11 = ${shape.tensionAcross}, ${shape.tensionAlong}.`);
  const film = microphone.film === null ? null : prepareFilm(coarse, microphone.film, detail.filmTerms);
  const fineFilm =
    film === null
      ? null
      : {
          projectAcross: projections(fine.across, film.across),
          projectAlong: projections(fine.along, film.along),
        };
  return {
    shape,
    plate: coarse,
    bending: dense(coarse.bending),
    tension: coarse.tension && dense(coarse.tension),
    mass: dense(coarse.mass),
    fine,
    fineFactor,
    film,
    fineFilm,
  };
}

function prepareFilm(over: Plate, film: Film, count: number): PreparedFilm {
  const across = pressureTerms(film.edges.sides, over.across.side, count);
  const along = pressureTerms(film.edges.ends, over.along.side, count);
  const projectAcross = projections(over.across, across);
  const projectAlong = projections(over.along, along);
  return {
    edges: film.edges,
    across,
    along,
    projectAcross,
    projectAlong,
    pairsAcross: pairProducts(projectAcross, count),
    pairsAlong: pairProducts(projectAlong, count),
  };
}

function pairProducts(project: Float64Array, terms: number): Float64Array {
  const count = project.length / terms;
  const result = new Float64Array(((count * (count + 1)) / 2) * terms);
  let row = 0;
  for (let i = 0; i < count; i++) {
    for (let k = 0; k <= i; k++, row++) {
      for (let m = 0; m < terms; m++) result[row * terms + m] = project[i * terms + m]! * project[k * terms + m]!;
    }
  }
  return result;
}
