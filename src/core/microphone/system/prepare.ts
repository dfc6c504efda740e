/**
 * What depends on the shape of the diaphragm and the kind of film edges only: made once, used at every frequency and for
 * every gap, thickness, material of the same shape. Plain typed arrays, so that it can travel to a worker.
 */

import { cholesky } from "../../numerics/cholesky.ts";
import { absolute, add, complex, scale } from "../../numerics/complex.ts";
import { type BandCholesky, bandCholesky, dense } from "../../numerics/kronecker.ts";
import { cube, fourth } from "../../numerics/power.ts";
import { generalizedEigenvalues } from "../../numerics/symmetricEigen.ts";
import { type Diaphragm, isBowed } from "../../parts/diaphragm/diaphragm.ts";
import type { LoadedPlate } from "../../parts/diaphragm/largeDeflection.ts";
import type { Plate } from "../../parts/diaphragm/plate.ts";
import { plate, stiffness } from "../../parts/diaphragm/plate.ts";
import type { Side } from "../../parts/diaphragm/polynomials.ts";
import { bendingStiffness, type PlateShape, plateShape } from "../../parts/diaphragm/shape.ts";
import { filmCoefficients } from "../../parts/film/coefficients.ts";
import type { Film, FilmEdge } from "../../parts/film/film.ts";
import { type PressureTerms, pressureTerms, projections } from "../../parts/film/pressureTerms.ts";
import { type GapField, reliefMatrices } from "../../parts/film/relief.ts";
import type { Microphone } from "../microphone.ts";
import { type Rest, restingPlate, restOf } from "../rest/rest.ts";
import { plateNearField } from "./nearField.ts";
import { isBare } from "./network.ts";
import { type FilmRelief, lowFunctions, reliefField, withOnes } from "./relief.ts";

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
  /** What a gap that is bent with the plate at rest does to the functions of low wavenumber; null: the plate rests flat. */
  readonly relief: FilmRelief | null;
}

