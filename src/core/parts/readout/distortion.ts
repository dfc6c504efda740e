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

/**
 * Total harmonic distortion of the summed output [-].
 *
 *     THD = sqrt(sum over k >= 2 of |o_k|^2) / |o_1|
 *
 * One period of the output sampled at 48 times: Bessel's harmonics V cos(bias) 2 J_even(m), V sin(bias) 2 J_odd(m) where the phase
 * is a sine, and the mixture of all where it is not. Mean and fundamental are taken off; what is left has half that sum for its
 * mean square (Parseval), and keeps its digits however faint it is. Null: no fundamental. Derivation: docs/theory/loudest.md.
 * Holds: phases below some 10 rad, that 24 harmonics describe.
 */
export function totalDistortion(guides: readonly DistortedGuide[]): number | null {
  const output = new Float64Array(points);
  for (const { weight, amplitude, rest, slope, phases, shift } of guides) {
    const gain = (weight * amplitude) / slope;
    for (let i = 0; i < points; i++) {
      let phase = rest + shift;
      for (let k = 0; k < phases.length; k++) {
        const turn = ((k + 1) * i) % points;
        phase += phases[k]!.re * cosines[turn]! - phases[k]!.im * sines[turn]!;
      }
      output[i]! += gain * cos(phase);
    }
  }
  let [mean, re, im] = [0, 0, 0];
  for (let i = 0; i < points; i++) {
    mean += output[i]! / points;
    re += (output[i]! * cosines[i]! * 2) / points;
    im -= (output[i]! * sines[i]! * 2) / points;
  }
  const fundamental = Math.hypot(re, im);
  if (!(fundamental > 0)) return null;
  let left = 0;
  for (let i = 0; i < points; i++) left += (output[i]! - mean - re * cosines[i]! + im * sines[i]!) ** 2;
  return Math.sqrt((2 * left) / points) / fundamental;
}

const cosines = Float64Array.from({ length: points }, (_, i) => cos((2 * Math.PI * i) / points));
const sines = Float64Array.from({ length: points }, (_, i) => sin((2 * Math.PI * i) / points));
