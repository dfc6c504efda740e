/**
 * Heat of the device in the phase of the light, over frequency: few frequencies solved, a rational function through them.
 *
 *     S_phi = -(4 k T / omega) Im chi,   chi = c^T g / (1 + i eta) + i omega n(omega)
 *
 * n is what is interpolated: its real part is the viscous noise, without the factor omega that would cost digits at low
 * frequency. What a loss factor makes of the line itself is known in closed form, for light with a width (structuralNoise.ts).
 * Derivation: docs/theory/noise.md.
 */
import { type Complex, complex, divide, subtract } from "../../numerics/complex.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { fluctuation } from "../../quantity/nyquist.ts";
import { type Curve, readCurve, sampleCurve } from "../response/curve.ts";
import type { Line } from "../system/line.ts";
import type { HeatSystem } from "./heatSystem.ts";
import { lineAnswer } from "./lineAnswer.ts";

export interface ThermalNoise {
  /** Density at one frequency, solved there [rad^2/Hz]. */
  at(frequency: number): number;
  /** Densities at frequencies inside the range, from the curve [rad^2/Hz]. */
  read(frequencies: Float64Array): Float64Array;
  /** The curve of n [rad^2 s/(N m)]. */
  readonly curve: Curve;
}

/** Frequencies to begin with: fewer end in more, because heat is smooth and the first round of tests then is the last. */
const begin = 17;

/** The curve between two frequencies [Hz]; `tolerance` relative to |n|, `temperature` in K. */
export function thermalNoise(
  system: HeatSystem,
  question: { readonly from: number; readonly to: number; readonly tolerance: number; readonly temperature: number },
): ThermalNoise {
  const { even, odd, structural } = system;
  const { diaphragm } = even.system.microphone;
  const eta = diaphragm.lossFactor;
  const perStiffness = 1 / (plateScales(diaphragm).deflection * ((diaphragm.across * diaphragm.along) / 4));
  const own = ({ compliance, stretchStrain }: Line["self"]) => compliance + 2 * stretchStrain;
  const compliance = (own(even.line.self) + own(odd.line.self)) * perStiffness;
  const line = divide(complex(compliance), complex(1, eta));
  const rest = (frequency: number): Complex => {
    const omega = 2 * Math.PI * frequency;
    return divide(subtract(lineAnswer(system, complex(omega)).total, line), complex(0, omega));
  };
  const curve = sampleCurve(rest, { ...question, begin, floor: Number.MIN_VALUE });
  const density = (frequency: number, real: number) => {
    const omega = 2 * Math.PI * frequency;
    const lossy = (-eta * structural) / (1 + eta * eta);
    return fluctuation(complex(0, lossy + omega * real), omega, question.temperature);
  };
  return {
    at: (frequency) => density(frequency, rest(frequency).re),
    read: (frequencies) => readCurve(curve, frequencies).re.map((real, i) => density(frequencies[i]!, real)),
    curve,
  };
}
