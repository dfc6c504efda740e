/** A small motion about a stretched state: the stiffness that stretching adds, and the stretch that the motion causes. */
import { addChange, changed, type Stretched } from "./largeDeflectionForce.ts";
import { tabulatePolynomials } from "./largeDeflectionGrid.ts";
import { type InPlane, lineMotion, type Motion } from "./largeDeflectionPlane.ts";
import type { Plate } from "./plate.ts";
import { type Side, valuesAt } from "./polynomials.ts";

export interface SoundAbout {
  /**
   * What stretching adds to `stiffness(plate)`, size x size, row-major, in the same units: the tension of the static state and
   * the stretch of the motion itself. It is loss-free, like tension: the loss factor belongs to bending.
   */
  readonly stiffness: Float64Array;
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

/**
 * One column of stiffness a function: its slopes, the strain that they make with the state's, what the plane leaves of it, and
 * the force of that on all functions. Formula: head of largeDeflectionForce.ts. The state itself is even in both directions.
 */
export function soundAbout(plate: Plate, about: About): SoundAbout {
  const { state, mu, thickness: h, across: a } = about;
  const plane = about.plane(plate.across.side, plate.along.side);
  const { grid } = plane;
  const shapes = {
    across: tabulatePolynomials(grid, plate.across),
    along: tabulatePolynomials(grid, plate.along),
  };
  const { size } = plate;
  const stiffness = new Float64Array(size * size);
  const motions: Motion[] = [];
  const n = plate.along.count;
  const g = grid.count;
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
    motions.push(change.motion);
    // The matrix is symmetric, so its row is its column.
    addChange(plane, { mu, about: state, change, shapes }, stiffness.subarray(k * size, (k + 1) * size));
  }
  const odd = plate.along.side === "odd";
  return {
    stiffness,
    stretch: (xi) => {
      const x = new Float64Array(size);
      const y = new Float64Array(size);
      if (odd) return { x, y };
      const alpha2 = plane.alpha ** 2;
      const rest = valuesAt(about.even.across, xi);
      const own = valuesAt(plate.across, xi);
      const { counts, slope, turn } = restOnLine(about, grid.nodes, rest);
      const per = h / (a * a);
      for (let k = 0; k < size; k++) {
        const [i, j] = [Math.floor(k / n), k % n];
        let across = 0;
        let along = 0;
        for (let q = 0; q < counts; q++) {
          const weight = grid.weights[q]! / 2;
          across += weight * slope[q]! * own.slope[i]! * shapes.along.values[j * g + q]!;
          along += weight * turn[q]! * own.value[i]! * shapes.along.slopes[j * g + q]!;
        }
        x[k] = per * (lineMotion(plane, motions[k]!, xi) + 4 * across);
        y[k] = per * 4 * alpha2 * along;
      }
      return { x, y };
    },
  };
}

/** The state's w_xi and w_eta at the points of the line. */
function restOnLine({ state, even }: About, nodes: Float64Array, rest: ReturnType<typeof valuesAt>) {
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
  return { counts: nodes.length, slope, turn };
}
