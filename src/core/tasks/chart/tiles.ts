/** The plane of a chart in tiles: one span answers for the microphones of each (judgeBatch.ts), made when it is first needed. */

import type { Microphone } from "../../microphone/microphone.ts";
import type { Placed } from "../../microphone/span/figures.ts";
import { pow } from "../../numerics/power.ts";
import { isBuckled } from "../../parts/diaphragm/modes.ts";
import type { Outcome } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { type JudgeBatch, prepareJudging, type Telling } from "../predict/judgeBatch.ts";

/** Tiles a side; fewer points than this a side are answered one by one. */
const tilesASide = 2;
const least = 14;

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
function standing(at: (u: number, v: number) => readonly Placed[]): readonly Placed[] {
  const found: Placed[] = [];
  let looked = 0;
  for (const [u, v] of spreadPlaces()) {
    found.push(...at(u, v).filter(({ microphone }) => !isBuckled(microphone.diaphragm, 8)));
    looked++;
    if (found.length >= mapped || looked >= 3 * mapped) break;
  }
  return found;
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
  const side = given.x.length < least ? 1 : tilesASide;
  const count = side * side;
  const size = given.x.length / side;
  const place = (k: number) => Math.min(side - 1, Math.floor(k / size));
  /** Ends of a tile along an axis, half a step beyond its points. */
  const ends = (values: readonly number[], k: number): readonly [number, number] => {
    const inside = values.filter((_, i) => place(i) === k);
    const step = Math.sqrt((inside[1] ?? inside[0]!) / inside[0]!);
    return [inside[0]! / step, inside.at(-1)! * step];
  };
  return {
    count,
    of: (i, j) => place(j) * side + place(i),
    *ready(tile) {
      if (given.x.length < least) return null;
      const [x, y] = [ends(given.x, tile % side), ends(given.y, Math.floor(tile / side))];
      const between = ([from, to]: readonly [number, number], u: number) => from * pow(to / from, u);
      const placed = (u: number, v: number): readonly Placed[] => {
        const values = [between(x, u), between(y, v)] as const;
        const microphone = at(values[0], values[1]);
        return microphone.ok ? [{ values, microphone: microphone.value }] : [];
      };
      const described = (points: number) =>
        Array.from({ length: points * points }, (_, k) =>
          placed((k % points) / (points - 1), Math.floor(k / points) / (points - 1)),
        ).flat();
      const members = described(spanned);
      const first = members[5] ?? members[0];
      if (first === undefined) return null;
      const telling: Telling = { first, members, mapped: standing(placed) };
      return yield* prepareJudging(telling, brief);
    },
  };
}
