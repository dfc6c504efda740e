/**
 * Heat of the device in the phase of the light, over frequency: few frequencies solved, a rational function through them.
 *
 *     S_phi = -(4 k T / omega) Im chi,   chi = chi_line + i omega n(omega),   chi_line = c^T g / (1 + i eta)
 *
 * n is what is interpolated: its real part is the viscous noise, without the factor omega that would cost digits at low
 * frequency; the line's own part is known in closed form. Source and derivation: docs/theory/noise.md.
 */
import { add, type Complex, complex, divide, scale, subtract } from "../numerics/complex.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import { fluctuation } from "../quantity/nyquist.ts";
import { type Curve, readCurve, sampleCurve } from "./curve.ts";
import { type LineClass, type LineSystem, lineAnswer } from "./lineAnswer.ts";
import type { Microphone } from "./microphone.ts";
import { type Resolution, wavesAt } from "./prepare.ts";

export interface ThermalNoise {
  /** Density at one frequency, solved there [rad^2/Hz]. */
  at(frequency: number): number;
  /** Densities at frequencies inside the range, from the curve [rad^2/Hz]. */
  read(frequencies: Float64Array): Float64Array;
  readonly curve: Curve;
}

/** Highest frequency that noise is weighted at [Hz]. */
const audible = 20e3;

/**
 * Resolution for heat: the influence function carries the line, so few functions do. At least 5 a direction, 1.5 + 0.65 times
 * the half waves that fit into half the side at 20 kHz, and never more than the response has.
 *
 * 5, 1.5, 0.65 and 20 film terms: smallest that kept the density of a thin film, a whole device and a wide plate to 1e-4 up to
 * 20 kHz; not derived.
 */
export function thermalDetail(microphone: Microphone, response: Resolution): Resolution {
  const waves = wavesAt(microphone, 2 * Math.PI * audible);
  const functions = (count: number, most: number) => Math.min(most, Math.max(5, Math.ceil(1.5 + 0.65 * count)));
  return {
    functions: {
      across: functions(waves.across, response.functions.across),
      along: functions(waves.along, response.functions.along),
    },
    fine: response.fine,
    filmTerms: 20,
  };
}

/** The curve between two frequencies [Hz]; `tolerance` relative to |n|. */
export function thermalNoise(
  system: LineSystem,
  question: { readonly from: number; readonly to: number; readonly tolerance: number; readonly temperature: number },
): ThermalNoise {
  const { temperature } = question;
  const own = add(lineOwn(system.even), lineOwn(system.odd));
  const rest = (frequency: number): Complex => {
    const omega = 2 * Math.PI * frequency;
    return divide(subtract(lineAnswer(system, complex(omega)).total, own), complex(0, omega));
  };
  const curve = sampleCurve(rest, { ...question, floor: Number.MIN_VALUE });
  const density = (frequency: number, real: number) => {
    const omega = 2 * Math.PI * frequency;
    return fluctuation(complex(0, own.im + omega * real), omega, temperature);
  };
  return {
    at: (frequency) => density(frequency, rest(frequency).re),
    read: (frequencies) => {
      const { re } = readCurve(curve, frequencies);
      return re.map((real, i) => density(frequencies[i]!, real));
    },
    curve,
  };
}

/** c^T g / (1 + i eta) [rad^2/(N m)]. */
function lineOwn({ line, system }: LineClass): Complex {
  const { diaphragm } = system.microphone;
  const perStiffness = 1 / (plateScales(diaphragm).deflection * ((diaphragm.across * diaphragm.along) / 4));
  return scale(divide(complex(line.self.compliance), complex(1, diaphragm.lossFactor)), perStiffness);
}
