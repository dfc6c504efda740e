/** A frequency response as an analyzer would give it: sections, what lies beside them, noise that follows the seed. */
import { seededNormal } from "../numerics/random.ts";

export interface ResponsePlan {
  readonly sections: readonly { readonly frequency: number; readonly dampingRatio: number; readonly gain: number }[];
  /** Constant beside the sections. */
  readonly rest?: number;
  /** [Hz] */
  readonly frequency: ArrayLike<number>;
  /** Standard deviation of each part, in the unit of the response. */
  readonly noise: number;
  readonly seed: number;
}

export function simulateResponse({ sections, rest = 0, frequency, noise, seed }: ResponsePlan): {
  readonly frequency: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
} {
  const normal = seededNormal(seed);
  const re = new Float64Array(frequency.length);
  const im = new Float64Array(frequency.length);
  for (let i = 0; i < frequency.length; i++) {
    re[i] = rest + noise * normal();
    im[i] = noise * normal();
    for (const section of sections) {
      const u = frequency[i]! / section.frequency;
      const [dRe, dIm] = [1 - u * u, 2 * section.dampingRatio * u];
      const squared = dRe * dRe + dIm * dIm;
      re[i]! += (section.gain * dRe) / squared;
      im[i]! -= (section.gain * dIm) / squared;
    }
  }
  return { frequency: Float64Array.from(frequency), re, im };
}
