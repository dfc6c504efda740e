/** Where a mode's light is: mean depth, spread, a picture, and how a fiber's mode fits it. */
import { type Elements, interpolate } from "./elements.ts";
import type { Mode } from "./solveModes.ts";

/** Moments of the intensity inside the glass, z >= 0 [m]. */
export interface ModeShape {
  /** Mean of z: the depth d at which the strain is read. */
  readonly depth: number;
  /** Four standard deviations, the full width at 1/e^2 of a Gaussian intensity: across and in depth. */
  readonly width: number;
  readonly height: number;
  /** Share of the intensity in the cover [-]: there no strain acts. */
  readonly inCover: number;
}

/**
 * Visits every quadrature point of every element with the main electric field there and its share of the area [m^2], right
 * half of the section.
 *
 * TE: E_x goes like H_z, exactly so in a slab; TM: E_z goes like H_x / n^2 (up to the small derivative along x).
 */
function forEachPoint(mode: Mode, visit: (x: number, z: number, field: number, area: number) => void): void {
  const { across, depth, permittivity } = mode.sampled;
  const { degree, weights } = across.rule;
  const side = degree + 1;
  const [countX, countZ] = [across.ends.length - 1, depth.ends.length - 1];
  const perMeter = 1 / mode.wavenumber;
  for (let ez = 0; ez < countZ; ez++) {
    const halfZ = (depth.ends[ez + 1]! - depth.ends[ez]!) / 2;
    // The element tells cover from glass; its nodes on the face belong to both.
    const sign = depth.ends[ez + 1]! <= 1e-12 ? -1 : 1;
    for (let ex = 0; ex < countX; ex++) {
      const halfX = (across.ends[ex + 1]! - across.ends[ex]!) / 2;
      for (let c = 0; c < side; c++) {
        for (let a = 0; a < side; a++) {
          const h = mode.field[(ez * degree + c) * across.nodes.length + ex * degree + a]!;
          const e = permittivity[((ez * countX + ex) * side + c) * side + a]!;
          const z = depth.nodes[ez * degree + c]! * perMeter;
          visit(
            across.nodes[ex * degree + a]! * perMeter,
            sign < 0 ? Math.min(z, -1e-15) : Math.max(z, 0),
            mode.polarization === "TE" ? h : h / e,
            weights[a]! * weights[c]! * halfX * halfZ * perMeter * perMeter,
          );
        }
      }
    }
  }
}

export function shapeOf(mode: Mode): ModeShape {
  let [glass, cover, first, second, aside] = [0, 0, 0, 0, 0];
  forEachPoint(mode, (x, z, field, area) => {
    const power = field * field * area;
    if (z < 0) {
      cover += power;
      return;
    }
    glass += power;
    first += power * z;
    second += power * z * z;
    aside += power * x * x;
  });
  const depth = first / glass;
  return {
    depth,
    width: 4 * Math.sqrt(aside / glass),
    height: 4 * Math.sqrt(Math.max(0, second / glass - depth * depth)),
    inCover: cover / (cover + glass),
  };
}

/** Mean of z over the whole intensity, cover included [m]: a little less than the depth in the glass. */
export function meanDepth(mode: Mode): number {
  let [sum, first] = [0, 0];
  forEachPoint(mode, (_x, z, field, area) => {
    sum += field * field * area;
    first += field * field * area * z;
  });
  return first / sum;
}

/**
 * Power that a Gaussian beam of mode-field diameter `diameter` [m], centered across and `depth` below the face, puts into
 * the mode [-]; reflections are not counted.
 *
 *     eta = (integral E G)^2 / (integral E^2 integral G^2),   G = exp(-(x^2 + (z - z0)^2) / w^2),   w = diameter / 2
 */
export function gaussianIntoMode(mode: Mode, diameter: number, depth: number): number {
  const w = diameter / 2;
  let [both, own] = [0, 0];
  forEachPoint(mode, (x, z, field, area) => {
    both += area * field * Math.exp(-(x * x + (z - depth) ** 2) / (w * w));
    own += area * field * field;
  });
  // Half of the section: the beam's own integral is half of pi w^2 / 2.
  return both ** 2 / (own * ((Math.PI * w * w) / 4));
}

/** The depth at which a fiber's beam couples best [m], and the power that it puts in [-]. */
export function bestCoupling(mode: Mode, diameter: number): { readonly depth: number; readonly power: number } {
  const { depth, height } = shapeOf(mode);
  let [low, high] = [Math.max(0, depth - height), depth + height];
  const golden = (Math.sqrt(5) - 1) / 2;
  const at = (z: number) => gaussianIntoMode(mode, diameter, z);
  for (let step = 0; step < 24; step++) {
    const [left, right] = [high - golden * (high - low), low + golden * (high - low)];
    if (at(left) > at(right)) high = right;
    else low = left;
  }
  const best = (low + high) / 2;
  return { depth: best, power: at(best) };
}

/**
 * Power from one Gaussian mode into another along one axis [-], half-widths w1, w2 at 1/e^2 of the intensity, offset d.
 *
 *     eta = (2 w1 w2 / (w1^2 + w2^2)) exp(-2 d^2 / (w1^2 + w2^2))
 */
export function gaussianOverlap(w1: number, w2: number, offset: number): number {
  const sum = w1 * w1 + w2 * w2;
  return ((2 * w1 * w2) / sum) * Math.exp((-2 * offset * offset) / sum);
}

/** Intensity over the section, largest 1 [-]; row-major, rows of z inward, x from -reach to reach [m]. */
export interface ModePicture {
  readonly x: readonly number[];
  readonly z: readonly number[];
  readonly intensity: readonly number[];
}

export function pictureOf(
  mode: Mode,
  options: {
    readonly reach: number;
    readonly above: number;
    readonly below: number;
    readonly columns: number;
    readonly rows: number;
  },
): ModePicture {
  const { reach, above, below, columns, rows } = options;
  const { across, depth } = mode.sampled;
  const k = mode.wavenumber;
  const x = Array.from({ length: columns }, (_, i) => reach * ((2 * i) / (columns - 1) - 1));
  const z = Array.from({ length: rows }, (_, i) => -above + ((above + below) * i) / (rows - 1));
  const width = across.nodes.length;
  const values: number[] = [];
  const column = new Float64Array(depth.nodes.length);
  const byColumn = x.map((at) => {
    for (let row = 0; row < column.length; row++)
      column[row] = inRange(across, mode.field.subarray(row * width, (row + 1) * width), Math.abs(at) * k);
    return Float64Array.from(column);
  });
  for (const at of z) for (const one of byColumn) values.push(inRange(depth, one, at * k) ** 2);
  const largest = values.reduce((most, value) => Math.max(most, value), 0);
  return { x, z, intensity: values.map((value) => value / largest) };
}

/** 0 where the field was cut off. */
function inRange(elements: Elements, values: Float64Array, at: number): number {
  const [from, to] = [elements.ends[0]!, elements.ends.at(-1)!];
  return at < from || at > to ? 0 : interpolate(elements, values, at);
}
