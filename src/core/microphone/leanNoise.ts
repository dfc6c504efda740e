/** A-weighted noise of a device that is asked once, among thousands: a few frequencies of heat, the light's noise as it is. */
import { complex, divide } from "../numerics/complex.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import { lightSources, sourceDensity } from "../parts/readout/lightNoise.ts";
import { frequencyRule } from "../quantity/frequencyRule.ts";
import { soundLevelDb } from "../quantity/kinds.ts";
import { fluctuation } from "../quantity/nyquist.ts";
import { aWeightPower } from "../quantity/weighting.ts";
import type { LeanResponse } from "./lean.ts";
import { classAnswer } from "./lineAnswer.ts";
import type { Microphone } from "./microphone.ts";
import { lightOf } from "./noise.ts";
import { structuralEstimate } from "./structuralNoise.ts";

const rule = frequencyRule(20, 20e3, { points: 3 });
const weights = rule.df.map((width, i) => width * aWeightPower(rule.f[i]!));

/** Frequencies of heat, in equal ratios. */
const heats = 12;
const asked = Array.from({ length: heats }, (_, i) => 20 * 1000 ** (i / (heats - 1)));

/**
 * Level re 20 uPa, A-weighted, over |S| at the reference; null: the light's noise is not known, or |S| = 0.
 *
 * Heat of the shapes even across the guide only, which is all but some per cent of it, read between twelve frequencies: a sharp
 * resonance is missed. Where the light sets the floor the level is that of `noiseOf` to 0.05 dB.
 */
export function leanNoise(
  microphone: Microphone,
  { system, line }: LeanResponse,
  given: { readonly magnitude: number; readonly bias: readonly (number | null)[] },
): number | null {
  const { light } = lightOf(microphone, given.bias);
  if (light === null || !(given.magnitude > 0)) return null;
  const { diaphragm, air } = microphone;
  const eta = diaphragm.lossFactor;
  const perStiffness = 1 / (plateScales(diaphragm).deflection * ((diaphragm.across * diaphragm.along) / 4));
  const own = divide(complex(line.self.compliance * perStiffness), complex(1, eta)).im;
  const lossy = eta > 0 ? (-eta * structuralEstimate(microphone)) / (1 + eta * eta) : 0;
  const heat = asked.map((frequency) => {
    const omega = 2 * Math.PI * frequency;
    const { im } = classAnswer({ system, line }, complex(omega), "even");
    return Math.log(Math.max(Number.MIN_VALUE, fluctuation(complex(0, im - own + lossy), omega, air.temperature)));
  });
  let power = 0;
  for (let i = 0; i < rule.f.length; i++) {
    const f = rule.f[i]!;
    const place = Math.min(heats - 1.000001, Math.max(0, ((heats - 1) * Math.log(f / 20)) / Math.log(1000)));
    const below = Math.floor(place);
    let density = Math.exp(heat[below]! + (place - below) * (heat[below + 1]! - heat[below]!));
    for (const source of lightSources) density += sourceDensity(light.sources[source], f);
    power += density * weights[i]!;
  }
  return soundLevelDb(Math.sqrt(power) / given.magnitude);
}
