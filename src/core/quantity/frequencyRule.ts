/** Integrals over frequency: Gauss's rule on pieces of equal ratio, finer around narrow peaks. */

import { gaussLegendre } from "../numerics/legendre.ts";
import { pow } from "../numerics/power.ts";

export interface FrequencyRule {
  /** Points and weights [Hz], ascending. */
  readonly f: Float64Array;
  readonly df: Float64Array;
}

/** A peak at a frequency, and half its width [Hz]. */
export interface Peak {
  readonly at: number;
  readonly half: number;
}

/** Points for a density between two frequencies [Hz]: `points` a piece of half an octave at most, pieces ending where peaks do. */
export function frequencyRule(
  from: number,
  to: number,
  options: { readonly points?: number; readonly peaks?: readonly Peak[] } = {},
): FrequencyRule {
  const { points = 6, peaks = [] } = options;
  const { nodes, weights } = gaussLegendre(points);
  const ends = pieceEnds(from, to, peaks);
  const count = (ends.length - 1) * points;
  const [f, df] = [new Float64Array(count), new Float64Array(count)];
  for (let piece = 0; piece + 1 < ends.length; piece++) {
    const [low, high] = [Math.log(ends[piece]!), Math.log(ends[piece + 1]!)];
    for (let i = 0; i < points; i++) {
      const at = piece * points + i;
      f[at] = Math.exp((low + high) / 2 + ((high - low) / 2) * nodes[i]!);
      df[at] = weights[i]! * ((high - low) / 2) * f[at]!;
    }
  }
  return { f, df };
}

function pieceEnds(from: number, to: number, peaks: readonly Peak[]): readonly number[] {
  const pieces = Math.max(1, Math.ceil(2 * Math.log2(to / from)));
  const ends = Array.from({ length: pieces + 1 }, (_, i) => (i === pieces ? to : from * pow(to / from, i / pieces)));
  for (const { at, half } of peaks) {
    // Steps that triple away from the peak, until the plain pieces are as fine.
    for (let step = half; step < at / 6; step *= 3) ends.push(at - step, at + step);
  }
  const inside = ends.filter((end) => end >= from && end <= to).sort((a, b) => a - b);
  return inside.filter((end, i) => i === 0 || end > inside[i - 1]! * (1 + 1e-9));
}
