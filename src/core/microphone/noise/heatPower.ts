/** A-weighted power of a device's own heat and of its light, for devices that are asked once, among thousands. */

import { type LightNoise, lightSources, sourceDensity } from "../../parts/readout/lightNoise.ts";
import { type FrequencyRule, frequencyRule } from "../../quantity/frequencyRule.ts";
import { aWeightPower } from "../../quantity/weighting.ts";
import type { Microphone } from "../microphone.ts";
import { leanResolution } from "../span/lean.ts";
import { classAnswer, type LineClass, lineAnswer, lineSystem } from "./lineAnswer.ts";
import { structuralCompliance, structuralEstimate } from "./structuralNoise.ts";
import { type Heated, heatOf, ownCompliance } from "./thermalNoise.ts";

/** Light's noise is smooth; heat peaks where the device rings: by ten points each half octave a peak of a thirtieth is seen. */
const lightRule = weighted(frequencyRule(20, 20e3, { points: 3 }));
const heatRule = weighted(frequencyRule(20, 20e3, { points: 10 }));

function weighted({ f, df }: FrequencyRule): { readonly f: Float64Array; readonly weights: Float64Array } {
  return { f, weights: df.map((width, i) => width * aWeightPower(f[i]!)) };
}

/** Power of the light's noise [rad^2]. */
export function lightPower(light: LightNoise): number {
  const { f, weights } = lightRule;
  let power = 0;
  for (let i = 0; i < f.length; i++) {
    for (const source of lightSources) power += sourceDensity(light.sources[source], f[i]!) * weights[i]!;
  }
  return power;
}

/** Power of the heat [rad^2], all of it: to a thousandth where nothing rings narrower than a thirtieth of itself, but for what structuralNoise.ts says. */
export function heatPower(microphone: Microphone): number {
  const system = lineSystem(microphone, leanResolution(microphone));
  return powerOf({
    microphone,
    own: ownCompliance(system.even.line) + ownCompliance(system.odd.line),
    structural: microphone.diaphragm.lossFactor > 0 ? structuralCompliance(system) : 0,
    answer: (omega) => lineAnswer(system, omega).total,
  });
}

/** The same of the shapes even across the guide, in a millisecond: at least half of it. */
export const heatAbout = (microphone: Microphone, line: LineClass): number =>
  powerOf({
    microphone,
    own: ownCompliance(line.line),
    structural: microphone.diaphragm.lossFactor > 0 ? structuralEstimate(microphone) : 0,
    answer: (omega) => classAnswer(line, omega, "even"),
  });

/** By a rational function through few frequencies: between them it is a hundred times better than where they tested it. */
const curve = { from: 20, to: 20e3, begin: 9, tolerance: 0.1, most: 41 } as const;

function powerOf(heated: Heated): number {
  const { f, weights } = heatRule;
  const density = heatOf(heated, curve).read(f);
  // A device that nothing damps has next to none between its resonances: the curve's round-off may lie on either side of 0.
  return density.reduce((power, value, i) => power + Math.max(0, value) * weights[i]!, 0);
}
