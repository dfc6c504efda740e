/**
 * All oscillating poles of a small model: followed from where they should be, from one motion at a time, and from what the border
 * of the range says is missing. The same border proves that none is. Derivation: docs/theory/poles.md.
 */
import { absolute, type Complex, complex, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { cos } from "../../numerics/sine.ts";
import { matrixTimes, type NestedBases } from "../basis/reducedBasis.ts";
import type { Microphone } from "../microphone.ts";
import { hasNetwork } from "../system/network.ts";
import { type Creeping, contourOf } from "./contour.ts";
import type { Sector } from "./countPoles.ts";
import { oscillatingPoles, polish, startsBesideAxis } from "./oscillatingPoles.ts";
import { type OwnMotion, ownMotion, type Parts } from "./ownMotion.ts";
import { liveFactors, type PoleModel } from "./poleModel.ts";
import { poleStarts } from "./poleStarts.ts";

/** Poles a little beyond what is asked are kept too: next to the contour they would blur the count. */
const beyond = 1.25;
/** The contour runs a little outside: a larger basis may have a pole inside that this one has not. */
const outside = [1.02, 1.03, 1.04, 1.05, 1.06];
/** And so far from the imaginary axis, where film, holes and cavities have singularities of their own [rad]. */
const fromAxis = [0.14, 0.13, 0.15, 0.12, 0.16];

/** A pole of the small model, and its motion where it was read from one. */
export interface Followed {
  readonly omega: Complex;
  readonly motion: OwnMotion | null;
}

/** A motion in the smaller basis as one in the larger. */
export function lifted({ lift }: NestedBases, motion: OwnMotion): Parts {
  const onAll = (matrix: Float64Array, { re, im }: ComplexVector): ComplexVector => ({
    re: matrixTimes(matrix, re),
    im: matrixTimes(matrix, im),
  });
  return { ...motion, plate: onAll(lift.plate, motion.plate), film: onAll(lift.film, motion.film) };
}

/** Where they are alone. */
export const followed = (...given: Parameters<typeof followedMotions>): readonly Complex[] | null =>
  followedMotions(...given)?.map(({ omega }) => omega) ?? null;

/** Times that missing poles are looked for. */
const mostRounds = 5;

/**
 * Oscillating poles of the small model up to `top` and a little beyond; null where their number is not confirmed. `near`: where
 * they should be, null where nobody knows; `first`: first resonance in vacuum [Hz]; `creeping`: that of contour.ts.
 */
export function followedMotions(
  model: PoleModel,
  near: readonly Complex[] | null,
  top: number,
  first: number,
  creeping?: Creeping,
): readonly Followed[] | null {
  const found: Followed[] = [];
  const omegas = () => found.map(({ omega }) => omega);
  /** Starts that lead to nothing new. */
  const follow = (starts: readonly { readonly omega: Complex; readonly like?: Parts }[]) =>
    starts.filter(({ omega: start, like }) => {
      if (absolute(start) > 1.05 * beyond * top) return false;
      const motion = ownMotion(model.form, start, { within: 1e-4, ...(like && { like }) });
      if (!motion || !oscillates(motion.omega, model.microphone) || isAmong(motion.omega, omegas())) return true;
      found.push({ omega: motion.omega, motion });
      return false;
    });
  /** Two that went to the same one of a pair of twins: with the known ones deflated the other shows. */
  const deflate = (starts: readonly { readonly omega: Complex }[]) => {
    const live = liveFactors(model, 1.3 * top).map(({ index }) => index);
    for (const { omega: start } of starts) {
      const omega = polish(model, live, omegas(), start);
      if (omega && oscillates(omega, model.microphone) && absolute(omega) < beyond * top)
        found.push(withMotion(model, omega));
    }
  };
  const density = (beyond * top) / (2 * Math.PI * 4 * first);
  // Waves of a square film come in twins, and both starts of a pair may lead to one of them.
  let idle: readonly { readonly omega: Complex }[] = [];
  const afresh = () => {
    if (model.reduced) idle = follow(poleStarts(model, model.reduced, beyond * top));
    // What a hole and a cavity do together has no motion of plate or film to begin with.
    if (hasNetwork(model.microphone)) deflate(startsBesideAxis(model, top, density).map((omega) => ({ omega })));
  };
  if (near === null) afresh();
  else follow(near.map((omega) => ({ omega })));
  const contour = contourOf(model, clearSector(omegas(), top), creeping);
  for (let round = 0; round < mostRounds; round++) {
    const missing = contour.missing(omegas());
    if (missing?.count === 0) return found;
    if (missing !== null && missing.count < 0) break;
    if (round === 0 && near !== null) afresh();
    else if (missing === null) break;
    else if (idle.length > 0) {
      deflate(idle);
      idle = [];
    } else deflate(follow(missing.near.map((omega) => ({ omega }))));
  }
  // A search of its own, and the same check.
  const searched = oscillatingPoles(model, beyond * top, { density, near: omegas() });
  return contour.missing(searched)?.count === 0 ? searched.map((omega) => withMotion(model, omega)) : null;
}

/** A pole of the model with its motion, which comes to this one of a pair of twins because the form is factored right beside it. */
function withMotion(model: PoleModel, omega: Complex): Followed {
  const motion = ownMotion(model.form, omega, { within: 1e-7 });
  return { omega, motion: motion && isNear(motion.omega, omega, 1e-6) ? motion : null };
}

/**
 * The same poles in a larger model, each from its motion in the smaller one; null where one of them is lost. Twins that lie closer
 * together than the smaller model errs are told apart by the determinant; beyond `top` they need not be.
 */
export function readIn(
  model: PoleModel,
  found: readonly Followed[],
  { bases, top, limit }: { readonly bases: NestedBases; readonly top: number; readonly limit: number },
): readonly OwnMotion[] | null {
  const motions: OwnMotion[] = [];
  for (const { omega: start, motion: begun } of found) {
    if (absolute(start) > limit) continue;
    const first = ownMotion(model.form, start, begun ? { like: lifted(bases, begun), off: 1e-8 } : { within: 1e-5 });
    if (first === null) return null;
    const isTwin = motions.some(({ omega }) => isNear(omega, first.omega, 1e-7));
    const motion = isTwin ? otherTwin(model, first.omega, motions) : first;
    if (motion) motions.push(motion);
    else if (absolute(first.omega) < top) return null;
  }
  return motions;
}

/** The pole next to one that is known; null where there is none so near that it could be its twin. */
function otherTwin(model: PoleModel, pole: Complex, motions: readonly OwnMotion[]): OwnMotion | null {
  const live = liveFactors(model, 1.3 * absolute(pole)).map(({ index }) => index);
  const known = motions.map(({ omega }) => omega);
  const omega = polish(model, live, known, scale(pole, 1 + 1e-4));
  return omega && isNear(omega, pole, farthestTwin) ? withMotion(model, omega).motion : null;
}

/** Twins lie no farther apart than this share of themselves. */
const farthestTwin = 0.02;

const isNear = (a: Complex, b: Complex, within: number): boolean => absolute(subtract(a, b)) < within * absolute(b);

/** A sector a little larger than what is asked, whose border keeps clear of the poles that are known. */
function clearSector(known: readonly Complex[], top: number): Sector {
  const near = known.filter((pole) => absolute(pole) < 1.2 * top);
  const clearest = (choices: readonly number[], of: (pole: Complex) => number) =>
    choices.reduce(
      (best, choice) => {
        const clear = Math.min(...near.map((pole) => Math.abs(of(pole) / choice - 1)));
        return clear > best.clear ? { choice, clear } : best;
      },
      { choice: choices[0]!, clear: near.length === 0 ? Number.POSITIVE_INFINITY : 0 },
    ).choice;
  return {
    upTo: (clearest(outside, absolute) * top) / (2 * Math.PI),
    below: cos(clearest(fromAxis, ({ re, im }) => Math.atan2(re, im))),
  };
}

/** Structural loss turns a real pole off its axis by its loss factor; that one is no oscillation. */
export const oscillates = ({ re, im }: Complex, { diaphragm }: Microphone): boolean => {
  const size = Math.hypot(re, im);
  return re > (1e-4 + 1.5 * diaphragm.lossFactor) * size && im > -1e-9 * size;
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
