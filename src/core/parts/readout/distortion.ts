/** Harmonics that a readout makes of a phase, and those that the phase brings along. */

import type { Complex } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";

/** One guide's way to the output: weight / slope * amplitude cos(bias + angle + phi), phi(t) of a few harmonics. */
export interface DistortedGuide {
  readonly weight: number;
  /** Of the output curve [-]. */
  readonly amplitude: number;
  /** Argument of the cosine at rest, bias + angle [rad]. */
  readonly rest: number;
  /** Slope at rest [1/rad]. */
  readonly slope: number;
  /** Amplitudes of the phase at the tone's frequency and its multiples, e^{+i k omega t}, and its steady shift [rad]. */
  readonly phases: readonly Complex[];
  readonly shift: number;
}

const points = 48;
const highest = 12;

/**
 * Total harmonic distortion of the summed output [-].
 *
 *     THD = sqrt(sum over k >= 2 of |o_k|^2) / |o_1|
 *
 * One period of the output sampled at 48 times and transformed: Bessel's harmonics V cos(bias) 2 J_even(m), V sin(bias) 2 J_odd(m)
 * where the phase is a sine, and the mixture of all where it is not. Null: no fundamental. Derivation: docs/theory/loudest.md.
 * Holds: phases below some 5 rad, that 12 harmonics describe.
 */
export function totalDistortion(guides: readonly DistortedGuide[]): number | null {
  const output = new Float64Array(points);
  for (const { weight, amplitude, rest, slope, phases, shift } of guides) {
    for (let i = 0; i < points; i++) {
      let phase = rest + shift;
      for (let k = 0; k < phases.length; k++) {
        const turn = ((k + 1) * i) % points;
        phase += phases[k]!.re * cosines[turn]! - phases[k]!.im * sines[turn]!;
      }
      output[i]! += ((weight * amplitude) / slope) * cos(phase);
    }
  }
  const size = (k: number) => {
    let [re, im] = [0, 0];
    for (let i = 0; i < points; i++) {
      re += output[i]! * cosines[(k * i) % points]!;
      im -= output[i]! * sines[(k * i) % points]!;
    }
    return Math.hypot(re, im);
  };
  const fundamental = size(1);
  if (!(fundamental > 0)) return null;
  let sum = 0;
  for (let k = 2; k <= highest; k++) sum += size(k) ** 2;
  return Math.sqrt(sum) / fundamental;
}

const cosines = Float64Array.from({ length: points }, (_, i) => cos((2 * Math.PI * i) / points));
const sines = Float64Array.from({ length: points }, (_, i) => sin((2 * Math.PI * i) / points));
