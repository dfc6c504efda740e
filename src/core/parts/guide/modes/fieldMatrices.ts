/**
 * The wave equation of a guide's transverse magnetic field on spectral elements, lengths times k.
 *
 *     curl(1/e curl H) - (1/e) grad(div H) + (N^2 / e) H = H,     e = n^2,  H = (H_x, H_z)
 *
 * tested with V: integral (1/e) curl V curl H + div(V/e) div H + N^2 (1/e) V H - V H, less on every element's edge
 * (1/e) V_n div H, whose jump stays where e jumps. All components of H are continuous everywhere, and so are div H (the field
 * along the guide) and (1/e) curl H; so every interface condition is kept. Nodes are also the points of quadrature.
 * H_z goes with the TE-like mode (field along x), H_x with the TM-like one. "scalar" is the equation of weak guidance.
 * Derivation: docs/theory/modes.md.
 */
import { type Band, emptyBand } from "../../../numerics/bandLu.ts";
import type { Elements } from "./elements.ts";

export type Component = "x" | "z" | "scalar";

/** Sampled cross-section: e at each node of each element, from inside that element. */
export interface Sampled {
  readonly across: Elements;
  readonly depth: Elements;
  /** Element (ex, ez) at (ez * countX + ex) * (p + 1)^2, then row c of z, column a of x. */
  readonly permittivity: Float64Array;
}

/** Unknowns of one component: its free nodes, x fastest. */
export interface Unknowns {
  readonly component: Component;
  readonly nx: number;
  readonly nz: number;
  /** First free node across (1 where the component is odd, so 0 at x = 0) and in depth (always 1: 0 at both far ends). */
  readonly firstX: number;
}

export function unknownsOf({ across, depth }: Sampled, component: Component, odd: boolean): Unknowns {
  const firstX = odd ? 1 : 0;
  return { component, firstX, nx: across.nodes.length - firstX, nz: depth.nodes.length - 2 };
}

/** Places of the elements' contributions. */
function forEachElement(
  { across, depth }: Sampled,
  visit: (element: { ex: number; ez: number; hx: number; hz: number; offset: number }) => void,
): void {
  const side = across.rule.degree + 1;
  const countX = across.ends.length - 1;
  for (let ez = 0; ez + 1 < depth.ends.length; ez++) {
    for (let ex = 0; ex < countX; ex++) {
      visit({
        ex,
        ez,
        hx: (across.ends[ex + 1]! - across.ends[ex]!) / 2,
        hz: (depth.ends[ez + 1]! - depth.ends[ez]!) / 2,
        offset: (ez * countX + ex) * side * side,
      });
    }
  }
}

/** Diagonal of the quadrature: integral (1/e) over each node, or integral 1 for the scalar equation. */
export function massOf(sampled: Sampled, unknowns: Unknowns): Float64Array {
  const mass = new Float64Array(unknowns.nx * unknowns.nz);
  addMass(sampled, unknowns, mass, (permittivity) => (unknowns.component === "scalar" ? 1 : 1 / permittivity));
  return mass;
}

function addMass(
  sampled: Sampled,
  { nx, nz, firstX }: Unknowns,
  to: Float64Array,
  density: (permittivity: number) => number,
): void {
  const { rule } = sampled.across;
  const side = rule.degree + 1;
  forEachElement(sampled, ({ ex, ez, hx, hz, offset }) => {
    for (let c = 0; c < side; c++) {
      const row = ez * rule.degree + c - 1;
      if (row < 0 || row >= nz) continue;
      for (let a = 0; a < side; a++) {
        const column = ex * rule.degree + a - firstX;
        if (column < 0) continue;
        const weight = rule.weights[a]! * rule.weights[c]! * hx * hz;
        to[row * nx + column]! += weight * density(sampled.permittivity[offset + c * side + a]!);
      }
    }
  });
}

/**
 * Block of one component with itself, shift included: stiffness + shift * mass - integral of 1 (of e for the scalar one).
 * Definite for a shift above the square of the highest index.
 */
export function ownBlock(sampled: Sampled, unknowns: Unknowns, shift: number): Band {
  const { nx, nz, firstX, component } = unknowns;
  const { rule } = sampled.across;
  const { degree, weights, derivative } = rule;
  const side = degree + 1;
  const band = emptyBand(nx * nz, degree * nx);
  const { half, values } = band;
  const width = 2 * half + 1;
  const diagonal = new Float64Array(nx * nz);
  addMass(sampled, unknowns, diagonal, (e) => (component === "scalar" ? shift - e : shift / e - 1));
  for (let i = 0; i < diagonal.length; i++) values[i * width + half] = diagonal[i]!;
  const jump = jumps(sampled);
  forEachElement(sampled, ({ ex, ez, hx, hz, offset }) => {
    const inverse = (c: number, a: number) =>
      component === "scalar" ? 1 : 1 / sampled.permittivity[offset + c * side + a]!;
    // Along x at each row c, then along z at each column a. `natural`: 1/e stays inside; otherwise it goes with the test.
    for (let line = 0; line < side; line++) {
      for (let i = 0; i < side; i++) {
        for (let j = 0; j < side; j++) {
          let acrossPart = 0;
          let depthPart = 0;
          for (let q = 0; q < side; q++) {
            const product = weights[q]! * derivative[q * side + i]! * derivative[q * side + j]!;
            acrossPart += product * (component === "x" ? inverse(line, i) : inverse(line, q));
            depthPart += product * (component === "z" ? inverse(i, line) : inverse(q, line));
          }
          // Jumps of 1/e where the field is tested along the interface's normal: half of this element's derivative.
          if (component === "x" && (i === 0 || i === degree))
            acrossPart -= jump.across(ex, ez, i === 0, line) * derivative[i * side + j]!;
          if (component === "z" && (i === 0 || i === degree))
            depthPart -= jump.depth(ex, ez, i === 0, line) * derivative[i * side + j]!;
          add(
            ex * degree + i,
            ez * degree + line,
            ex * degree + j,
            ez * degree + line,
            (acrossPart * weights[line]! * hz) / hx,
          );
          add(
            ex * degree + line,
            ez * degree + i,
            ex * degree + line,
            ez * degree + j,
            (depthPart * weights[line]! * hx) / hz,
          );
        }
      }
    }
  });
  return band;

  function add(x: number, z: number, otherX: number, otherZ: number, value: number): void {
    const [column, row, otherColumn, otherRow] = [x - firstX, z - 1, otherX - firstX, otherZ - 1];
    if (column < 0 || otherColumn < 0 || row < 0 || otherRow < 0 || row >= nz || otherRow >= nz) return;
    const i = row * nx + column;
    values[i * width + half + (otherRow * nx + otherColumn - i)]! += value;
  }
}

