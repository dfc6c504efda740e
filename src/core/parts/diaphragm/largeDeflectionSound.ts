/** A small motion about a stretched state: the stiffness that stretching adds, and the stretch that the motion causes. */
import { addChange, addForce, changed, type Shapes, type Stretched, slopesOf } from "./largeDeflectionForce.ts";
import { tabulatePolynomials } from "./largeDeflectionGrid.ts";
import { type InPlane, lineStress } from "./largeDeflectionPlane.ts";
import type { Plate } from "./plate.ts";
import { type Side, valuesAt } from "./polynomials.ts";

export interface SoundAbout {
  /**
   * What stretching adds to `stiffness(plate)`, size x size, row-major, in the same units: the tension of the static state and
   * the stretch of the motion itself. It is loss-free, like tension: the loss factor belongs to bending. Made when first read.
   */
  readonly stiffness: Float64Array;
  /** The same times one motion, given on the functions of another plate of the same class and shape: force on this one's. */
  push(other: Plate, motion: Float64Array): Float64Array;
  /**
   * How each unknown of w [m] enters <eps_x0> and <eps_y0> on the line at x = a xi / 2 [1/m]: to first order about the state.
   * Zero for a motion that is odd along the guide.
   */
  stretch(xi: number): { readonly x: Float64Array; readonly y: Float64Array };
}

interface About {
  readonly state: Stretched;
  /** The plate that the state's unknowns belong to. */
  readonly even: Plate;
  readonly mu: number;
  /** h and a [m]. */
  readonly thickness: number;
  readonly across: number;
  /** The plane's functions for motions of one class. */
  plane(across: Side, along: Side): InPlane;
}

export function soundAbout(plate: Plate, about: About): SoundAbout {
  const plane = about.plane(plate.across.side, plate.along.side);
  const shapes = shapesOn(plane, plate);
  let kept: Float64Array | null = null;
  return {
    get stiffness() {
      kept ??= addedStiffness(plate, shapes, plane, about);
      return kept;
    },
    push: (other, motion) => {
      const force = new Float64Array(plate.size);
      const change = changed(plane, about.state.slopes, slopesOf(plane.grid, shapesOn(plane, other), motion));
      addChange(plane, { mu: about.mu, about: about.state, change, shapes }, force);
      return force;
    },
    stretch: (xi) => stretchOf(plate, shapes, plane, about, xi),
  };
}

const shapesOn = ({ grid }: InPlane, { across, along }: Plate): Shapes => ({
  across: tabulatePolynomials(grid, across),
  along: tabulatePolynomials(grid, along),
});

/**
 * One column of stiffness a function: its slopes, the strain that they make with the state's, what the plane leaves of it, and
 * the force of that on all functions. Formula: head of largeDeflectionForce.ts. The state itself is even in both directions.
 */
function addedStiffness(plate: Plate, shapes: Shapes, plane: InPlane, { state, mu }: About): Float64Array {
  const { size } = plate;
  const stiffness = new Float64Array(size * size);
  const n = plate.along.count;
  const g = plane.grid.count;
  for (let k = 0; k < size; k++) {
    const [i, j] = [Math.floor(k / n), k % n];
    const slopes = { across: new Float64Array(g * g), along: new Float64Array(g * g) };
    for (let p = 0; p < g; p++) {
      for (let q = 0; q < g; q++) {
        slopes.across[p * g + q] = shapes.across.slopes[i * g + p]! * shapes.along.values[j * g + q]!;
        slopes.along[p * g + q] = shapes.across.values[i * g + p]! * shapes.along.slopes[j * g + q]!;
      }
    }
    const change = changed(plane, state.slopes, slopes);
    // The matrix is symmetric, so its row is its column.
    addChange(plane, { mu, about: state, change, shapes }, stiffness.subarray(k * size, (k + 1) * size));
  }
  return stiffness;
}

/** <eps_x0> = <2 U_xi> + 4 <w_xi of the state times w_xi of the motion>, in h^2 / a^2, and <eps_y0> by its slopes alone. */
function stretchOf(plate: Plate, shapes: Shapes, plane: InPlane, about: About, xi: number) {
  const { size } = plate;
  const x = new Float64Array(size);
  const y = new Float64Array(size);
  if (plate.along.side === "odd") return { x, y };
  const { grid } = plane;
  const g = grid.count;
  const n = plate.along.count;
  // The strain of a motion is 2 p(state, motion): with mu = -1 the force of the line's stress on the state's slopes is its answer.
  addForce(plane, { mu: -1, stress: lineStress(plane, xi), slopes: about.state.slopes, shapes }, x);
  const { slope, turn } = restOnLine(about, grid.nodes, xi);
  const own = valuesAt(plate.across, xi);
  const per = about.thickness / (about.across * about.across);
  for (let k = 0; k < size; k++) {
    const [i, j] = [Math.floor(k / n), k % n];
    let across = 0;
    let along = 0;
    for (let q = 0; q < g; q++) {
      const weight = grid.weights[q]! / 2;
      across += weight * slope[q]! * own.slope[i]! * shapes.along.values[j * g + q]!;
      along += weight * turn[q]! * own.value[i]! * shapes.along.slopes[j * g + q]!;
    }
    x[k] = per * (x[k]! + 4 * across);
    y[k] = per * 4 * plane.alpha ** 2 * along;
  }
  return { x, y };
}

/** The state's w_xi and w_eta at the points of the line. */
function restOnLine({ state, even }: About, nodes: Float64Array, xi: number) {
  const rest = valuesAt(even.across, xi);
  const n = even.along.count;
  const slope = new Float64Array(nodes.length);
  const turn = new Float64Array(nodes.length);
  nodes.forEach((eta, q) => {
    const there = valuesAt(even.along, eta);
    for (let i = 0; i < even.across.count; i++) {
      for (let j = 0; j < n; j++) {
        slope[q]! += state.unknowns[i * n + j]! * rest.slope[i]! * there.value[j]!;
        turn[q]! += state.unknowns[i * n + j]! * rest.value[i]! * there.slope[j]!;
      }
    }
  });
  return { slope, turn };
}
