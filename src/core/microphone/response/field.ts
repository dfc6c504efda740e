/** The response in other sound fields than that of an even pressure: the body's diffraction as a factor on it. */
import { type Complex, multiply } from "../../numerics/complex.ts";
import { bodyDiffraction } from "../../parts/acoustics/diffraction.ts";
import { soundSpeed } from "../../parts/acoustics/radiation.ts";
import type { Microphone } from "../microphone.ts";

export interface FieldResponse {
  /** Plane sound on the axis, from the front, per its own pressure [rad/Pa]. */
  readonly free: Complex;
  /** Sound from all directions alike, root of the mean square [rad/Pa]. */
  readonly random: number;
  /** True where the factor is an estimate: the cylinder. */
  readonly approximate: boolean;
}

/** At a real frequency [Hz]; `response` is that to an even pressure. Null without a body: the pressure is all that is known. */
export function fieldResponse({ body, air }: Microphone, frequency: number, response: Complex): FieldResponse | null {
  if (body === null) return null;
  const { facing, random, approximate } = bodyDiffraction({ body, frequency, soundSpeed: soundSpeed(air) });
  return { free: multiply(response, facing), random: Math.hypot(response.re, response.im) * random, approximate };
}
