/**
 * Poles of a device whose film is uneven: searched and counted over the mean gap, then each followed to the gap as it is by its
 * motion (ownMotion.ts). A bent diaphragm moves poles by some per cent and makes or loses none. Derivation: docs/theory/poles.md.
 */
import { absolute, type Complex, complex, subtract } from "../../numerics/complex.ts";
import type { Microphone } from "../microphone.ts";
import { type Form, type OwnMotion, ownMotion } from "../poles/ownMotion.ts";

export const isUneven = ({ film }: Microphone): boolean => film?.relief !== undefined;

/** Where a pole of the mean gap, with its motion there, lies over the gap as it is; null where the way is lost. */
export function bentMotion(form: Form, level: Complex, like: OwnMotion | null): OwnMotion | null {
  const motion = (like && ownMotion(form, level, { like, within: 1e-8 })) ?? ownMotion(form, level, { within: 1e-8 });
  return motion && absolute(subtract(motion.omega, level)) < farthest * absolute(level) ? motion : null;
}

/** All of them, in order of frequency; one that is lost, or comes where another is, stays where it was. */
export function bentMotions(form: Form, motions: readonly OwnMotion[]): readonly OwnMotion[] {
  const found: OwnMotion[] = [];
  for (const level of motions) {
    const bent = bentMotion(form, level.omega, level);
    found.push(bent && !found.some(({ omega }) => isSame(omega, bent.omega)) ? bent : level);
  }
  return found.sort((a, b) => absolute(a.omega) - absolute(b.omega));
}

/** Real poles likewise, by their motions over the mean gap [1/s]. */
export function bentRates(form: Form, level: Form, rates: readonly number[]): readonly number[] {
  const found: number[] = [];
  for (const rate of rates) {
    const like = ownMotion(level, complex(0, rate), { within: 1e-8 });
    const bent = bentMotion(form, complex(0, rate), like)?.omega;
    const isReal = bent && Math.abs(bent.re) < 1e-6 * absolute(bent) && bent.im > 0;
    found.push(isReal && !found.some((other) => Math.abs(other - bent.im) < 1e-7 * other) ? bent.im : rate);
  }
  return found.sort((a, b) => a - b);
}

const isSame = (a: Complex, b: Complex): boolean => absolute(subtract(a, b)) < 1e-7 * absolute(b);

/** A pole that moves by more of itself is another one. */
const farthest = 0.25;
