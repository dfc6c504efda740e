/** A-weighted power of a device's own heat and of its light, for devices that are asked once, among thousands. */

import { complex, divide } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { type LightNoise, lightSources, sourceDensity } from "../../parts/readout/lightNoise.ts";
import { frequencyRule } from "../../quantity/frequencyRule.ts";
import { fluctuation } from "../../quantity/nyquist.ts";
import { aWeightPower } from "../../quantity/weighting.ts";
import type { Microphone } from "../microphone.ts";
import { leanResolution } from "../span/lean.ts";
import { classAnswer, type LineClass, lineAnswer, lineSystem } from "./lineAnswer.ts";
import { structuralCompliance, structuralEstimate } from "./structuralNoise.ts";

const rule = frequencyRule(20, 20e3, { points: 3 });
const weights = rule.df.map((width, i) => width * aWeightPower(rule.f[i]!));

/** Frequencies of heat, in equal ratios. */
const asked = (count: number) => Array.from({ length: count }, (_, i) => 20 * pow(1000, i / (count - 1)));
const few = asked(12);
const many = asked(32);

/** Power of the light's noise [rad^2]. */
export function lightPower(light: LightNoise): number {
  let power = 0;
  for (let i = 0; i < rule.f.length; i++) {
    for (const source of lightSources) power += sourceDensity(light.sources[source], rule.f[i]!) * weights[i]!;
  }
  return power;
}

/**
 * Power of the heat [rad^2], all of it, read between 32 frequencies: a resonance narrower than a sixth of itself is missed. To
 * some per cent, as structuralNoise.ts.
 */
export function heatPower(microphone: Microphone): number {
  const system = lineSystem(microphone, leanResolution(microphone));
  const { lossFactor } = microphone.diaphragm;
  const own = system.even.line.self.compliance + system.odd.line.self.compliance;
  return powerOf(microphone, many, {
    own,
    structural: lossFactor > 0 ? structuralCompliance(system) : 0,
    answer: (omega) => lineAnswer(system, complex(omega)).total.im,
  });
}

/** The same of the shapes even across the guide, between twelve frequencies: all but a tenth of it, in a millisecond. */
export const heatAbout = (microphone: Microphone, line: LineClass): number =>
  powerOf(microphone, few, {
    own: line.line.self.compliance,
    structural: microphone.diaphragm.lossFactor > 0 ? structuralEstimate(microphone) : 0,
    answer: (omega) => classAnswer(line, complex(omega), "even").im,
  });

function powerOf(
  { diaphragm, air }: Microphone,
  frequencies: readonly number[],
  given: {
    /** c^T g as in line.ts, and c^T K^-1 c of light with a width [rad^2/(N m)]. */
    readonly own: number;
    readonly structural: number;
    /** Im c^T A^-1 c [rad^2/(N m)] at omega. */
    readonly answer: (omega: number) => number;
  },
): number {
  const eta = diaphragm.lossFactor;
  const perStiffness = 1 / (plateScales(diaphragm).deflection * ((diaphragm.across * diaphragm.along) / 4));
  const line = divide(complex(given.own * perStiffness), complex(1, eta)).im;
  const lossy = (-eta * given.structural) / (1 + eta * eta);
  const heat = frequencies.map((frequency) => {
    const omega = 2 * Math.PI * frequency;
    const density = fluctuation(complex(0, given.answer(omega) - line + lossy), omega, air.temperature);
    return Math.log(Math.max(Number.MIN_VALUE, density));
  });
  const last = frequencies.length - 1;
  let power = 0;
  for (let i = 0; i < rule.f.length; i++) {
    const place = Math.min(last - 1e-6, Math.max(0, (last * Math.log(rule.f[i]! / 20)) / Math.log(1000)));
    const below = Math.floor(place);
    power += Math.exp(heat[below]! + (place - below) * (heat[below + 1]! - heat[below]!)) * weights[i]!;
  }
  return power;
}
