/** One resonance followed along a value that is varied. */
import { candidates, mainResonance } from "./mainResonance.ts";
import type { Prediction } from "./prediction.ts";

/** How far the next one may lie from where the last two point, in logarithms of frequency and half that of the damping ratio. */
const reach = 0.7;

/**
 * One resonance followed from place to place (`at`, in logarithms): of all that are heard at all, that next to where the last two point. By their shares
 * alone it would jump where a guide's place or a closed film makes another one louder. Where none is near, the loudest begins anew.
 */
export function createBranch() {
  type Known = { readonly at: number; readonly f: number; readonly z: number };
  let [last, before]: [Known | null, Known | null] = [null, null];
  return (at: number, resonances: Prediction["resonances"], decays: Prediction["decays"]) => {
    const guess = (key: "f" | "z"): number => {
      if (last === null) return Number.NaN;
      return before === null
        ? last[key]
        : last[key] + ((last[key] - before[key]) * (at - last.at)) / (last.at - before.at);
    };
    const [f, z] = [guess("f"), guess("z")];
    let best: { readonly known: Known; readonly off: number } | null = null;
    for (const { frequency, dampingRatio } of candidates(resonances, decays)) {
      if (!(frequency > 0 && dampingRatio > 0)) continue;
      const known = { at, f: Math.log(frequency), z: Math.log(dampingRatio) };
      const off = Math.hypot(known.f - f, (known.z - z) / 2);
      if (best === null || off < best.off) best = { known, off };
    }
    if (best === null || !(best.off < reach)) {
      const loudest = mainResonance(resonances, decays);
      const { frequency, dampingRatio } = loudest;
      before = null;
      last =
        frequency !== null && dampingRatio !== null && dampingRatio > 0
          ? { at, f: Math.log(frequency), z: Math.log(dampingRatio) }
          : null;
      return loudest;
    }
    before = last;
    last = best.known;
    return { frequency: Math.exp(last.f), dampingRatio: Math.exp(last.z) };
  };
}
