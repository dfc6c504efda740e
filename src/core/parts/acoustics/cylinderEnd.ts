/** What the flat end of a long cylinder does to the sound that meets it: a table, so an approximation. */

import type { Complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { cos, sin } from "../../numerics/sine.ts";

/**
 * In the middle of the end: pressure over that of the wave at the end without the cylinder [-].
 *
 *     facing: p / p_i = 2 - D e^{-ika}     (doubled at the end, less what the rim sends back from a distance a)
 *
 * D and the level in sound from all directions alike from the table below, straight between its points; D = 2 / sqrt(3)
 * and 3.01 dB beyond ka = 12. Source: own boundary elements, docs/theory/cylinderEnd.py; the limits are exact
 * (docs/theory/acoustics.md). Holds: to 0.1 dB, as refinement of the mesh shows (more at the minima near ka = 6.3 and 12.6), for a
 * cylinder many radii long; the echo of the far end of one 5 to 12 radii long adds up to 0.2 dB.
 */
export function cylinderEnd(ka: number): { readonly facing: Complex; readonly random: number } {
  const [re, im, level] = between(ka);
  const c = cos(ka);
  const s = sin(ka);
  return { facing: { re: 2 - re * c - im * s, im: re * s - im * c }, random: pow(10, level / 20) };
}

function between(ka: number): readonly [number, number, number] {
  const above = table.findIndex((row) => row[0] > ka);
  const high = table[above];
  const low = table[above - 1];
  if (high === undefined || low === undefined) return [LIMIT, 0, RANDOM_LIMIT];
  const share = (ka - low[0]) / (high[0] - low[0]);
  const mix = (i: 1 | 2 | 3) => low[i] + share * (high[i] - low[i]);
  return [mix(1), mix(2), mix(3)];
}

/** D of a right-angled rim at high ka: (nu / 2) sum of four 1 or 0 times sqrt(3), nu = 2 / 3. Derivation: docs/theory/acoustics.md. */
const LIMIT = 2 / Math.sqrt(3);
/** Half of all directions meet a wall that doubles the pressure: 10 log10(4 / 2) [dB]. */
const RANDOM_LIMIT = 10 * Math.log10(2);

/** ka [-], Re D [-], Im D [-], random incidence [dB]; computed as said above, e^{+i omega t}. */
const table: readonly (readonly [number, number, number, number])[] = [
  [0, 1, 0, 0],
  [0.25, 1.0048, 0.041, -0.013],
  [0.5, 1.0247, 0.082, 0.174],
  [0.75, 1.0536, 0.1156, 0.611],
  [1, 1.1002, 0.1375, 1.234],
  [1.25, 1.1507, 0.1424, 1.958],
  [1.5, 1.2036, 0.1204, 2.666],
  [1.75, 1.2399, 0.0786, 3.239],
  [2, 1.2494, 0.0228, 3.592],
  [2.25, 1.231, -0.0251, 3.702],
  [2.5, 1.1941, -0.0538, 3.612],
  [2.75, 1.1538, -0.0599, 3.4],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: a level in dB, not pi
  [3, 1.1207, -0.0479, 3.141],
  [3.25, 1.098, -0.0248, 2.893],
  [3.5, 1.0896, 0.004, 2.7],
  [3.75, 1.0937, 0.0319, 2.587],
  [4, 1.1131, 0.0551, 2.582],
  [4.5, 1.1679, 0.0664, 2.815],
  [5, 1.2085, 0.0213, 3.172],
  [5.5, 1.191, -0.034, 3.298],
  [6, 1.1409, -0.0445, 3.136],
  [6.5, 1.1078, -0.0129, 2.881],
  [7, 1.1129, 0.0282, 2.758],
  [7.5, 1.1512, 0.046, 2.821],
  [8, 1.1879, 0.0269, 3.039],
  [8.5, 1.1851, -0.0191, 3.174],
  [9, 1.1442, -0.0388, 3.111],
  [9.5, 1.1031, -0.0273, 2.938],
  [10, 1.1026, 0.0005, 2.811],
  [12, LIMIT, 0, RANDOM_LIMIT],
];
