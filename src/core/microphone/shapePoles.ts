/**
 * All poles of a microphone whose shape is known, in a few milliseconds or less.
 *
 * They are followed from where a device that differs a little had them, in a small basis of the shape, and their number is
 * checked there by a contour; then each is read in the shape's larger basis. Where the number is not confirmed they are searched
 * afresh. Derivation: docs/theory/poles.md.
 */

import { absolute, type Complex, complex, scale, subtract } from "../numerics/complex.ts";
import type { ComplexVector } from "../numerics/complexSymmetric.ts";
import { pow } from "../numerics/power.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import type { ShapeEntry } from "./engine.ts";
import { type Followed, followed, followedMotions, isAmong, oscillates } from "./followPoles.ts";
import type { Microphone } from "./microphone.ts";
import { hasNetwork } from "./network.ts";
import { oscillatingPoles } from "./oscillatingPoles.ts";
import { type OwnMotion, ownMotion, type Parts } from "./ownMotion.ts";
import { type PoleModel, probeForce, reducedModel } from "./poleModel.ts";
import { asPole, mayCreep, type Poles, slowPoles } from "./poles.ts";
import { type PoleTable, startsAt, tableGaps } from "./poleTable.ts";
import { matrixTimes, type NestedBases, nestedBases, type ReducedBasis, type Snapshot } from "./reducedBasis.ts";
import { withoutWallHole } from "./wallHole.ts";

/** Bases of a shape for its poles: one to 1e-6, and its beginning to search in. */
export type PoleBases = NestedBases;

/** Gaps that a basis is made for [m]. */
export const gapsFrom = 5e-6;
export const gapsTo = 0.5e-3;
const gapCount = 8;

/** The same questions at the gaps that a basis is made for, closer together where the film is thin. */
export function overGaps({ film }: Microphone, at: (gap: number) => readonly Snapshot[]): readonly Snapshot[] {
  if (!film) return at(0);
  return Array.from({ length: gapCount }, (_, i) =>
    at(gapsFrom * pow(gapsTo / gapsFrom, pow(i / (gapCount - 1), 1.6))),
  ).flat();
}

/** First resonance in vacuum [rad/s]. */
export const firstOmega = (entry: ShapeEntry, { diaphragm }: Microphone): number =>
  Math.sqrt((entry.modes[0]?.lambda ?? 0) / plateScales(diaphragm).lambda);

/** Basis for the poles up to seven times the first resonance: answers to the probe along the real axis and above it. */
export const poleBasisOf = (entry: ShapeEntry, microphone: Microphone): ReducedBasis => basesOf(entry, microphone).all;

/** What a search needs: up to four first resonances all poles to some per cent, most to 1e-5 (40 devices). */
const few = { most: 28, tolerance: 2e-3 } as const;

function basesOf(entry: ShapeEntry, given: Microphone): PoleBases {
  if (entry.poles) return entry.poles;
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
    { gap, omega: complex(0, 0.2 * first), force },
    ...(hasNetwork(microphone)
      ? ([entry.prepared.plate.load, "behind"] as const).flatMap((other) =>
          [1e-3, 0.5, 1, 2.5, 4.5].map((share): Snapshot => ({ gap, omega: complex(share * first), force: other })),
        )
      : []),
  ]);
  entry.poles = nestedBases(entry.prepared, microphone, snapshots, { most: 56, tolerance: 4e-6, few });
  return entry.poles;
}

/** Poles of a microphone whose shape has been asked for before: in the shape's own basis, not polished on the whole system. */
export function enginePoles(
  entry: ShapeEntry,
  microphone: Microphone,
  search: { readonly upTo: number; readonly near?: readonly Complex[] },
): Poles {
  const first = firstOmega(entry, microphone) / (2 * Math.PI);
  const bases = basesOf(entry, microphone);
  const asked = Math.max(search.upTo, 4 * first);
  const top = 2 * Math.PI * asked;
  const led = search.near?.length ? search.near : null;
  const table = led ? null : tableOf(entry, microphone, bases, asked / first);
  const near = led ?? (table && startsOf(table, entry, microphone)) ?? [];
  const large = reducedModel(entry.prepared, bases.all, microphone);
  const small = reducedModel(entry.prepared, bases.few, microphone);
  const starts = followedMotions(small, near, top, first, { withDamped: table !== null });
  const motions = readAll(large, starts, bases, top) ?? searched(large, near, asked, first);
  const inside = motions.filter(({ omega }) => absolute(omega) <= top);
  const oscillating = inside.map(({ omega }) => asPole(omega));
  return {
    oscillating,
    motions: inside,
    near: motions.map(({ omega }) => omega),
    // Creep only makes the resonance where the slowest oscillation is nearly or wholly overdamped.
    real: mayCreep(oscillating, first) ? slowPoles(entry.prepared, bases.all, microphone, top, { few: bases.few }) : [],
    upTo: asked,
    basis: bases.all,
    polished: null,
  };
}

