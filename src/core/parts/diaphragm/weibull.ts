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
import type { Diaphragm } from "./diaphragm.ts";
import { bendingStress, largestBendingStress } from "./stress.ts";

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
  const load = (use.area / tested.area) * (use.time / tested.time) ** (tested.modulus / use.growth);
  return -Math.expm1(-load * (use.stress / tested.scale) ** tested.modulus);
}

/** Largest stress at which so many break [Pa]. */
export function strengthAt(tested: TestedStrength, use: Use & { readonly probability: number }): number {
  const share = (-Math.log1p(-use.probability) * tested.area) / use.area;
  return tested.scale * share ** (1 / tested.modulus) * (tested.time / use.time) ** (1 / use.growth);
}

/** Where the tension is, for a uniform pressure. */
export interface StressedArea {
  /** A_eff of both faces [m2]. */
  readonly area: number;
  /** Largest tension per pressure [Pa/Pa] and where (stress.ts). */
  readonly largest: ReturnType<typeof largestBendingStress>;
}

const { nodes, weights } = gaussLegendre(24);

/** Effective area under a uniform pressure, by Gauss's rule over a quarter; axes of the plate taken for the principal ones. */
export function effectiveArea(
  diaphragm: Diaphragm,
  { modulus, functions }: { readonly modulus: number; readonly functions: number },
): StressedArea {
  const largest = largestBendingStress(diaphragm, { functions });
  const field = bendingStress(diaphragm, { functions });
  const [half, end] = [diaphragm.across / 2, diaphragm.along / 2];
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) {
    for (let j = 0; j < nodes.length; j++) {
      const { x, y } = field.at((half * (1 + nodes[i]!)) / 2, (end * (1 + nodes[j]!)) / 2, "front");
      // What is pressed at one face is stretched at the other.
      const both = (Math.abs(x) / largest.stress) ** modulus + (Math.abs(y) / largest.stress) ** modulus;
      sum += (weights[i]! * weights[j]! * both) / 2;
    }
  }
  return { area: sum * half * end, largest };
}
