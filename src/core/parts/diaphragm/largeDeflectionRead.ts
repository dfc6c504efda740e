/** What a loaded plate shows: deflection, curvature, stretch along the guide, and how they change with pressure. */

import { type BandCholesky, bandSolve } from "../../numerics/kronecker.ts";
import { cube } from "../../numerics/power.ts";
import type { Diaphragm } from "./diaphragm.ts";
import {
  addChange,
  addForce,
  changed,
  pairStrain,
  type Shapes,
  type Slopes,
  type Stretched,
  slopesOf,
} from "./largeDeflectionForce.ts";
import type { Grid } from "./largeDeflectionGrid.ts";
import { type Field, type InPlaneEdges, inPlane, lineMotion, motionStrain } from "./largeDeflectionPlane.ts";
import { dot, type Equations, loadOf, type Solution, tangentSolve } from "./largeDeflectionSolve.ts";
import { type SoundAbout, soundAbout } from "./largeDeflectionSound.ts";
import { lineAverages, type Plate } from "./plate.ts";
import { curvaturesAt, valuesAt } from "./polynomials.ts";
import type { PlateShape } from "./shape.ts";

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
  /** The state itself, without dimension: w / h on the even functions that the equilibrium was found in. */
  readonly unknowns: Float64Array;
  /** What a small motion about this state feels, for a plate of any class and size built on the same shape. */
  about(plate: Plate): SoundAbout;
  /** Evidence: Newton steps on the whole equations after the prepared shapes, residual in energy norm, whether it is enough. */
  readonly steps: number;
  readonly residual: number;
  readonly converged: boolean;
}

/** First terms in pressure of what the guide at one x sees, without static load: p, p^2, p^3 [per Pa, Pa^2, Pa^3]. */
export interface LineSeries {
  /** <w_xx>, <w_yy> of p. */
  readonly linear: { readonly xx: number; readonly yy: number };
  /** <eps_x0>, <eps_y0> of p^2: the first even term of the phase. */
  readonly quadratic: { readonly stretchX: number; readonly stretchY: number };
  /** <w_xx>, <w_yy> of p^3: the stiffening. */
  readonly cubic: { readonly xx: number; readonly yy: number };
}

/** A diaphragm made ready for loads. */
export interface Prepared {
  readonly diaphragm: Diaphragm;
  readonly shape: PlateShape;
  readonly grid: Grid;
  readonly even: Plate;
  readonly equations: Equations;
  readonly edges: InPlaneEdges;
  readonly count: number;
  readonly fine: {
    readonly plate: Plate;
    readonly factor: BandCholesky;
    readonly shapes: Shapes;
    /** What the moment of stressed layers loads it with; null: none. */
    readonly built: Float64Array | null;
  };
  /** Influence functions of lines that were read before, by xi. */
  readonly lines: Map<number, LineInfluence>;
  /** Size of the load per pressure, a^4 / (16 D11 h) [1/Pa]. */
  readonly load: number;
}

/**
 * How a load bends a line: <w_xixi> and <w_etaeta> = size of the uniform load times `load`, less the membrane force on g = K^-1 c.
 */
interface LineInfluence {
  readonly xx: Influence;
  readonly yy: Influence;
}

interface Influence {
  readonly load: number;
  /** The same of the moment of stressed layers. */
  readonly built: number;
  /** Slopes of g on the grid. */
  readonly slopes: Slopes;
}

/** A deflection at a point, in its own units. */
export function valueAt({ across, along }: Plate, unknowns: Float64Array, xi: number, eta: number): number {
  return bilinear(unknowns, valuesAt(across, xi).value, valuesAt(along, eta).value);
}

function bilinear(c: Float64Array, x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) for (let j = 0; j < y.length; j++) sum += c[i * y.length + j]! * x[i]! * y[j]!;
  return sum;
}

