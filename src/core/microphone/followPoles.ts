/**
 * Poles found fast in a small model: followed from where a device that differs little had them, or searched along rays, and
 * their number confirmed by a short contour. Derivation: docs/theory/poles.md.
 */
import { absolute, type Complex, complex, scale, subtract } from "../numerics/complex.ts";
import { missingPoles } from "./countPoles.ts";
import { countedBelow, oscillatingPoles, polish } from "./oscillatingPoles.ts";
import { ownMotion } from "./ownMotion.ts";
import { liveFactors, type PoleModel } from "./poleModel.ts";

/** Poles a little beyond what is asked are kept too: next to the contour they would blur the count. */
const beyond = 1.25;

/**
 * Oscillating poles of the small model up to `top` and a little beyond; null where their number is not confirmed. `near`: where
 * they should be, null where nobody knows.
 */
export function followed(
  model: PoleModel,
  near: readonly Complex[] | null,
  top: number,
  first: number,
): readonly Complex[] | null {
  const found: Complex[] = [];
  const confirmed = () => missingPoles(model, { upTo: top / (2 * Math.PI), below: countedBelow }, found) === 0;
  const follow = (starts: readonly Complex[]) => {
    const idle: Complex[] = [];
    for (const start of starts) {
      if (absolute(start) > 1.05 * beyond * top) continue;
      const motion = ownMotion(model.form, start, { within: 1e-4 });
      if (motion && oscillates(motion.omega) && !isAmong(motion.omega, found)) found.push(motion.omega);
      else idle.push(start);
    }
    return idle;
  };
  // Nearly overdamped poles are not counted; where nothing else makes the resonance they are looked for.
  const followDamped = () => {
    if (found.some((omega) => absolute(omega) < 2 * Math.PI * 1.2 * first)) return;
    follow(nearlyOverdamped.map((share) => scale(strongly, share * 2 * Math.PI * first)));
  };
  if (near !== null) {
    const idle = follow(near);
    followDamped();
    if (confirmed()) return found;
    // Two that went to the same one of a pair of twins: with the known ones deflated the other shows.
    if (idle.length > 0) {
      const live = liveFactors(model, 1.3 * top).map(({ index }) => index);
      for (const start of idle) {
        const other = polish(model, live, found, start);
        if (other && oscillates(other) && absolute(other) < beyond * top) found.push(other);
      }
      if (confirmed()) return found;
    }
  }
  // A search of its own, and the same check.
  const density = (beyond * top) / (2 * Math.PI * 4 * first);
  const fresh = oscillatingPoles(model, beyond * top, { density, near: found });
  found.length = 0;
  found.push(...fresh);
  followDamped();
  return confirmed() ? found : null;
}

/** Starts with a damping ratio of 0.97, over the first resonance in vacuum. */
const strongly = complex(Math.sqrt(1 - 0.97 ** 2), 0.97);
const nearlyOverdamped = [0.4, 0.6, 0.8, 1] as const;

export const oscillates = ({ re, im }: Complex): boolean => {
  const size = Math.hypot(re, im);
  return re > 1e-4 * size && im > -1e-9 * size;
};

/** Twins of a square lie 1e-3 of themselves apart. */
export const isAmong = (omega: Complex, others: readonly Complex[]): boolean =>
  others.some((other) => absolute(subtract(other, omega)) < 1e-5 * absolute(omega));
