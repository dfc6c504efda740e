import { pow, tenTo } from "../numerics/power.ts";

/**
 * One-third octaves, base ten.
 *
 *     middle = 1000 G^(x / 3),   edges = middle G^(+-1/6),   G = 10^0.3
 *
 * Source: [iec-61260-1]; nominal frequencies are its rounded names (from memory, to be confirmed).
 */
export interface ThirdOctave {
  /** The band's name [Hz]: 1250 for 1258.9. */
  readonly nominal: number;
  /** Exact middle and edges [Hz]. */
  readonly mid: number;
  readonly from: number;
  readonly to: number;
}

/** Names within a decade, from its first band on. */
const names = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8] as const;
const halfWidth = pow(10, 1 / 20);

/** The bands whose names lie between two frequencies [Hz], ascending; from 20 Hz to 20 kHz 31 of them. */
export function thirdOctaves(from: number, to: number): readonly ThirdOctave[] {
  const bands: ThirdOctave[] = [];
  const first = Math.floor(10 * Math.log10(from)) - 1;
  const last = Math.ceil(10 * Math.log10(to)) + 1;
  for (let tenth = first; tenth <= last; tenth++) {
    const decade = Math.floor(tenth / 10);
    const nominal = Number((names[tenth - 10 * decade]! * tenTo(decade)).toPrecision(6));
    if (nominal < from || nominal > to) continue;
    const mid = pow(10, tenth / 10);
    bands.push({ nominal, mid, from: mid / halfWidth, to: mid * halfWidth });
  }
  return bands;
}
