/**
 * Poles found fast in a small model: followed from where a device that differs little had them, or searched along rays, and
 * their number confirmed by a short contour. Derivation: docs/theory/poles.md.
 */
import { absolute, type Complex, complex, scale, subtract } from "../numerics/complex.ts";
import { missingPoles } from "./countPoles.ts";
import { countedBelow, oscillatingPoles, polish } from "./oscillatingPoles.ts";
import { type OwnMotion, ownMotion } from "./ownMotion.ts";
import { liveFactors, type PoleModel } from "./poleModel.ts";

/** Poles a little beyond what is asked are kept too: next to the contour they would blur the count. */
const beyond = 1.25;

/** A pole of the small model, and its motion where it was read from one. */
export interface Followed {
  readonly omega: Complex;
  readonly motion: OwnMotion | null;
}

/** Where they are alone. */
export const followed = (...given: Parameters<typeof followedMotions>): readonly Complex[] | null =>
  followedMotions(...given)?.map(({ omega }) => omega) ?? null;

/**
 * Oscillating poles of the small model up to `top` and a little beyond; null where their number is not confirmed. `near`: where
 * they should be, null where nobody knows; `withDamped`: the strongly damped ones are among them, if there are any.
 */
export function followedMotions(
  model: PoleModel,
  near: readonly Complex[] | null,
  top: number,
  first: number,
  { withDamped = false }: { readonly withDamped?: boolean } = {},
): readonly Followed[] | null {
  let found: Followed[] = [];
  const omegas = () => found.map(({ omega }) => omega);
  const confirmed = () => missingPoles(model, { upTo: top / (2 * Math.PI), below: countedBelow }, omegas()) === 0;
  const follow = (starts: readonly Complex[]) => {
    const idle: Complex[] = [];
    for (const start of starts) {
      if (absolute(start) > 1.05 * beyond * top) continue;
      const motion = ownMotion(model.form, start, { within: 1e-4 });
      if (motion && oscillates(motion.omega) && !isAmong(motion.omega, omegas())) {
        found.push({ omega: motion.omega, motion });
      } else idle.push(start);
    }
    return idle;
  };
  // Nearly overdamped poles are not counted; where nothing else makes the resonance they are looked for.
  const followDamped = () => {
    if (found.some(({ omega }) => absolute(omega) < 2 * Math.PI * 1.2 * first)) return;
    follow(nearlyOverdamped.map((share) => scale(strongly, share * 2 * Math.PI * first)));
  };
  if (near !== null) {
    const idle = follow(near);
    if (!withDamped) followDamped();
    if (confirmed()) return found;
    // Two that went to the same one of a pair of twins: with the known ones deflated the other shows.
    if (idle.length > 0) {
      const live = liveFactors(model, 1.3 * top).map(({ index }) => index);
      for (const start of idle) {
        const omega = polish(model, live, omegas(), start);
        if (omega && oscillates(omega) && absolute(omega) < beyond * top) found.push({ omega, motion: null });
      }
      if (confirmed()) return found;
    }
  }
  // A search of its own, and the same check.
  const density = (beyond * top) / (2 * Math.PI * 4 * first);
  found = oscillatingPoles(model, beyond * top, { density, near: omegas() }).map((omega) => ({ omega, motion: null }));
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

/**
 * Real poles of a model without loss factor, from the rates [1/s] of a device that differs little; null where nobody knows them,
 * or where one is lost, has met another or turns.
 */
export function followedRates(model: PoleModel, rates: readonly number[] | null): readonly OwnMotion[] | null {
  if (rates === null) return null;
  const motions: OwnMotion[] = [];
  for (const rate of rates) {
    const motion = ownMotion(model.form, complex(0, rate), { within: 1e-5 });
    if (motion === null || Math.abs(motion.omega.re) > 1e-9 * absolute(motion.omega)) return null;
    const known = motions.map(({ omega }) => omega);
    if (isAmong(motion.omega, known)) return null;
    motions.push(motion);
  }
  return motions;
}
