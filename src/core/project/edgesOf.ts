/** Edges of diaphragm and film by pairs, from the short forms that a project may use. */
import type { Edge } from "../parts/diaphragm/diaphragm.ts";
import type { FilmEdge } from "../parts/film/film.ts";
import { defaultEdge, defaultFilmEdge } from "./defaults.ts";
import type { EdgesFile, FilmEdgesFile } from "./microphoneShape.ts";
import type { InSi } from "./shape.ts";

type Held = "clamped" | "supported" | { readonly rotation?: number | undefined };

/** One word or stiffness for all, or a pair of them; what a pair leaves out takes the stiffness for all, else the default. */
export function edgesOf(said: InSi<EdgesFile> | undefined): { readonly sides: Edge; readonly ends: Edge } {
  if (said === undefined || typeof said === "string") {
    const edge = said ?? defaultEdge;
    return { sides: edge, ends: edge };
  }
  const all: Edge = said.rotation === undefined ? defaultEdge : { rotation: said.rotation };
  return { sides: edgeOf(said.sides, all), ends: edgeOf(said.ends, all) };
}

/** A stiffness for all beside both pairs says nothing. */
export const isRotationUnused = (said: InSi<EdgesFile> | undefined): boolean =>
  typeof said === "object" && said.rotation !== undefined && said.sides !== undefined && said.ends !== undefined;

function edgeOf(said: Held | undefined, other: Edge): Edge {
  if (said === undefined) return other;
  if (typeof said === "string") return said;
  return said.rotation === undefined ? other : { rotation: said.rotation };
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
