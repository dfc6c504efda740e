/** Edges of diaphragm and film by pairs, from the short forms that a project may use; a glued edge becomes a stiffness. */
import { bondRotation } from "../parts/diaphragm/bond.ts";
import type { Diaphragm, Edge } from "../parts/diaphragm/diaphragm.ts";
import type { FilmEdge } from "../parts/film/film.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { defaultEdge, defaultFilmEdge } from "./defaults.ts";
import type { EdgesFile } from "./diaphragmShape.ts";
import type { FilmEdgesFile } from "./microphoneShape.ts";
import type { InSi } from "./shape.ts";

type Pair = "sides" | "ends";
interface Bond {
  readonly thickness?: number | undefined;
  readonly youngsModulus?: number | undefined;
  readonly overlap?: number | undefined;
}
interface Soft {
  readonly rotation?: number | undefined;
  readonly bond?: Bond | undefined;
}
type Plate = Pick<Diaphragm, "stiffness" | "thickness">;

const path: Path = ["microphone", "diaphragm", "edges"];

/**
 * One word, stiffness or bond for all, or a pair of them; what a pair leaves out takes what is said for all, else the default.
 * The bond's stiffness follows from the plate that it holds (bond.ts).
 *
 * Problems: `missing-bond-value`, `two-edge-stiffnesses`. Remarks: `short-overlap`, `unused-value`.
 */
export function edgesOf(
  said: InSi<EdgesFile> | undefined,
  plate: Plate,
): Outcome<{ readonly sides: Edge; readonly ends: Edge }> {
  if (said === undefined || typeof said === "string") {
    const edge = said ?? defaultEdge;
    return answer({ sides: edge, ends: edge });
  }
  const sides = pairOf(said, "sides", plate);
  const ends = pairOf(said, "ends", plate);
  if (sides.ok && ends.ok)
    return answer({ sides: sides.value, ends: ends.value }, [...sides.remarks, ...ends.remarks, ...unused(said)]);
  // What is said for all edges is found wanting once for both pairs.
  const found = new Map([sides, ends].flatMap((one) => (one.ok ? [] : one.problems)).map((one) => [one.message, one]));
  return refuse(...found.values());
}

function pairOf(said: Exclude<InSi<EdgesFile>, string>, pair: Pair, plate: Plate): Outcome<Edge> {
  const own = said[pair];
  if (typeof own === "string") return answer(own);
  if (own?.rotation !== undefined || own?.bond !== undefined) return softEdge(own, pair, plate, [...path, pair]);
  return softEdge(said, pair, plate, path);
}

function softEdge({ rotation, bond }: Soft, pair: Pair, plate: Plate, at: Path): Outcome<Edge> {
  if (bond === undefined) return answer(rotation === undefined ? defaultEdge : { rotation });
  if (rotation !== undefined)
    return refuse({
      code: "two-edge-stiffnesses",
      path: [...at, "bond"],
      message:
        'An edge has both "rotation" and "bond"; the bond gives a stiffness against rotation of its own. Leave one out.',
    });
  const { thickness, youngsModulus, overlap } = bond;
  if (thickness === undefined || youngsModulus === undefined)
    return refuse(
      ...(thickness === undefined ? [missing([...at, "bond", "thickness"], '"thickness": "10 um"')] : []),
      ...(youngsModulus === undefined ? [missing([...at, "bond", "youngsModulus"], '"youngsModulus": "3 GPa"')] : []),
    );
  const held = bondRotation(plate, { modulus: youngsModulus, thickness }, pair);
  const short = overlap !== undefined && overlap < 3 * held.reach;
  return answer(
    { rotation: held.rotation },
    short ? [shortOverlap([...at, "bond", "overlap"], overlap, held.reach)] : [],
  );
}

const missing = (at: Path, sample: string): Problem => ({
  code: "missing-bond-value",
  path: at,
  message: `A bond needs the thickness and the modulus of its adhesive to say how far the edge gives way. Give it, for example ${sample}.`,
});

const shortOverlap = (at: Path, overlap: number, reach: number): Problem => ({
  code: "short-overlap",
  path: at,
  message: `The overlap, ${formatQuantity(overlap, "length", { digits: 3 })}, is under three times the length over which the bond feels the edge, ${formatQuantity(reach, "length", { digits: 3 })}: the edge is softer than the formula of a long overlap [hetenyi-1946] says. Computed all the same.`,
});

/** What is said for all edges says nothing beside both pairs. */
function unused({ rotation, bond, sides, ends }: Exclude<InSi<EdgesFile>, string>): Problem[] {
  if (sides === undefined || ends === undefined || (rotation === undefined && bond === undefined)) return [];
  return [
    {
      code: "unused-value",
      path: [...path, rotation === undefined ? "bond" : "rotation"],
      message: "Sides and ends are given, so the stiffness for all edges is not used.",
    },
  ];
}

export function filmEdgesOf(said: InSi<FilmEdgesFile> | undefined): {
  readonly sides: FilmEdge;
  readonly ends: FilmEdge;
} {
  if (said === undefined || typeof said === "string") {
    const edge = said ?? defaultFilmEdge;
    return { sides: edge, ends: edge };
  }
  return { sides: said.sides ?? defaultFilmEdge, ends: said.ends ?? defaultFilmEdge };
}
