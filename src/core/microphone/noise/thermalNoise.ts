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
import type { Microphone } from "../microphone.ts";
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

/** A device and what moves it, whatever basis that is in. */
export interface Heated {
  readonly microphone: Microphone;
  /** c^T g of line.ts, over all classes; c^T K^-1 c of light with a width, 0 without a loss factor. */
  readonly own: number;
  readonly structural: number;
  /** c^T A^-1 c [rad^2/(N m)] at a frequency [rad/s]. */
  readonly answer: (omega: Complex) => Complex;
}

/** Two frequencies [Hz]; `tolerance` relative to |n|. */
interface HeatQuestion {
  readonly from: number;
  readonly to: number;
  readonly tolerance: number;
}

/** What light sees of its own influence function. */
export const ownCompliance = ({ self }: Line): number => self.compliance + 2 * self.stretchStrain;

/** The curve of a device's bases for heat. */
export function thermalNoise(system: HeatSystem, question: HeatQuestion): ThermalNoise {
  const { even, odd, structural } = system;
  const heated = {
    microphone: even.system.microphone,
    own: ownCompliance(even.line) + ownCompliance(odd.line),
    structural,
    answer: (omega: Complex) => lineAnswer(system, omega).total,
  };
  return heatOf(heated, { ...question, begin });
}

/** The same of any basis; `begin` and `most` as in curve.ts. */
export function heatOf(
  { microphone, own, structural, answer }: Heated,
  question: HeatQuestion & { readonly begin: number; readonly most?: number },
): ThermalNoise {
  const { diaphragm, air } = microphone;
  const eta = diaphragm.lossFactor;
  const perStiffness = 1 / (plateScales(diaphragm).deflection * ((diaphragm.across * diaphragm.along) / 4));
  const line = divide(complex(own * perStiffness), complex(1, eta));
  const rest = (frequency: number): Complex => {
    const omega = 2 * Math.PI * frequency;
    return divide(subtract(answer(complex(omega)), line), complex(0, omega));
  };
  const curve = sampleCurve(rest, { ...question, floor: Number.MIN_VALUE });
  const density = (frequency: number, real: number) => {
    const omega = 2 * Math.PI * frequency;
    const lossy = (-eta * structural) / (1 + eta * eta);
    return fluctuation(complex(0, lossy + omega * real), omega, air.temperature);
  };
  return {
    at: (frequency) => density(frequency, rest(frequency).re),
    read: (frequencies) => readCurve(curve, frequencies).re.map((real, i) => density(frequencies[i]!, real)),
    curve,
  };
}
