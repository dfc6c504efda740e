/**
 * Where the poles of a shape lie over the gap of its film: starts for the search, made once and kept with the shape.
 *
 * They are told in first resonances in vacuum, so that they serve other thicknesses too; a start that is off only costs steps,
 * because the number of poles is confirmed anyway (followPoles.ts).
 */

import { absolute, add, type Complex, scale, subtract } from "../numerics/complex.ts";
import { pow } from "../numerics/power.ts";

export interface PoleTable {
  /** Ascending [m]. */
  readonly gaps: readonly number[];
  /** At each gap, over the first resonance in vacuum. */
  readonly poles: readonly (readonly Complex[])[];
  /** Up to this |omega| over the first resonance. */
  readonly upTo: number;
}

/** Gaps of a table from the widest to the thinnest, so that poles are followed into the damping. */
export const tableGaps = (from: number, to: number): readonly number[] =>
  Array.from({ length: tableSize }, (_, i) => to * pow(from / to, i / (tableSize - 1)));

const tableSize = 24;
/** Poles of neighboring gaps farther apart than this share of themselves are not taken for the same. */
const sameWithin = 0.25;

/**
 * Starts at a gap, over the first resonance: between those of the gaps beside it where the same pole is at both, and those that are
 * at one of them alone.
 */
export function startsAt({ gaps, poles }: PoleTable, gap: number): readonly Complex[] {
  const above = gaps.findIndex((one) => one >= gap);
  if (above === 0) return poles[0]!;
  if (above < 0) return poles.at(-1)!;
  const [low, high] = [poles[above - 1]!, poles[above]!];
  const share = Math.log(gap / gaps[above - 1]!) / Math.log(gaps[above]! / gaps[above - 1]!);
  const left = [...high];
  const starts: Complex[] = [];
  for (const pole of low) {
    const at = nearest(left, pole);
    if (at < 0) {
      starts.push(pole);
      continue;
    }
    starts.push(add(scale(pole, 1 - share), scale(left[at]!, share)));
    left.splice(at, 1);
  }
  return [...starts, ...left];
}

/** Index of the nearest of some poles, if near enough to be the same; -1 otherwise. */
function nearest(poles: readonly Complex[], pole: Complex): number {
  let best = -1;
  let least = sameWithin * absolute(pole);
  poles.forEach((other, i) => {
    const distance = absolute(subtract(other, pole));
    if (distance < least) [best, least] = [i, distance];
  });
  return best;
}