/**
 * What the test function along an interface's normal sees of it: half of (1/e here - 1/e there), with the sign of the normal
 * out of this element; 0 at the outer edge.
 */
function jumps({ across, depth, permittivity }: Sampled) {
  const side = across.rule.degree + 1;
  const [countX, countZ] = [across.ends.length - 1, depth.ends.length - 1];
  const at = (ex: number, ez: number, c: number, a: number) =>
    1 / permittivity[(ez * countX + ex) * side * side + c * side + a]!;
  return {
    across(ex: number, ez: number, isFirst: boolean, line: number): number {
      const there = isFirst ? ex - 1 : ex + 1;
      if (there < 0 || there >= countX) return 0;
      const [mine, theirs] = isFirst ? [0, side - 1] : [side - 1, 0];
      return ((isFirst ? -1 : 1) * (at(ex, ez, line, mine) - at(there, ez, line, theirs))) / 2;
    },
    depth(ex: number, ez: number, isFirst: boolean, line: number): number {
      const there = isFirst ? ez - 1 : ez + 1;
      if (there < 0 || there >= countZ) return 0;
      const [mine, theirs] = isFirst ? [0, side - 1] : [side - 1, 0];
      return ((isFirst ? -1 : 1) * (at(ex, ez, mine, line) - at(ex, there, theirs, line))) / 2;
    },
  };
}

/**
 * Coupling block times a field: what the equation of `test` takes from the other component.
 *
 *     x from z:  integral -(1/e) d_z V d_x H + (1/e_V) d_x V d_z H, less the jumps at upright interfaces
 *     z from x:  integral -(1/e) d_x V d_z H + (1/e_V) d_z V d_x H, less the jumps at level ones
 */
export function couple(sampled: Sampled, test: Unknowns, field: Unknowns, values: Float64Array): Float64Array {
  const { rule } = sampled.across;
  const { degree, weights, derivative } = rule;
  const side = degree + 1;
  const result = new Float64Array(test.nx * test.nz);
  const own = new Float64Array(side * side);
  const alongX = new Float64Array(side * side);
  const alongZ = new Float64Array(side * side);
  const jump = jumps(sampled);
  forEachElement(sampled, ({ ex, ez, offset }) => {
    for (let c = 0; c < side; c++) {
      const row = ez * degree + c - 1;
      for (let a = 0; a < side; a++) {
        const column = ex * degree + a - field.firstX;
        const free = row >= 0 && row < field.nz && column >= 0;
        own[c * side + a] = free ? values[row * field.nx + column]! : 0;
      }
    }
    for (let c = 0; c < side; c++) {
      for (let a = 0; a < side; a++) {
        let [dx, dz] = [0, 0];
        for (let q = 0; q < side; q++) {
          dx += derivative[a * side + q]! * own[c * side + q]!;
          dz += derivative[c * side + q]! * own[q * side + a]!;
        }
        alongX[c * side + a] = dx;
        alongZ[c * side + a] = dz;
      }
    }
    for (let c = 0; c < side; c++) {
      const row = ez * degree + c - 1;
      if (row < 0 || row >= test.nz) continue;
      for (let a = 0; a < side; a++) {
        const column = ex * degree + a - test.firstX;
        if (column < 0) continue;
        const here = 1 / sampled.permittivity[offset + c * side + a]!;
        let sum = 0;
        for (let q = 0; q < side; q++) {
          const onRow = weights[q]! * weights[c]! * derivative[q * side + a]!;
          const onColumn = weights[a]! * weights[q]! * derivative[q * side + c]!;
          const rowAt = c * side + q;
          const columnAt = q * side + a;
          if (test.component === "x") {
            sum += onRow * here * alongZ[rowAt]!;
            sum -= (onColumn / sampled.permittivity[offset + columnAt]!) * alongX[columnAt]!;
          } else {
            sum += onColumn * here * alongX[columnAt]!;
            sum -= (onRow / sampled.permittivity[offset + rowAt]!) * alongZ[rowAt]!;
          }
        }
        if (test.component === "x" && (a === 0 || a === degree))
          sum -= jump.across(ex, ez, a === 0, c) * weights[c]! * alongZ[c * side + a]!;
        if (test.component === "z" && (c === 0 || c === degree))
          sum -= jump.depth(ex, ez, c === 0, a) * weights[a]! * alongX[c * side + a]!;
        result[row * test.nx + column]! += sum;
      }
    }
  });
  return result;
}