export interface Prepared {
  readonly shape: PlateShape;
  /** Basis of the coupled answer. */
  readonly plate: Plate;
  /** Its matrices, row-major size x size; tension, with what a static load stretches, null where there is none. */
  readonly bending: Float64Array;
  readonly tension: Float64Array | null;
  readonly mass: Float64Array;
  /** Larger basis of the same family for the static answer, and its factored stiffness (head of line.ts). */
  readonly fine: Plate;
  readonly fineFactor: BandCholesky;
  readonly film: PreparedFilm | null;
  /** Film under the larger basis: projections only. */
  /** The plate at rest under a static difference; null: flat. */
  readonly rest: Rest | null;
  /** First frequency of this class as Lambda = omega^2 m a^4 / (16 D11), by few functions: a measure, not an answer. */
  readonly first: number;
  readonly fineFilm: { readonly projectAcross: Float64Array; readonly projectAlong: Float64Array } | null;
  /** c_n of nearField.ts where the bare diaphragm meets the air around a body; null elsewhere. */
  readonly nearField: number | null;
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

/** Resolution that belongs to so many functions in the coupled answer. */
export function resolution({ across, along }: Functions): Resolution {
  return {
    functions: { across, along },
    fine: { across: 4 * across, along: 3 * along + 4 },
    filmTerms: Math.max(28, 3 * Math.max(across, along) + 4),
  };
}

/**
 * Resolution at which the deflection is good to 1e-6 and the phase to 1e-5 up to 2.2 times the first resonance
 * (tests/resolution: 20 seeded devices). Two things want functions in a direction: the half waves that fit into half the side
 * at that frequency, c = k side / 2, waves on the film included; and, under tension, layers of sqrt(D / N) at the edges.
 *
 *     n = 8 .. 16, at least 4 + 0.8 c and 8 (layers / 25)^(1/2); 192 in all
 *
 * The numbers 4, 0.8, 8 and 25 are the smallest that held for 60 seeded devices; not derived.
 */
export function resolutionFor(microphone: Microphone): Resolution {
  const { diaphragm } = microphone;
  const { d11, d22 } = bendingStiffness(diaphragm);
  const waves = wavesAt(microphone, 2.2 * firstFrequency(diaphragm) * stiffened(microphone));
  const functions = (side: number, stiffness: number, tension: number, count: number) => {
    const layers = Math.sqrt((Math.max(tension, 0) * side ** 2) / stiffness);
    return Math.min(16, Math.ceil(Math.max(8, 4 + 0.8 * count, 8 * Math.sqrt(layers / 25))));
  };
  const across = functions(diaphragm.across, d11, diaphragm.tension.across, waves.across);
  const along = functions(diaphragm.along, d22, diaphragm.tension.along, waves.along);
  // A film of molecules asks for more than pays: its plate hardly moves at all.
  const share = Math.min(1, Math.sqrt(mostFunctions / (across * along)));
  return resolution({ across: Math.max(8, Math.floor(share * across)), along: Math.max(8, Math.floor(share * along)) });
}

/** Wavenumber of bending times half the side, across and along, at an angular frequency with the film's load [-]. */
export function wavesAt(microphone: Microphone, omega: number): { readonly across: number; readonly along: number } {
  const { diaphragm } = microphone;
  const { d11, d22 } = bendingStiffness(diaphragm);
  const waves = (side: number, stiffness: number, tension: number) =>
    (waveNumber(microphone, { omega, stiffness, tension }) * side) / 2;
  return {
    across: waves(diaphragm.across, d11, diaphragm.tension.across),
    along: waves(diaphragm.along, d22, diaphragm.tension.along),
  };
}

/** Functions in all; the time of one frequency goes with their third power. */
const mostFunctions = 192;

/** First angular frequency of the clamped plate by Rayleigh's quotient of beam shapes [rad/s]; an upper estimate. */
export function firstFrequency(diaphragm: Diaphragm): number {
  const { d11, d12, d22, d66 } = bendingStiffness(diaphragm);
  const { across: a, along: b, tension } = diaphragm;
  // 500.56 and 12.30: integrals of phi'' ^2 and phi'^2 over phi^2 of the clamped beam's first shape.
  const bending = 500.56 * (d11 / fourth(a) + d22 / fourth(b)) + (2 * 12.3 ** 2 * (d12 + 2 * d66)) / (a * b) ** 2;
  const stretched = 12.3 * (tension.across / a ** 2 + tension.along / b ** 2);
  return Math.sqrt(Math.max(bending + stretched, 0.01 * bending) / (diaphragm.density * diaphragm.thickness));
}

/**
 * How far a static difference raises the first frequency, roughly, by the law of a clamped square: Q = k1 (W + 0.52 W^3), with
 * W = 1.64 q / (omega^2 m h) of the flat plate.
 */
function stiffened({ diaphragm, load }: Microphone): number {
  if (!load) return 1;
  // A bow of stressed layers is in the state at rest, where that is known.
  if (load.settled && isBowed(diaphragm)) return Math.sqrt(1 + 1.56 * load.settled.rest.center ** 2);
  const { thickness, density } = diaphragm;
  const flat = (1.64 * Math.abs(load.difference)) / (firstFrequency(diaphragm) ** 2 * density * thickness ** 2);
  let [low, high] = [0, flat];
  for (let step = 0; step < 30; step++) {
    const middle = (low + high) / 2;
    if (middle + 0.52 * cube(middle) < flat) low = middle;
    else high = middle;
  }
  return Math.sqrt(1 + 1.56 * high ** 2);
}

/** Wavenumber of bending at a frequency with the film's load: D k^4 + N k^2 = omega^2 m + |i omega / (Psi k^2 + chi)| [1/m]. */
function waveNumber(
  { diaphragm, film, air }: Microphone,
  given: { readonly omega: number; readonly stiffness: number; readonly tension: number },
): number {
  const { omega, stiffness, tension } = given;
  const mass = diaphragm.density * diaphragm.thickness;
  const coefficients = film && filmCoefficients({ gap: film.gap, air, omega: complex(omega) });
  const excess = (k: number) => {
    const load = coefficients ? omega / absolute(add(scale(coefficients.psi, k * k), coefficients.chi)) : 0;
    return stiffness * fourth(k) + Math.max(tension, 0) * k * k - omega ** 2 * mass - load;
  };
  let [low, high] = [0, Math.sqrt(omega * Math.sqrt(mass / stiffness))];
  while (excess(high) < 0) high *= 2;
  for (let step = 0; step < 20; step++) {
    const middle = (low + high) / 2;
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * Prepares the even-even class, the only one that a uniform pressure excites.
 * Throws where the diaphragm is buckled: ask `isBuckled` first.
 */
export const prepare = (
  microphone: Microphone,
  detail: Resolution = resolutionFor(microphone),
  rest: Rest | null = restOf(microphone),
): Prepared => prepareClass(microphone, "even", detail, rest);

/** Prepares the shapes even or odd across the guide, even along it; `known`: the larger basis where another preparation has it. */
export function prepareClass(
  microphone: Microphone,
  across: Side,
  detail: Resolution,
  rest: Rest | null = restOf(microphone),
  known?: Pick<Prepared, "fine" | "fineFactor">,
): Prepared {
  const shape = plateShape(microphone.diaphragm);
  const sides = { across, along: "even" } as const;
  const coarse = plate(shape, { ...sides, functions: detail.functions });
  const fine = known?.fine ?? plate(shape, { ...sides, functions: detail.fine });
  const fineFactor = known?.fineFactor ?? bandCholesky(stiffness(fine));
  if (fineFactor === null)
    throw new Error(`Diaphragm is buckled: N a^2 / D11 = ${shape.tensionAcross}, ${shape.tensionAlong}.`);
  const film =
    microphone.film === null
      ? null
      : prepareFilm(coarse, microphone.film, detail.filmTerms, rest && reliefField(rest, microphone.diaphragm));
  const fineFilm =
    film === null
      ? null
      : {
          projectAcross: projections(fine.across, film.across),
          projectAlong: projections(fine.along, film.along),
        };
  const resting = restingPlate(microphone, rest);
  return {
    shape,
    plate: coarse,
    bending: dense(coarse.bending),
    tension: looseStiffness(coarse, resting),
    rest,
    first: firstLambda(plate(shape, { ...sides, functions: 4 }), resting),
    mass: dense(coarse.mass),
    fine,
    fineFactor,
    film,
    fineFilm,
    nearField: isBare(microphone) && across === "even" ? plateNearField(shape) : null,
  };
}

/** Stiffness that has no loss: tension, and what the stretch of a static load adds; null where there is neither. */
function looseStiffness(part: Plate, resting: LoadedPlate | null): Float64Array | null {
  const tension = part.tension && dense(part.tension);
  const stretched = resting?.about(part).stiffness;
  return tension && stretched ? sum(tension, stretched) : (tension ?? stretched ?? null);
}

/** Whole static stiffness of the coupled basis. */
export const wholeStiffness = ({ bending, tension }: Pick<Prepared, "bending" | "tension">): Float64Array =>
  tension ? sum(bending, tension) : bending;

const sum = (one: Float64Array, other: Float64Array): Float64Array => one.map((value, i) => value + other[i]!);

function firstLambda(small: Plate, resting: LoadedPlate | null): number {
  const whole = wholeStiffness({ bending: dense(small.bending), tension: looseStiffness(small, resting) });
  const factor = cholesky(whole, small.size);
  if (factor === null) throw new Error("A plate that is not buckled has a positive stiffness.");
  return generalizedEigenvalues(factor, dense(small.mass))[0]!;
}

function prepareFilm(over: Plate, film: Film, count: number, gap: GapField | null): PreparedFilm {
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
    relief: gap && reliefOver(over, { across, along }, gap),
  };
}

function reliefOver(over: Plate, film: Pick<PreparedFilm, "across" | "along">, gap: GapField): FilmRelief {
  const sides = { across: over.across.side, along: over.along.side };
  return withOnes(reliefMatrices(gap, { ...film, sides, aspect: over.shape.aspect }, lowFunctions), filmOnes(film));
}

/** Integrals of the film's terms over -1 .. 1 squared, row-major. */
export function filmOnes({ across, along }: Pick<PreparedFilm, "across" | "along">): Float64Array {
  const result = new Float64Array(across.count * along.count);
  across.integrals.forEach((x, m) => {
    along.integrals.forEach((y, n) => {
      result[m * along.count + n] = x * y;
    });
  });
  return result;
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
