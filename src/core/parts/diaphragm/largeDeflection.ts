/**
 * A diaphragm that stretches while it bends (von Karman), under a uniform static pressure.
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
import { type BandCholesky, bandCholesky, bandSolve } from "../../numerics/kronecker.ts";
import type { Diaphragm } from "./diaphragm.ts";
import { addChange, addForce, changed, type Shapes, type Stretched, slopesOf } from "./largeDeflectionForce.ts";
import { type Grid, quarterGrid, tabulatePolynomials } from "./largeDeflectionGrid.ts";
import { type InPlaneEdges, inPlane, lineMotion, motionStrain } from "./largeDeflectionPlane.ts";
import { combine, type Reduced, reduce, solveReduced } from "./largeDeflectionReduced.ts";
import { balance, dot, type Equations, equilibrium, type Solution, tangentSolve } from "./largeDeflectionSolve.ts";
import { type SoundAbout, soundAbout } from "./largeDeflectionSound.ts";
import { type Plate, plate, stiffness } from "./plate.ts";
import { curvaturesAt, valuesAt } from "./polynomials.ts";
import { bendingStiffness, type PlateShape, plateShape } from "./shape.ts";

export type { InPlaneEdges } from "./largeDeflectionPlane.ts";

/** Membrane stiffness A_ij [N/m]; of one material Q_ij h. */
export interface MembraneStiffness {
  readonly a11: number;
  readonly a12: number;
  readonly a22: number;
  readonly a66: number;
}

export interface LargeDeflectionOptions {
  /** How the frame holds the edges in their plane; "immovable" unless given. */
  readonly inPlane?: InPlaneEdges;
  /** Of a layered plate; of the diaphragm's own material and thickness unless given. */
  readonly membrane?: MembraneStiffness;
  /** Polynomials a direction for the equilibrium; 8 unless given. */
  readonly functions?: number;
  /** Polynomials a direction for reading curvature; 24 unless given. */
  readonly fine?: number;
  /** Largest pressure that the shapes are prepared for [Pa]; further ones take longer. Unless given, that of about 2 h. */
  readonly upTo?: number;
}

/** Averages along the guide at one x, from end to end. */
export interface StretchedLine {
  /** <w_xx>, <w_yy> [1/m]. */
  readonly xx: number;
  readonly yy: number;
  /** Strain of the middle plane, <eps_x0>, <eps_y0> [-]. <eps_y0> = <w_y^2> / 2, because the ends don't move apart. */
  readonly stretchX: number;
  readonly stretchY: number;
}

/** The plate at rest under one pressure. */
export interface LoadedPlate {
  /** [Pa], positive from the front. */
  readonly pressure: number;
  /** [m] */
  deflection(x: number, y: number): number;
  /** Mean over the area [m]. */
  readonly meanDeflection: number;
  /** w_xx, w_yy [1/m]. */
  curvature(x: number, y: number): { readonly xx: number; readonly yy: number };
  /** Strain of the middle plane from stretching [-]. */
  strain(x: number, y: number): { readonly x: number; readonly y: number; readonly shear: number };
  line(x: number): StretchedLine;
  /** Change of `line` with pressure at this state, per Pa. */
  slope(x: number): StretchedLine;
  /** What a small motion about this state feels, for a plate of any class and size built on the same shape. */
  about(plate: Plate): SoundAbout;
  /** Evidence: Newton steps on the whole equations after the prepared shapes, residual in energy norm, whether it is enough. */
  readonly steps: number;
  readonly residual: number;
  readonly converged: boolean;
}

export interface LargeDeflection {
  /** Small deflections: p = linear w0 + cubic w0^3, w0 at the center [Pa/m, Pa/m3]. */
  readonly stiffening: { readonly linear: number; readonly cubic: number };
  /** Number of shapes that the prepared answer is made of. */
  readonly shapes: number;
  at(pressure: number): LoadedPlate;
}

/** Residual that an answer may leave, in energy norm. */
const within = 1e-7;

