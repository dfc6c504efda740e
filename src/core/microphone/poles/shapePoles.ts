/**
 * All poles of a microphone whose shape is known, in a millisecond or two.
 *
 * They are found in a small basis of the shape, from where a device that differs a little had them or from nothing, and their
 * number is proven there by a contour; then each is read in the shape's larger basis. Where the proof fails they are searched
 * and counted in the larger one. Derivation: docs/theory/poles.md.
 */

import { absolute, type Complex, complex, subtract } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { type ReducedSystem, reducedSystem } from "../basis/reduced.ts";
import { type NestedBases, nestedBases, type ReducedBasis, type Snapshot } from "../basis/reducedBasis.ts";
import type { ShapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { bentMotions, isUneven } from "../system/bentFilm.ts";
import { hasNetwork } from "../system/network.ts";
import { withLevelFilm } from "../system/relief.ts";
import { withoutWallHole } from "../system/wallHole.ts";
import { followedMotions, readIn } from "./followPoles.ts";
import { oscillatingPoles } from "./oscillatingPoles.ts";
import { type OwnMotion, ownMotion } from "./ownMotion.ts";
import { liveFactors, type PoleModel, probeForce, reducedModel, ringingWavenumber, wholeModel } from "./poleModel.ts";
import { asPole, mayCreep, type Poles, slowPoles, withAxisPoles } from "./poles.ts";
import { creepingOf } from "./realPoles.ts";

/** Bases of a shape for its poles: one to 1e-6, and its beginning to search in. */
export interface PoleBases extends NestedBases {
  /** Waves of the film up to this wavenumber are functions of both, units of 2 / across [-]. */
  readonly filmReach: number;
  /** Where models over a level film work, one after the other. */
  readonly room: { readonly all: ReducedSystem; readonly few: ReducedSystem };
}

/** Gaps that a basis is made for [m]. */
export const gapsFrom = 5e-6;
export const gapsTo = 0.5e-3;
/** Gaps between them that the basis is made from, in equal ratios. */
const gapCount = 8;

/** Over an uneven film a basis is made for a class of gaps only: so far apart are the largest and the least of it [-]. */
const classWidth = 1.5;

/** The class of gaps that an uneven film belongs to, and that of its unevenness; null: an even film, or none. */
export function gapClass({ film }: Microphone): readonly [number, number] | null {
  if (!film?.relief) return null;
  const { heights } = film.relief;
  const range = heights.at(-1)! - heights[0]!;
  return [Math.round(Math.log(film.gap) / Math.log(classWidth)), Math.round(Math.log(range) / Math.log(1.2))];
}

/** Gaps that a microphone's bases are made for, from the least to the largest [m], and at how many of them they are asked. */
export function gapsFor(microphone: Microphone): {
  readonly from: number;
  readonly to: number;
  readonly count: number;
} {
  const { film } = microphone;
  const inClass = gapClass(microphone);
  if (!film?.relief || inClass === null) return { from: gapsFrom, to: gapsTo, count: gapCount };
  const middle = pow(classWidth, inClass[0]);
  // No thinner than leaves the bent plate clear of the wall.
  const least = Math.min(film.gap, -1.25 * film.relief.heights[0]!);
  return { from: Math.max(middle / Math.sqrt(classWidth), least), to: middle * Math.sqrt(classWidth), count: 3 };
}

/** The same questions at the gaps that a basis is made for, closer together where the film is thin. */
export function overGaps(microphone: Microphone, at: (gap: number) => readonly Snapshot[]): readonly Snapshot[] {
  if (!microphone.film) return at(0);
  const { from, to, count } = gapsFor(microphone);
  return Array.from({ length: count }, (_, i) => at(from * pow(to / from, pow(i / (count - 1), 1.6)))).flat();
}

/** First resonance in vacuum [rad/s]. */
export const firstOmega = (entry: ShapeEntry, { diaphragm }: Microphone): number =>
  Math.sqrt((entry.modes[0]?.lambda ?? 0) / plateScales(diaphragm).lambda);

/** Basis for the poles up to seven times the first resonance: answers to the probe along the real axis and above it. */
export const poleBasisOf = (entry: ShapeEntry, microphone: Microphone): ReducedBasis => basesOf(entry, microphone).all;

/** Film waves a little beyond the range are functions of the basis too, so that a hand on the thickness seldom needs another. */
const spare = 1.15;

/** What a search needs: up to four first resonances all poles to some per cent, most to 1e-5 (40 devices). */
const few = { most: 28, tolerance: 2e-3 } as const;

/** Made again where a film wave may ring in the range that they do not hold: of a thicker plate, or farther up. */
function basesOf(entry: ShapeEntry, given: Microphone, top = 4 * firstOmega(entry, given)): PoleBases {
  const needed = (given.diaphragm.across / 2) * ringingWavenumber(given, top);
  if (entry.poles && entry.poles.filmReach >= needed) return entry.poles;
  const microphone = withoutWallHole(given);
  const first = firstOmega(entry, microphone);
  const force = probeForce(entry.prepared);
  const snapshots = overGaps(microphone, (gap) => [
    ...[0.3, 0.8, 1.3, 2, 2.7, 3.3, 3.7, 4.3, 5.1, 5.8, 6.4, 7].map(
      (share): Snapshot => ({ gap, omega: complex(share * first), force }),
    ),
    ...[0.5, 1, 2, 3.5].map(
      (share): Snapshot => ({ gap, omega: complex(0.8 * share * first, 0.6 * share * first), force }),
    ),
    ...(isUneven(microphone) ? [0.02, 0.06, 0.2, 0.5, 0.8, 1.3, 2] : [0.02, 0.2, 0.8, 2]).map(
      (share): Snapshot => ({ gap, omega: complex(0, share * first), force }),
    ),
    ...(hasNetwork(microphone)
      ? ([entry.prepared.plate.load, "behind"] as const).flatMap((other) =>
          [1e-3, 0.5, 1, 2.5, 4.5].map((share): Snapshot => ({ gap, omega: complex(share * first), force: other })),
        )
      : []),
  ]);
  const filmTerms = liveFactors(wholeModel(entry.prepared, withLevelFilm(microphone)), spare * top).map(
    ({ index }) => index,
  );
  const options = { most: 56, tolerance: 2e-4, few, filmTerms, creeping: Math.max(17, filmTerms.length) };
  const bases = nestedBases(entry.prepared, microphone, snapshots, options);
  const level = withLevelFilm(microphone);
  const room = { all: reducedSystem(bases.all, level), few: reducedSystem(bases.few, level) };
  entry.poles = { ...bases, filmReach: spare * needed, room };
  return entry.poles;
}

/** Poles of a microphone whose shape has been asked for before: in the shape's own basis, not polished on the whole system. */
export function enginePoles(
  entry: ShapeEntry,
  microphone: Microphone,
  search: { readonly upTo: number; readonly near?: readonly Complex[] },
): Poles {
  const first = firstOmega(entry, microphone) / (2 * Math.PI);
  const asked = Math.max(search.upTo, 4 * first);
  const top = 2 * Math.PI * asked;
  const bases = basesOf(entry, microphone, top);
  const near = search.near?.length ? search.near : null;
  const level = withLevelFilm(microphone);
  const large = reducedModel(entry.prepared, bases.all, level, bases.room.all);
  const small = reducedModel(entry.prepared, bases.few, level, bases.room.few);
  const creeping = creepingOf(large, top);
  const starts = followedMotions(small, near, top, first, creeping);
  // What lies outside in the smaller basis by more than that one errs is outside in the larger.
  const read = starts && readIn(large, starts, { bases, top, limit: 1.02 * top });
  const motions = read ?? searched(large, near ?? [], asked, first);
  const bent = isUneven(microphone)
    ? bentMotions(reducedModel(entry.prepared, bases.all, microphone).form, motions)
    : motions;
  const inside = bent
    .filter(({ omega }) => absolute(omega) <= top)
    .sort((a, b) => absolute(a.omega) - absolute(b.omega));
  const oscillating = inside.map(({ omega }) => asPole(omega));
  const creeps = mayCreep(oscillating, first);
  const poles: Poles = {
    oscillating,
    motions: inside,
    near: (starts ?? motions).map(({ omega }) => omega),
    real: [],
    upTo: asked,
    basis: bases.all,
    polished: null,
    confirmed: read !== null,
  };
  if (creeps && hasNetwork(microphone)) return withAxisPoles(entry.prepared, poles, microphone, bases.few);
  const models = { large, small, starts: creeping.starts };
  return {
    ...poles,
    real: slowPoles(entry.prepared, bases.all, microphone, top, { creeps, few: bases.few, models }),
  };
}

/** The search in the larger basis, ring by ring counted, as for a device of its own. */
function searched(model: PoleModel, near: readonly Complex[], asked: number, first: number): readonly OwnMotion[] {
  const density = (1.5 * asked) / (4 * first);
  const found = oscillatingPoles(model, 2 * Math.PI * asked, { density, near, counted: true });
  return found
    .flatMap((start) => {
      const motion = ownMotion(model.form, start, { within: 1e-7 });
      return motion && absolute(subtract(motion.omega, start)) < 1e-5 * absolute(start) ? [motion] : [];
    })
    .sort((a, b) => absolute(a.omega) - absolute(b.omega));
}
