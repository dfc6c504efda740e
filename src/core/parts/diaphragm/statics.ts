/** Static deflection and curvature of the diaphragm under a uniform unit pressure. */

import { bandCholesky, bandSolve } from "../../numerics/kronecker.ts";
import { legendreSum } from "../../numerics/legendre.ts";
import type { Diaphragm } from "./diaphragm.ts";
import { type Plate, plate, stiffness } from "./plate.ts";
import { valuesAt } from "./polynomials.ts";
import { plateScales, plateShape } from "./shape.ts";

/** Per unit of pressure; x and y in meters from the center. */
export interface StaticPlate {
  /** [m/Pa] */
  deflection(x: number, y: number): number;
  /** Mean over the area [m/Pa]. */
  readonly meanDeflection: number;
  /** w_xx and w_yy [1/(m Pa)]. */
  curvature(x: number, y: number): { readonly xx: number; readonly yy: number };
  /** The same at all pairs of places, given as shares of the half sides: (i, j) across and along. */
  curvatures(at: readonly number[]): (i: number, j: number) => { readonly xx: number; readonly yy: number };
  /** Averages of w_xx and w_yy along the line at x, from end to end [1/(m Pa)]. */
  line(x: number): { readonly xx: number; readonly yy: number };
}

/**
 * Galerkin solution with `functions` even polynomials a direction (head of plate.ts).
 * Throws where the diaphragm is buckled: ask `isBuckled` first.
 */
export function staticPlate(diaphragm: Diaphragm, { functions }: { functions: number }): StaticPlate {
  const shape = plateShape(diaphragm);
  const even = plate(shape, { across: "even", along: "even", functions });
  const factor = bandCholesky(stiffness(even));
  if (factor === null)
    throw new Error(`Diaphragm is buckled: N a^2 / D11 = ${shape.tensionAcross}, ${shape.tensionAlong}.`);
  return staticPlateFrom(even, bandSolve(factor, even.load), diaphragm);
}

/** The same from an answer to the uniform load that is known already, on the functions of `even`. */
export function staticPlateFrom(even: Plate, q: Float64Array, diaphragm: Diaphragm): StaticPlate {
  const { shape } = even;
  const scales = plateScales(diaphragm);
  const n = even.along.count;
  const sum = (x: Float64Array, y: Float64Array) => {
    let total = 0;
    for (let i = 0; i < x.length; i++) for (let j = 0; j < n; j++) total += q[i * n + j]! * x[i]! * y[j]!;
    return total;
  };
  const at = (x: number, y: number) => ({
    across: valuesAt(even.across, (2 * x) / diaphragm.across),
    along: valuesAt(even.along, (2 * y) / diaphragm.along),
  });
  const yy = scales.curvature / shape.aspect ** 2;
  // The averages along the guide, done once: what remains is a sum over the functions across.
  const { mean, turn } = averagedAlong(even, q);
  const curved = new Float64Array((even.across.degrees.at(-1) ?? 0) + 1);
  mean.forEach((value, i) => {
    curved[even.across.degrees[i]!] = value * even.across.factors[i]!;
  });
  const turns = shape.ends !== Number.POSITIVE_INFINITY;
  return {
    deflection: (x, y) => {
      const { across, along } = at(x, y);
      return scales.deflection * sum(across.value, along.value);
    },
    meanDeflection: (scales.deflection * dot(q, even.load)) / 4,
    curvature: (x, y) => {
      const { across, along } = at(x, y);
      return { xx: scales.curvature * sum(across.curvature, along.value), yy: yy * sum(across.value, along.curvature) };
    },
    curvatures: (places) => {
      const table = (basis: Plate["across"]) => places.map((xi) => valuesAt(basis, xi));
      const [across, along] = [table(even.across), table(even.along)];
      // First pass: sums over the functions across, one row a place.
      const half = across.map(({ value, curvature }) => {
        const [bent, straight] = [new Float64Array(n), new Float64Array(n)];
        for (let i = 0; i < value.length; i++) {
          for (let j = 0; j < n; j++) {
            bent[j]! += curvature[i]! * q[i * n + j]!;
            straight[j]! += value[i]! * q[i * n + j]!;
          }
        }
        return { bent, straight };
      });
      return (i, j) => ({
        xx: scales.curvature * dot(half[i]!.bent, along[j]!.value),
        yy: yy * dot(half[i]!.straight, along[j]!.curvature),
      });
    },
    line: (x) => {
      const xi = (2 * x) / diaphragm.across;
      const xx = scales.curvature * legendreSum(curved, xi);
      return { xx, yy: turns ? yy * dot(turn, valuesAt(even.across, xi).value) : 0 };
    },
  };
}

/** Per function across: mean of the answer along the guide, and half the difference of its end slopes. */
function averagedAlong({ across, along }: Plate, q: Float64Array) {
  const mean = new Float64Array(across.count);
  const turn = new Float64Array(across.count);
  for (let i = 0; i < across.count; i++) {
    for (let j = 0; j < along.count; j++) {
      mean[i]! += (q[i * along.count + j]! * along.integrals[j]!) / 2;
      turn[i]! += q[i * along.count + j]! * along.endSlopes[j]!;
    }
  }
  return { mean, turn };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
