/**
 * The force with which a stretched plate resists its deflection.
 *
 *     energy = (mu / 2) integral s . e,   mu = A11 h^2 / (16 D11)   (3/4 for a plate of one material), s = c e
 *     force on the shape phi = 2 mu integral s . p(omega, phi)
 *     p(a, b) = (2 a_xi b_xi, 2 alpha^2 a_eta b_eta, 2 alpha (a_xi b_eta + a_eta b_xi)),   e0 = p(omega, omega)
 *
 * in the same units as the bending forces of plate.ts. Derivation: docs/theory/largeDeflection.md.
 */
import { expand, type Grid, project, type Table } from "./largeDeflectionGrid.ts";
import { type Field, type InPlane, type Motion, relaxed, weightedStress } from "./largeDeflectionPlane.ts";

/** Functions of the deflection on the grid. */
export interface Shapes {
  readonly across: Table;
  readonly along: Table;
}

/** omega_xi and omega_eta on the grid. */
export interface Slopes {
  readonly across: Float64Array;
  readonly along: Float64Array;
}

export function slopesOf(grid: Grid, { across, along }: Shapes, unknowns: Float64Array): Slopes {
  const slopes = { across: new Float64Array(grid.count ** 2), along: new Float64Array(grid.count ** 2) };
  expand(grid, unknowns, across.slopes, along.values, 1, slopes.across);
  expand(grid, unknowns, across.values, along.slopes, 1, slopes.along);
  return slopes;
}

/** Strain of two slopes together, p(a, b). */
export function pairStrain(alpha: number, a: Slopes, b: Slopes): Field {
  const n = a.across.length;
  const e = { x: new Float64Array(n), y: new Float64Array(n), xy: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    e.x[i] = 2 * a.across[i]! * b.across[i]!;
    e.y[i] = 2 * alpha ** 2 * a.along[i]! * b.along[i]!;
    e.xy[i] = 2 * alpha * (a.across[i]! * b.along[i]! + a.along[i]! * b.across[i]!);
  }
  return e;
}

/** Adds 2 mu integral s . p(slopes, phi) to `into` for every shape phi; the weights belong to the stress. */
export function addForce(
  plane: Pick<InPlane, "grid" | "alpha">,
  given: { readonly mu: number; readonly stress: Field; readonly slopes: Slopes; readonly shapes: Shapes },
  into: Float64Array,
): void {
  const { grid, alpha } = plane;
  const { stress, slopes, shapes } = given;
  const n = slopes.across.length;
  const onAcross = new Float64Array(n);
  const onAlong = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    onAcross[i] = 2 * stress.x[i]! * slopes.across[i]! + 2 * alpha * stress.xy[i]! * slopes.along[i]!;
    onAlong[i] = 2 * alpha ** 2 * stress.y[i]! * slopes.along[i]! + 2 * alpha * stress.xy[i]! * slopes.across[i]!;
  }
  project(grid, onAcross, shapes.across.slopes, shapes.along.values, 2 * given.mu, into);
  project(grid, onAlong, shapes.across.values, shapes.along.slopes, 2 * given.mu, into);
}

/** A deflection with all that follows from it. */
export interface Stretched {
  readonly unknowns: Float64Array;
  readonly slopes: Slopes;
  readonly strain: Field;
  /** Times the weights of the grid. */
  readonly stress: Field;
  readonly motion: Motion;
}

export function stretched(plane: InPlane, shapes: Shapes, unknowns: Float64Array): Stretched {
  const slopes = slopesOf(plane.grid, shapes, unknowns);
  const { strain, motion } = relaxed(plane, pairStrain(plane.alpha, slopes, slopes));
  return { unknowns, slopes, strain, stress: weightedStress(plane, strain), motion };
}

/** A small change of a stretched plate: slopes of the change, and the stress and motion that it adds. */
export interface Change {
  readonly slopes: Slopes;
  readonly stress: Field;
  readonly motion: Motion;
}

/** `plane` of the class of the change, whose slopes are given. */
export function changed(plane: InPlane, about: Slopes, slopes: Slopes): Change {
  const once = pairStrain(plane.alpha, about, slopes);
  const twice = { x: doubled(once.x), y: doubled(once.y), xy: doubled(once.xy) };
  const { strain, motion } = relaxed(plane, twice);
  return { slopes, stress: weightedStress(plane, strain), motion };
}

const doubled = (values: Float64Array) => values.map((value) => 2 * value);

/** Adds the change of force on every shape: the new stress on the old slopes and the old stress on the new ones. */
export function addChange(
  plane: Pick<InPlane, "grid" | "alpha">,
  given: { readonly mu: number; readonly about: Stretched; readonly change: Change; readonly shapes: Shapes },
  into: Float64Array,
): void {
  const { mu, about, change, shapes } = given;
  addForce(plane, { mu, stress: change.stress, slopes: about.slopes, shapes }, into);
  addForce(plane, { mu, stress: about.stress, slopes: change.slopes, shapes }, into);
}
