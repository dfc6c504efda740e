/** The plane of a chart in tiles: one span answers for the microphones of each (judgeBatch.ts), made when it is first needed. */

import type { Microphone } from "../../microphone/microphone.ts";
import type { Placed } from "../../microphone/span/figures.ts";
import { pow } from "../../numerics/power.ts";
import { isBuckled } from "../../parts/diaphragm/modes.ts";
import type { Outcome } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { type JudgeBatch, prepareJudging, type Telling } from "../predict/judgeBatch.ts";

const tilesASide = 2;

/** Whether so many points a side are answered in tiles; fewer are answered one by one. */
export const areTiled = (count: number): boolean => count >= 14;

/** Devices of a tile from edge to edge that are spanned, and those that smooth numbers are read between. */
const spanned = 4;
const mapped = 24;

/** Places in a square: its corners, then one after the other evenly spread, whatever direction it is looked at from. */
function* spreadPlaces(): Generator<readonly [number, number]> {
  for (const u of [0, 1]) for (const v of [0, 1]) yield [u, v];
  // Steps from the root of x^3 = x + 1 (Roberts 2018, from memory): many a number depends on one ratio of both values alone.
  for (let k = 1; ; k++) yield [(0.5 + 0.7548776662466927 * k) % 1, (0.5 + 0.5698402909980532 * k) % 1];
}

/** So many devices that stand, or those of so many places. */
function standing(at: At): readonly Placed[] {
  const found: Placed[] = [];
  let looked = 0;
  for (const [u, v] of spreadPlaces()) {
    found.push(...at(u, v).filter(({ microphone }) => !isBuckled(microphone.diaphragm, 8)));
    looked++;
    if (found.length >= mapped || looked >= 3 * mapped) break;
  }
  return found;
}

/** Share of its compression by which a device that still stands is short of buckling, and the steps in which it is found. */
const short = 0.01;
const halvings = 5;

const stands = ({ microphone: { diaphragm } }: Placed): boolean => {
  const { across, along } = diaphragm.tension;
  const tension = { across: across * (1 + short), along: along * (1 + short) };
  return !isBuckled({ ...diaphragm, tension }, 8);
};

type At = (u: number, v: number) => readonly Placed[];

/** Devices of a lattice from edge to edge, row by row. */
const latticeOf = (at: At, points: number): readonly (readonly Placed[])[] =>
  Array.from({ length: points * points }, (_, i) =>
    at((i % points) / (points - 1), Math.floor(i / points) / (points - 1)),
  );

/** Between each two neighbors of a lattice of which one stands and the other is buckled, the last that stands: there shapes change fast. */
function lastStanding(at: At, lattice: readonly (readonly Placed[])[], points: number): readonly Placed[] {
  const standing = lattice.map((placed) => placed.filter(stands));
  return lattice.flatMap((_, here) =>
    [1, points].flatMap((step) => {
      const there = here + step;
      if (there >= lattice.length || (step === 1 && there % points === 0)) return [];
      if (standing[here]!.length === standing[there]!.length) return [];
      const [from, to] = standing[here]!.length > 0 ? [here, there] : [there, here];
      const column = (share: number) => (from % points) + share * ((to % points) - (from % points));
      const row = (share: number) =>
        Math.floor(from / points) + share * (Math.floor(to / points) - Math.floor(from / points));
      let [low, high, best] = [0, 1, standing[from]!];
      for (let halving = 0; halving < halvings; halving++) {
        const middle = (low + high) / 2;
        const one = at(column(middle) / (points - 1), row(middle) / (points - 1)).filter(stands);
        if (one.length === 0) high = middle;
        else [low, best] = [middle, one];
      }
      return best;
    }),
  );
}

export interface Tiles {
  /** Tile of a point of the lattice. */
  readonly of: (i: number, j: number) => number;
  /** Makes a tile ready; null where its points are answered one by one. */
  readonly ready: (tile: number) => Generator<{ readonly done: number; readonly of: number }, JudgeBatch | null>;
  readonly count: number;
}

export function tilesOf(
  given: { readonly x: readonly number[]; readonly y: readonly number[] },
  at: (x: number, y: number) => Outcome<Microphone>,
  brief: Brief,
): Tiles {
  const side = areTiled(given.x.length) ? tilesASide : 1;
  const count = side * side;
  const place = (k: number) => Math.min(side - 1, Math.floor((side * k) / (given.x.length - 1)));
  /** Ends of a tile along an axis: they do not depend on how many points there are, so that what is ready serves any number. */
  const ends = (values: readonly number[], k: number): readonly [number, number] => {
    const [from, to] = [values[0]!, values.at(-1)!];
    return [from * pow(to / from, k / side), from * pow(to / from, (k + 1) / side)];
  };
  return {
    count,
    of: (i, j) => place(j) * side + place(i),
    *ready(tile) {
      if (!areTiled(given.x.length)) return null;
      const [x, y] = [ends(given.x, tile % side), ends(given.y, Math.floor(tile / side))];
      const between = ([from, to]: readonly [number, number], u: number) => from * pow(to / from, u);
      const placed = (u: number, v: number): readonly Placed[] => {
        const values = [between(x, u), between(y, v)] as const;
        const microphone = at(values[0], values[1]);
        return microphone.ok ? [{ values, microphone: microphone.value }] : [];
      };
      const lattice = latticeOf(placed, spanned);
      const described = lattice.flat();
      const first = described[5] ?? described[0];
      if (first === undefined) return null;
      const members = [...described, ...lastStanding(placed, lattice, spanned)];
      const telling: Telling = { first, members, mapped: standing(placed) };
      return yield* prepareJudging(telling, brief);
    },
  };
}