/** The plate under `pressure` [Pa], from the equilibrium found. */
export function loaded(prepared: Prepared, solution: Solution, pressure: number): LoadedPlate {
  const { diaphragm, shape, grid, even, equations, fine } = prepared;
  const { across: a, along: b, thickness: h } = diaphragm;
  const { state } = solution;
  const { plane } = equations;
  const alpha = 1 / shape.aspect;
  const curving = (4 * h) / (a * a);
  const straining = (h * h) / (a * a);
  const read = once(() =>
    finer(prepared, state, { load: fine.plate.load, built: fine.built }, pressure * prepared.load),
  );
  const change = once(() => {
    const unknowns = tangentSolve(equations, state, equations.load, 1e-10);
    const moved = changed(plane, state.slopes, slopesOf(grid, equations.shapes, unknowns));
    const force = new Float64Array(fine.plate.size);
    addChange(plane, { mu: equations.mu, about: state, change: moved, shapes: fine.shapes }, force);
    const curved = bandSolve(
      fine.factor,
      fine.plate.load.map((value, i) => value - force[i]!),
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
    unknowns: state.unknowns,
    line: (x) => {
      const xi = (2 * x) / a;
      const slopes = lineSlopes(equations.shapes, even, state.unknowns, xi);
      const { xx, yy } = lineInfluence(prepared, xi);
      const size = pressure * prepared.load;
      const bent = (by: Influence) =>
        size * by.load + by.built - 2 * equations.mu * product(alpha, state.stress, state.slopes, by.slopes);
      return {
        xx: curving * bent(xx),
        yy: curving * alpha ** 2 * bent(yy),
        stretchX: straining * (lineMotion(plane, state.motion, xi) + 2 * mean(grid, slopes.across, slopes.across)),
        stretchY: straining * 2 * alpha ** 2 * mean(grid, slopes.along, slopes.along),
      };
    },
    slope: (x) => {
      const xi = (2 * x) / a;
      const { unknowns, moved, curved } = change();
      const at = lineSlopes(equations.shapes, even, state.unknowns, xi);
      const by = lineSlopes(equations.shapes, even, unknowns, xi);
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

/** First terms in pressure of the line at x; `flat` is the flat plate's answer to a load of size one. */
export function lineSeries(prepared: Prepared, flat: Stretched): (x: number) => LineSeries {
  const { diaphragm, shape, grid, even, equations, fine, load } = prepared;
  const { across: a, thickness: h } = diaphragm;
  const alpha = 1 / shape.aspect;
  const curving = (4 * h) / (a * a);
  const straining = ((h * h) / (a * a)) * load ** 2;
  const bent = once(() => {
    const linear = bandSolve(fine.factor, fine.plate.load);
    return {
      linear,
      cubic: finer(prepared, flat, { load: fine.plate.load, built: null }, 1).map((value, i) => value - linear[i]!),
    };
  });
  return (x) => {
    const xi = (2 * x) / a;
    const slopes = lineSlopes(equations.shapes, even, flat.unknowns, xi);
    const { linear, cubic } = bent();
    return {
      linear: lineCurvature(fine.plate, linear, xi, curving * load, alpha),
      quadratic: {
        stretchX:
          straining * (lineMotion(equations.plane, flat.motion, xi) + 2 * mean(grid, slopes.across, slopes.across)),
        stretchY: straining * 2 * alpha ** 2 * mean(grid, slopes.along, slopes.along),
      },
      cubic: lineCurvature(fine.plate, cubic, xi, curving * cube(load), alpha),
    };
  };
}

/** Bending answer in the finer basis: K w = load - membrane force. */
function finer(
  { equations, fine }: Prepared,
  state: Stretched,
  loads: Pick<Equations, "load" | "built">,
  size: number,
): Float64Array {
  const force = new Float64Array(fine.plate.size);
  addForce(
    equations.plane,
    { mu: equations.mu, stress: state.stress, slopes: state.slopes, shapes: fine.shapes },
    force,
  );
  return bandSolve(
    fine.factor,
    loadOf(loads, size).map((value, i) => value - force[i]!),
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

/** w_xi and w_eta along the line at xi, at the grid's points; `shapes` are the plate's functions there. */
function lineSlopes({ along }: Shapes, { across }: Plate, unknowns: Float64Array, xi: number) {
  const at = valuesAt(across, xi);
  const n = along.count;
  const points = along.values.length / n;
  const result = { across: new Float64Array(points), along: new Float64Array(points) };
  for (let j = 0; j < n; j++) {
    let [slope, value] = [0, 0];
    for (let i = 0; i < across.count; i++) {
      slope += unknowns[i * n + j]! * at.slope[i]!;
      value += unknowns[i * n + j]! * at.value[i]!;
    }
    for (let q = 0; q < points; q++) {
      result.across[q]! += slope * along.values[j * points + q]!;
      result.along[q]! += value * along.slopes[j * points + q]!;
    }
  }
  return result;
}

/** Lines whose influence functions are kept: enough for some guides with their widths. */
const mostLines = 128;

function lineInfluence({ fine, grid, lines }: Prepared, xi: number): LineInfluence {
  const known = lines.get(xi);
  if (known) return known;
  const { plate, factor, shapes, built } = fine;
  const { xx, yy } = lineAverages(plate, xi);
  const influence = (c: Float64Array): Influence => {
    const g = bandSolve(factor, c);
    return { slopes: slopesOf(grid, shapes, g), load: dot(g, plate.load), built: built ? dot(g, built) : 0 };
  };
  const made = { xx: influence(xx), yy: influence(yy) };
  if (lines.size >= mostLines) lines.clear();
  lines.set(xi, made);
  return made;
}

/** integral of s . p(one, other); the weights belong to the stress. */
function product(alpha: number, stress: Field, one: Slopes, other: Slopes): number {
  const p = pairStrain(alpha, one, other);
  return dot(stress.x, p.x) + dot(stress.y, p.y) + dot(stress.xy, p.xy);
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
