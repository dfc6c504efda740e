/** Logarithmic decrement: the second opinion on a ring-down, from its crests alone. */
import { fitLinear } from "../numerics/linearFit.ts";
import type { SecondOpinion } from "./reading.ts";

/**
 * Damping ratio from the heights of successive extremes, half a period apart:
 *
 *     ln |A_j| = ln A_0 - j delta / 2,   zeta = delta / sqrt(4 pi^2 + delta^2)
 *
 * Only extremes above `floor` count; each height is that of the parabola through three samples. Holds: one mode, no tone left.
 * Source: [torsion] for the formula.
 */
export function decrementOf(y: Float64Array, rest: number, half: number, floor: number): SecondOpinion {
  const heights: number[] = [];
  const by = "logarithmic decrement";
  // The largest deflection of each half period, one side after the other.
  let i = 0;
  let sign = 0;
  while (i < y.length) {
    let [best, at] = [0, -1];
    while (i < y.length) {
      const value = y[i]! - rest;
      if (sign === 0 && value !== 0) sign = Math.sign(value);
      if (value * sign < 0 && at >= 0 && best > floor) break;
      if (value * sign < 0 && at < 0) sign = -sign;
      if (value * sign > best) [best, at] = [value * sign, i];
      i += 1;
    }
    if (at <= 0 || at + 1 >= y.length || best <= floor) {
      if (best <= floor) break;
      sign = -sign;
      continue;
    }
    const [before, here, after] = [y[at - 1]! - rest, y[at]! - rest, y[at + 1]! - rest];
    const bend = before - 2 * here + after;
    heights.push(Math.abs(bend === 0 ? here : here - (after - before) ** 2 / (8 * bend)));
    sign = -sign;
    if (heights.length > 4000) break;
  }
  if (heights.length < 4)
    return {
      by,
      value: null,
      standardUncertainty: null,
      says: `Crests above the noise: ${heights.length}; needed: four or more.`,
    };
  // A crest's logarithm scatters with noise / height: low crests count less.
  const fit = fitLinear({
    columns: [heights.map(() => 1), heights.map((_, j) => j)],
    y: heights.map(Math.log),
    standard: heights.map((height) => floor / height),
  });
  if (!fit.ok) return { by, value: null, standardUncertainty: null, says: fit.problems[0]?.message ?? "no fit" };
  const delta = -2 * fit.value.values[1]!;
  const value = delta / Math.hypot(2 * Math.PI, delta);
  const scatter = fit.value.residualStandardDeviation ?? 1;
  const slope = fit.value.standardUncertainties?.[1] ?? 0;
  return {
    by,
    value,
    standardUncertainty: (2 * slope * Math.max(1, scatter)) / (2 * Math.PI),
    says: `${heights.length} crests, half a period (${half.toFixed(1)} samples) apart`,
  };
}
