/**
 * A diaphragm that stretches while it bends (von Karman), under a uniform static pressure and the moment of stressed layers.
 *
 *     strains of the middle plane: u_x + w_x^2 / 2,  v_y + w_y^2 / 2,  u_y + v_x + w_x w_y
 *
 * w in the even polynomials of plate.ts, u and v in polynomials eliminated exactly, equilibrium in a few shapes chosen for this
 * plate and checked against the whole equations at every load. The bending answer is read in a finer basis: K w = p - membrane
 * force, solved once more, which makes curvature at a clamped edge as good as that of `staticPlate`.
 *
 * Derivation: docs/theory/largeDeflection.md; [levy-1942] for the case. Holds: slopes small against 1, material in its elastic
 * range. Not counted: coupling of bending and stretching in a stack of layers of unlike Poisson's ratios (laminate.ts).
 */

import { bandCholesky, bandSolve } from "../../numerics/kronecker.ts";
import { cube, fourth } from "../../numerics/power.ts";
import { type Diaphragm, isBowed } from "./diaphragm.ts";
import { addForce } from "./largeDeflectionForce.ts";
import { quarterGrid, tabulatePolynomials } from "./largeDeflectionGrid.ts";
import { type InPlaneEdges, inPlane } from "./largeDeflectionPlane.ts";
import {
  type LineSeries,
  type LoadedPlate,
  lineSeries,
  loaded,
  type Prepared,
  valueAt,
} from "./largeDeflectionRead.ts";
import { combine, type Reduced, reduce, solveReduced } from "./largeDeflectionReduced.ts";
import { balance, equilibrium, type Solution } from "./largeDeflectionSolve.ts";
import { edgeMoments, type Plate, plate, stiffness } from "./plate.ts";
import { momentNumbers, plateShape, stretchNumbers } from "./shape.ts";

export type { InPlaneEdges } from "./largeDeflectionPlane.ts";
export type { LineSeries, LoadedPlate, StretchedLine } from "./largeDeflectionRead.ts";
export type { Reduced } from "./largeDeflectionReduced.ts";
export type { SoundAbout } from "./largeDeflectionSound.ts";

export interface LargeDeflectionOptions {
  /** How the frame holds the edges in their plane; "immovable" unless given. */
  readonly inPlane?: InPlaneEdges;
  /** Polynomials a direction for the equilibrium; 8 unless given. */
  readonly functions?: number;
  /** Polynomials a direction for reading curvature; 24 unless given. */
  readonly fine?: number;
  /** Largest pressure that the shapes are prepared for [Pa]; further ones take longer. Unless given, that of about 2 h. */
  readonly upTo?: number;
  /** Shapes of a plate of the same shape and membrane ratios, made before; made anew unless given. */
  readonly reduced?: Reduced;
}

export interface LargeDeflection {
  /** Small deflections of the flat plate: p = linear w0 + cubic w0^3, w0 at the center [Pa/m, Pa/m3]. */
  readonly stiffening: { readonly linear: number; readonly cubic: number };
  /** Number of shapes that the prepared answer is made of. */
  readonly shapes: number;
  /** The same plate with shapes that reach to another pressure [Pa]; what does not depend on it is kept. */
  reaching(pressure: number): LargeDeflection;
  /** Those shapes, without dimension: they serve any plate of the same shape. Plain arrays. */
  readonly reduced: Reduced;
  series(x: number): LineSeries;
  at(pressure: number): LoadedPlate;
}

/** Residual that an answer may leave, in energy norm. */
const within = 1e-7;

/**
 * Prepares a diaphragm for static loads; then a load takes a fraction of a millisecond.
 * Throws where the diaphragm is buckled without load: ask `isBuckled` first.
 */