interface Prepared {
  readonly diaphragm: Diaphragm;
  readonly shape: PlateShape;
  readonly grid: Grid;
  readonly even: Plate;
  readonly equations: Equations;
  readonly edges: InPlaneEdges;
  readonly count: number;
  readonly fine: { readonly plate: Plate; readonly factor: BandCholesky; readonly shapes: Shapes };
  /** Size of the load per pressure, a^4 / (16 D11 h) [1/Pa]. */
  readonly load: number;
}

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
  const stiffening = { linear: 1 / (w1 * load * thickness), cubic: -w3 / (w1 ** 4 * load * thickness ** 3) };
  const largest = options.upTo === undefined ? upToTwice(w1, w3) : Math.abs(options.upTo) * load;
  const reduced = reduce(equations, largest, within / 4);
  return {
    stiffening,
    shapes: reduced.shapes.length,
    at: (pressure) => loaded(prepared, solve(prepared, reduced, pressure * load), pressure),
  };
}

/** Size of the load at which the cubic law gives W = 2. */
const upToTwice = (w1: number, w3: number) => 2 / w1 - (8 * w3) / w1 ** 4;

function prepare(diaphragm: Diaphragm, options: LargeDeflectionOptions): Prepared {
  const { functions = 8, fine = 24, inPlane: edges = "immovable" } = options;
  const { across: a, thickness: h, stiffness: q } = diaphragm;
  const membrane = options.membrane ?? { a11: q.q11 * h, a12: q.q12 * h, a22: q.q22 * h, a66: q.q66 * h };
  const { d11 } = bendingStiffness(diaphragm);
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
  const ratios = {
    c12: membrane.a12 / membrane.a11,
    c22: membrane.a22 / membrane.a11,
    c66: membrane.a66 / membrane.a11,
  };
  const plane = inPlane(grid, { alpha: 1 / shape.aspect, ratios, edges, across: "even", along: "even", count });
  const mu = (membrane.a11 * h * h) / (16 * d11);
  return {
    diaphragm,
    shape,
    grid,
    even,
    edges,
    count,
    equations: { plane, shapes: shapes(even), mu, stiffness: stiffness(even), factor: factored(even), load: even.load },
    fine: { plate: finer, factor: factored(finer), shapes: shapes(finer) },
    load: a ** 4 / (16 * d11 * h),
  };
}

/** The prepared shapes' answer, polished on the whole equations where they don't suffice. */
function solve({ equations }: Prepared, reduced: Reduced, size: number): Solution {
  const start = combine(reduced, solveReduced(reduced, size));
  return equilibrium(equations, size, start, within);
}

function valueAt({ across, along }: Plate, unknowns: Float64Array, xi: number, eta: number): number {
  return bilinear(unknowns, valuesAt(across, xi).value, valuesAt(along, eta).value);
}

function bilinear(c: Float64Array, x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) for (let j = 0; j < y.length; j++) sum += c[i * y.length + j]! * x[i]! * y[j]!;
  return sum;
}

