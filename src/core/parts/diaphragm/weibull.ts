/**
 * Strength of a brittle surface, statistically: how likely a stressed diaphragm breaks.
 *
 *     P = 1 - exp( -(A_eff / A_0) (t / t_0)^(m / n) (sigma / sigma_0)^m ),   A_eff = integral (sigma_1^m + sigma_2^m) / 2 dA / sigma^m
 *
 * sigma_0, A_0, t_0: strength, area and load time of the tests, under even tension in both directions; m Weibull's modulus, n the
 * exponent of slow crack growth. Source: Weibull 1951; independent principal stresses; sigma^n t constant (all from memory, to be
 * confirmed). Holds: flaws of the surface, alike in all directions; edges and chips are another matter. Measured glass often does
 * not follow Weibull's law [veer-2024].
 */

import { gaussLegendre } from "../../numerics/legendre.ts";
import { pow } from "../../numerics/power.ts";
import type { Diaphragm } from "./diaphragm.ts";
import { type LargestStress, stressTable } from "./stress.ts";

/** Figures of a test series. */
export interface TestedStrength {
  /** Stress at which 63 % break [Pa]. */
  readonly scale: number;
  readonly modulus: number;
  /** Stressed area [m2] and load time [s] of the tests. */
  readonly area: number;
  readonly time: number;
}

interface Use {
  /** Effective area [m2], load time [s], exponent of slow crack growth [-]. */
  readonly area: number;
  readonly time: number;
  readonly growth: number;
}

/** Probability that a surface breaks whose largest stress is `stress` [-]. */
export function failureProbability(tested: TestedStrength, use: Use & { readonly stress: number }): number {
  if (use.stress <= 0) return 0;
  const load = (use.area / tested.area) * pow(use.time / tested.time, tested.modulus / use.growth);
  return -Math.expm1(-load * pow(use.stress / tested.scale, tested.modulus));
}

/** Largest stress at which so many break [Pa]. */
export function strengthAt(tested: TestedStrength, use: Use & { readonly probability: number }): number {
  const share = (-Math.log1p(-use.probability) * tested.area) / use.area;
  return tested.scale * pow(share, 1 / tested.modulus) * pow(tested.time / use.time, 1 / use.growth);
}

/** Where the tension is, for a uniform pressure. */
export interface StressedArea {
  /** A_eff of both faces [m2]. */
  readonly area: number;
  /** Largest tension along x or y per pressure [Pa/Pa], where [m] and on which face (as `largestBendingStress`, on a grid). */
  readonly largest: LargestStress;
}

const { nodes, weights } = gaussLegendre(24);
/** Places a direction from the middle to the edge where the largest stress is looked for, both included. */
const looked = 25;

/** Effective area under a uniform pressure, by Gauss's rule over a quarter; axes of the plate taken for the principal ones. */
export function effectiveArea(
  diaphragm: Diaphragm,
  { modulus, functions }: { readonly modulus: number; readonly functions: number },
): StressedArea {
  const even = Array.from({ length: looked }, (_, i) => i / (looked - 1));
  const gauss = Array.from(nodes, (node) => (1 + node) / 2);
  // Both sets in one table.
  const at = [...even, ...gauss];
  const field = stressTable(diaphragm, { at, functions });
  let largest: LargestStress = { stress: 0, face: "front", x: 0, y: 0, axis: "across" };
  for (let i = 0; i < looked; i++) {
    for (let j = 0; j < looked; j++) {
      const place = { x: (even[i]! * diaphragm.across) / 2, y: (even[j]! * diaphragm.along) / 2 };
      const there = field(i, j);
      for (const face of ["front", "back"] as const) {
        const { x, y } = there[face];
        const axis = Math.abs(x) >= Math.abs(y) ? "across" : "along";
        const stress = Math.abs(axis === "across" ? x : y);
        // Of two places or faces alike the first; pressure of the other sign swaps them.
        if (stress > largest.stress * (1 + 1e-12)) largest = { stress, face, ...place, axis };
      }
    }
  }
  const share = (value: number) => pow(Math.abs(value) / largest.stress, modulus);
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) {
    for (let j = 0; j < nodes.length; j++) {
      const { front, back } = field(looked + i, looked + j);
      // What is pressed at one face is stretched at the other: half of the two faces, and the mean of the two directions.
      const atFront = share(front.x) + share(front.y);
      // Without layers the faces are stressed alike.
      const both = atFront + (diaphragm.stack ? share(back.x) + share(back.y) : atFront);
      sum += (weights[i]! * weights[j]! * both) / 4;
    }
  }
  return { area: (sum * diaphragm.across * diaphragm.along) / 4, largest };
}