export function largeDeflection(diaphragm: Diaphragm, options: LargeDeflectionOptions = {}): LargeDeflection {
  const prepared = prepare(diaphragm, options);
  const { equations, even, load } = prepared;
  const { thickness } = diaphragm;
  const flat = bandSolve(equations.factor, equations.load);
  const center = (unknowns: Float64Array) => valueAt(even, unknowns, 0, 0);
  // omega = P flat + P^3 bent + ..., turned round into P of the center.
  const force = new Float64Array(flat.length);
  const { state } = balance(equations, flat, 1);
  addForce(equations.plane, { ...equations, stress: state.stress, slopes: state.slopes }, force);
  const bent = bandSolve(equations.factor, force).map((value) => -value);
  const [w1, w3] = [center(flat), center(bent)];
  const stiffening = { linear: 1 / (w1 * load * thickness), cubic: -w3 / (fourth(w1) * load * cube(thickness)) };
  const largest = options.upTo === undefined ? upToTwice(w1, w3) : Math.abs(options.upTo) * load;
  const series = lineSeries(prepared, state);
  const reaching = (size: number, given?: Reduced): LargeDeflection => {
    let kept = given;
    const made = () => {
      kept ??= reduce(equations, size, within / 4);
      return kept;
    };
    return {
      stiffening,
      get shapes() {
        return made().shapes.length;
      },
      get reduced() {
        return made();
      },
      reaching: (pressure) => reaching(Math.abs(pressure) * load),
      series,
      at: (pressure) => loaded(prepared, solve(prepared, made(), pressure * load), pressure),
    };
  };
  return reaching(largest, options.reduced);
}

/** The plate under one pressure from the unknowns of that state, found before: nothing is solved where they still balance. */
export function loadedFrom(
  diaphragm: Diaphragm,
  pressure: number,
  unknowns: Float64Array,
  options: LargeDeflectionOptions = {},
): LoadedPlate {
  const prepared = prepare(diaphragm, options);
  const size = pressure * prepared.load;
  return loaded(prepared, equilibrium(prepared.equations, size, unknowns, within), pressure);
}

/** Size of the load at which the cubic law gives W = 2. */
const upToTwice = (w1: number, w3: number) => 2 / w1 - (8 * w3) / fourth(w1);

function prepare(diaphragm: Diaphragm, options: LargeDeflectionOptions): Prepared {
  const { functions = 8, fine = 24, inPlane: edges = "immovable" } = options;
  const { mu, ratios, perPressure } = stretchNumbers(diaphragm);
  const shape = plateShape(diaphragm);
  const even = plate(shape, { across: "even", along: "even", functions });
  const finer = plate(shape, { across: "even", along: "even", functions: Math.max(fine, functions) });
  const grid = quarterGrid(Math.max(12, 2 * functions));
  const shapes = (of: Plate) => ({
    across: tabulatePolynomials(grid, of.across),
    along: tabulatePolynomials(grid, of.along),
  });
  const factored = (of: Plate) => {
    const factor = bandCholesky(stiffness(of));
    if (factor === null)
      throw new Error(`Diaphragm is buckled: N a^2 / D11 = ${shape.tensionAcross}, ${shape.tensionAlong}.`);
    return factor;
  };
  // The plane's functions carry the squares of slopes: a few more of them than of the deflection.
  const count = functions + 2;
  const moments = momentNumbers(diaphragm);
  const built = (of: Plate) => (isBowed(diaphragm) ? edgeMoments(of, moments) : null);
  const plane = inPlane(grid, { alpha: 1 / shape.aspect, ratios, edges, across: "even", along: "even", count });
  return {
    diaphragm,
    shape,
    grid,
    even,
    edges,
    count,
    equations: {
      plane,
      shapes: shapes(even),
      mu,
      stiffness: stiffness(even),
      factor: factored(even),
      load: even.load,
      built: built(even),
    },
    fine: { plate: finer, factor: factored(finer), shapes: shapes(finer), built: built(finer) },
    lines: new Map(),
    load: perPressure,
  };
}

/** The prepared shapes' answer, polished on the whole equations where they don't suffice. */
function solve({ equations }: Prepared, reduced: Reduced, size: number): Solution {
  const start = combine(reduced, solveReduced(reduced, size));
  return equilibrium(equations, size, start, within);
}
