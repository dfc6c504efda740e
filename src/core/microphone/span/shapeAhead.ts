/** What quick answers of a shape need, made ahead of the hand that will ask for them, in one engine for another. */
import { type Engine, responseBasis, type ShapeEntry, shapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { poleBasisOf } from "../poles/shapePoles.ts";

/** A shape with both its bases, as one engine kept it: plain data, so that it travels between threads. */
export interface ShapeAhead {
  readonly key: string;
  readonly entry: ShapeEntry;
}

/** A hand may make the film so much thinner before it needs more functions than are prepared [-]. */
const thinner = 0.5;

/** Prepares a shape and makes its bases, in steps; known ones cost nothing. The microphone must not be buckled. */
export function* shapeAhead(
  engine: Engine,
  microphone: Microphone,
): Generator<{ readonly done: number; readonly of: number }, ShapeAhead> {
  const { film } = microphone;
  // Under a bent diaphragm a thinner film is a class of gaps of its own.
  const thin =
    film === null || film.relief ? microphone : { ...microphone, film: { ...film, gap: thinner * film.gap } };
  const entry = shapeEntry(engine, thin);
  const key = engine.last ?? "";
  yield { done: 1, of: 3 };
  responseBasis(entry, microphone);
  yield { done: 2, of: 3 };
  poleBasisOf(entry, microphone);
  return { key, entry };
}

/** Gives an engine a shape that another one has prepared; one that it has already with bases stays. */
export function takeShape(engine: Engine, { key, entry }: ShapeAhead): void {
  const known = engine.shapes.get(key);
  if (known?.response && known.poles && known.detail.functions.across >= entry.detail.functions.across) return;
  engine.shapes.set(key, entry);
}