function loaded(prepared: Prepared, solution: Solution, pressure: number): LoadedPlate {
  const { diaphragm, shape, grid, even, equations, fine } = prepared;
  const { across: a, along: b, thickness: h } = diaphragm;
  const { state } = solution;
  const { plane } = equations;
  const alpha = 1 / shape.aspect;
  const curving = (4 * h) / (a * a);
  const straining = (h * h) / (a * a);
  const read = once(() => finer(prepared, state, pressure * prepared.load));
  const change = once(() => {
    const unknowns = tangentSolve(equations, state, equations.load, 1e-10);
    const moved = changed(plane, state.slopes, slopesOf(grid, equations.shapes, unknowns));
    const right = fine.plate.load.map((value) => value);
    const force = new Float64Array(right.length);
    addChange(plane, { mu: equations.mu, about: state, change: moved, shapes: fine.shapes }, force);
    const curved = bandSolve(
      fine.factor,
      right.map((value, i) => value - force[i]!),
    );
    return { unknowns, moved, curved };
  });
  return {
    pressure,
    deflection: (x, y) => h * valueAt(even, state.unknowns, (2 * x) / a, (2 * y) / b),
    meanDeflection: (h * dot(state.unknowns, even.load)) / 4,
    curvature: (x, y) => {
      const { across, along } = fine.plate;
      const [xi, eta] = [(2 * x) / a, (2 * y) / b];
      const [ax, ay] = [valuesAt(across, xi), valuesAt(along, eta)];
      return {
        xx: curving * bilinear(read(), ax.curvature, ay.value),
        yy: curving * alpha ** 2 * bilinear(read(), ax.value, ay.curvature),
      };
    },
    strain: (x, y) => {
      const [xi, eta] = [(2 * x) / a, (2 * y) / b];
      const [ax, ay] = [valuesAt(even.across, xi), valuesAt(even.along, eta)];
      const wx = bilinear(state.unknowns, ax.slope, ay.value);
      const wy = bilinear(state.unknowns, ax.value, ay.slope);
      const moved = motionStrain(plane, state.motion, xi, eta);
      return {
        x: straining * (moved.x + 2 * wx * wx),
        y: straining * (moved.y + 2 * alpha ** 2 * wy * wy),
        shear: straining * (moved.xy + 4 * alpha * wx * wy),
      };
    },
    line: (x) => {
      const xi = (2 * x) / a;
      const slopes = lineSlopes(grid, even, state.unknowns, xi);
      return {
        ...lineCurvature(fine.plate, read(), xi, curving, alpha),
        stretchX: straining * (lineMotion(plane, state.motion, xi) + 2 * mean(grid, slopes.across, slopes.across)),
        stretchY: straining * 2 * alpha ** 2 * mean(grid, slopes.along, slopes.along),
      };
    },
    slope: (x) => {
      const xi = (2 * x) / a;
      const { unknowns, moved, curved } = change();
      const at = lineSlopes(grid, even, state.unknowns, xi);
      const by = lineSlopes(grid, even, unknowns, xi);
      const { load } = prepared;
      return {
        ...lineCurvature(fine.plate, curved, xi, curving * load, alpha),
        stretchX: straining * load * (lineMotion(plane, moved.motion, xi) + 4 * mean(grid, at.across, by.across)),
        stretchY: straining * load * 4 * alpha ** 2 * mean(grid, at.along, by.along),
      };
    },
    about: (plate) =>
      soundAbout(plate, {
        state,
        even,
        mu: equations.mu,
        thickness: h,
        across: a,
        plane: (across, along) =>
          inPlane(grid, { alpha, ratios: plane.ratios, edges: prepared.edges, across, along, count: prepared.count }),
      }),
    steps: solution.steps,
    residual: solution.error,
    converged: solution.converged,
  };
}

/** Bending answer in the finer basis: K w = load - membrane force. */
function finer({ equations, fine }: Prepared, state: Stretched, size: number): Float64Array {
  const force = new Float64Array(fine.plate.size);
  addForce(
    equations.plane,
    { mu: equations.mu, stress: state.stress, slopes: state.slopes, shapes: fine.shapes },
    force,
  );
  return bandSolve(
    fine.factor,
    fine.plate.load.map((value, i) => size * value - force[i]!),
  );
}

/** <w_xx>, <w_yy> on the line at xi; `curving` is the curvature of a unit of w_xixi. */
function lineCurvature({ across, along }: Plate, c: Float64Array, xi: number, curving: number, alpha: number) {
  const means = along.integrals.map((value) => value / 2);
  return {
    xx: curving * bilinear(c, curvaturesAt(across, xi), means),
    yy: curving * alpha ** 2 * bilinear(c, valuesAt(across, xi).value, along.endSlopes),
  };
}

/** w_xi and w_eta along the line at xi, at the grid's points. */
function lineSlopes(grid: Grid, { across, along }: Plate, unknowns: Float64Array, xi: number) {
  const at = valuesAt(across, xi);
  const there = Array.from(grid.nodes, (eta) => valuesAt(along, eta));
  return {
    across: Float64Array.from(there, (one) => bilinear(unknowns, at.slope, one.value)),
    along: Float64Array.from(there, (one) => bilinear(unknowns, at.value, one.slope)),
  };
}

/** Mean over eta of a product on the line. */
function mean(grid: Grid, one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let q = 0; q < grid.count; q++) sum += (grid.weights[q]! * one[q]! * other[q]!) / 2;
  return sum;
}

/** Computed when first asked for. */
function once<T>(make: () => T): () => T {
  let kept: { readonly value: T } | null = null;
  return () => {
    kept ??= { value: make() };
    return kept.value;
  };
}
