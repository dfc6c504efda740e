/**
 * What depends on the shape of the diaphragm and the kind of film edges only: made once, used at every frequency and for
 * every gap, thickness, material of the same shape. Plain typed arrays, so that it can travel to a worker.
 */

import { type Cholesky, cholesky } from "../numerics/cholesky.ts";
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
  /** Larger basis of the same family for the static answer, and its factored stiffness (head of line.ts). */
  readonly fine: Plate;
  readonly fineFactor: Cholesky;
  readonly film: PreparedFilm | null;
  /** Film under the larger basis: projections only. */
  readonly fineFilm: { readonly projectAcross: Float64Array; readonly projectAlong: Float64Array } | null;
}

export interface Resolution {
  /** Plate functions a direction in the coupled answer. */
  readonly functions: number;
  /** Plate functions a direction in the static answer. */
  readonly fineFunctions: number;
  /** Film terms a direction. */
  readonly filmTerms: number;
}

/** Enough for 1e-6 in the response of plates without strong tension (tests/resolution). */
export const usualResolution: Resolution = { functions: 8, fineFunctions: 14, filmTerms: 28 };

/**
 * Resolution for a diaphragm: under tension the curvature at the edge lives in a layer sqrt(D / N) wide and wants more
 * functions. 1000 = N a^2 / D wants 14 for 1e-5; the number of functions goes with the root of the layer's width.
 */
export function resolutionFor(microphone: Microphone): Resolution {
  const shape = plateShape(microphone.diaphragm);
  const along = (shape.tensionAlong * shape.aspect ** 2) / shape.ratio;
  const strongest = Math.max(shape.tensionAcross, along, 0);
  const more = Math.ceil(Math.min(16, 4 * (strongest / 1000) ** 0.25));
  const extra = strongest > 1 ? more : 0;
  // Rounded up to even, so that few resolutions are ever prepared.
  const functions = usualResolution.functions + 2 * Math.ceil(extra / 2);
  return {
    functions,
    fineFunctions: usualResolution.fineFunctions + 2 * extra,
    filmTerms: Math.max(usualResolution.filmTerms, 3 * functions + 4),
  };
}

/**
 * Prepares the even-even class, the only one that a uniform pressure excites.
 * Throws where the diaphragm is buckled: ask `isBuckled` first.
 */
export function prepare(microphone: Microphone, resolution: Resolution = resolutionFor(microphone)): Prepared {
  const shape = plateShape(microphone.diaphragm);
  const sides = { across: "even", along: "even" } as const;
  const coarse = plate(shape, { ...sides, functions: resolution.functions });
  const fine = plate(shape, { ...sides, functions: resolution.fineFunctions });
  const fineFactor = cholesky(stiffness(fine), fine.size);
  if (fineFactor === null)
    throw new Error(`Diaphragm is buckled: N a^2 / D11 = ${shape.tensionAcross}, ${shape.tensionAlong}.`);
  const film = microphone.film === null ? null : prepareFilm(coarse, microphone.film, resolution.filmTerms);
  const fineFilm =
    film === null
      ? null
      : {
          projectAcross: projections(fine.across, film.across),
          projectAlong: projections(fine.along, film.along),
        };
  return { shape, plate: coarse, fine, fineFactor, film, fineFilm };
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