/** Where a table of the shape has the poles [rad/s]. */
const startsOf = (table: PoleTable, entry: ShapeEntry, microphone: Microphone): readonly Complex[] =>
  startsAt(table, microphone.film!.gap).map((pole) => scale(pole, firstOmega(entry, microphone)));

/** The shape's table, made at the second question that brings no starts of its own; null without film, or beyond its reach. */
function tableOf(entry: ShapeEntry, microphone: Microphone, bases: PoleBases, reach: number): PoleTable | null {
  const { film } = microphone;
  if (!film) return null;
  entry.unled++;
  if (entry.unled < 2 || reach > 1.001 * tableReach) return null;
  const first = firstOmega(entry, microphone);
  if (entry.poleTable === null) {
    let before: readonly Complex[] = [];
    const gaps = tableGaps(gapsFrom, gapsTo);
    const poles = gaps.map((gap) => {
      const model = reducedModel(entry.prepared, bases.few, { ...microphone, film: { ...film, gap } });
      // Each gap is searched afresh, and what the gap before had besides is followed: strongly damped poles are not counted.
      const found = [...(followed(model, null, tableReach * first, first / (2 * Math.PI)) ?? before)];
      for (const start of before) {
        const motion = ownMotion(model.form, start, { within: 1e-4 });
        if (motion && oscillates(motion.omega) && !isAmong(motion.omega, found)) found.push(motion.omega);
      }
      before = found;
      return found.map((omega) => scale(omega, 1 / first));
    });
    entry.poleTable = { gaps: [...gaps].reverse(), poles: poles.reverse(), upTo: tableReach };
  }
  return entry.poleTable;
}

/** Tables go up to so many first resonances in vacuum. */
const tableReach = 4;

/** The same poles in the larger model, in order of frequency; null where one of them is lost or two become one. */
function readAll(
  model: PoleModel,
  starts: readonly Followed[] | null,
  bases: PoleBases,
  top: number,
): readonly OwnMotion[] | null {
  if (starts === null) return null;
  const motions: OwnMotion[] = [];
  for (const { omega: start, motion: small } of starts) {
    const options = small ? { like: lifted(bases, small), off: exactly } : { within: 1e-5 };
    const motion = ownMotion(model.form, start, options);
    const lost =
      motion === null ||
      isAmong(
        motion.omega,
        motions.map(({ omega }) => omega),
      );
    if (!lost) motions.push(motion);
    else if (absolute(start) < 1.05 * top) return null;
  }
  return motions.sort((a, b) => absolute(a.omega) - absolute(b.omega));
}

/** Estimated error of a pole in the larger basis [-]. */
const exactly = 1e-8;

/** A motion in the smaller basis as one in the larger. */
function lifted({ lift }: PoleBases, motion: OwnMotion): Parts {
  const onAll = (matrix: Float64Array, { re, im }: ComplexVector): ComplexVector => ({
    re: matrixTimes(matrix, re),
    im: matrixTimes(matrix, im),
  });
  return { ...motion, plate: onAll(lift.plate, motion.plate), film: onAll(lift.film, motion.film) };
}

/** The search in the larger basis, as for a device of its own. */
function searched(model: PoleModel, near: readonly Complex[], asked: number, first: number): readonly OwnMotion[] {
  const density = (1.5 * asked) / (4 * first);
  const found = oscillatingPoles(model, 2 * Math.PI * asked, { density, near });
  return found
    .flatMap((start) => {
      const motion = ownMotion(model.form, start, { within: 1e-7 });
      return motion && absolute(subtract(motion.omega, start)) < 1e-5 * absolute(start) ? [motion] : [];
    })
    .sort((a, b) => absolute(a.omega) - absolute(b.omega));
}
