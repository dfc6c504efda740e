/** From the text of a path ("microphone.film.gap") to the place in the shape that it names. */
import { answer, type Outcome, type Path, pathText, refuse } from "../problem.ts";
import type { Field } from "./fields.ts";
import { nearest } from "./nearest.ts";
import { Group, List, Pair, type Schema } from "./schema.ts";
import { projectShape } from "./shape.ts";
import { childOf, fieldOf, forms } from "./walk.ts";

/** A path that is no text any more. */
export type Steps = Path;

export interface Place {
  readonly steps: Steps;
  readonly schema: Schema;
  /** null: a word, a text, a group or a list. */
  readonly field: Field | null;
}

/**
 * Steps of a path: names between dots, `[0]` for items, `["…"]` for names with other signs.
 *
 * Problems: `unreadable-path`.
 */
export function readPath(text: string): Outcome<Steps> {
  const steps: (string | number)[] = [];
  const piece = /(?:^|\.)([^.[\]"\s]+)|\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]/y;
  while (piece.lastIndex < text.length) {
    const match = piece.exec(text);
    if (match === null) break;
    const [, name, index, quoted] = match;
    if (name !== undefined) steps.push(name);
    else if (index !== undefined) steps.push(Number(index));
    else if (quoted !== undefined) steps.push(String(JSON.parse(quoted)));
    if (piece.lastIndex === text.length) return answer(steps);
  }
  return refuse({
    code: "unreadable-path",
    path: [],
    message: `"${text}" is not a path. Needed: names with dots between them and [0] for items, such as microphone.film.gap or microphone.guide[0].at.`,
  });
}

/**
 * The place that a path names, whether or not a project has a value there.
 *
 * Problems: `unreadable-path`, `unknown-path` with what is near.
 */
export function lookUp(path: string | Steps): Outcome<Place> {
  const steps = typeof path === "string" ? readPath(path) : answer(path);
  if (!steps.ok) return steps;
  let schemas: readonly Schema[] = [projectShape];
  for (const step of steps.value) schemas = schemas.flatMap(forms).flatMap((form) => childOf(form, step) ?? []);
  const [schema] = schemas;
  if (schema === undefined || steps.value.length === 0) return refuse(unknownPath(steps.value));
  const field = schemas.map(fieldOf).find((one) => one !== null) ?? null;
  return answer({ steps: steps.value, schema, field });
}

function unknownPath(steps: Steps) {
  const text = pathText(steps);
  const near = nearest(text, fieldPaths());
  const last = String(steps.at(-1) ?? "");
  const sameName = fieldPaths()
    .filter((path) => path.endsWith(`.${last}`))
    .slice(0, 3);
  const found = near.length > 0 ? near : sameName;
  const hint = found.length > 0 ? ` Did you mean ${found.join(" or ")}?` : " A path starts like microphone.film.gap.";
  return { code: "unknown-path", path: steps, message: `"${text}" is no value of a project.${hint}` };
}

let known: readonly string[] | null = null;

/** Paths of all values with a field that a design has (not those of specimens), lists by their first item. */
export function fieldPaths(): readonly string[] {
  known ??= ["brief", "air", "microphone"].flatMap((key) => pathsIn(projectShape.members[key as "air"], [key]));
  return known;
}

function pathsIn(schema: Schema, path: Steps): string[] {
  const own = fieldOf(schema) === null ? [] : [pathText(path)];
  const inner = forms(schema).flatMap((form) => {
    // An alternative list of what may stand alone gives the same paths again.
    if (form instanceof List) return forms(schema).length > 1 ? [] : pathsIn(form.item, [...path, 0]);
    if (form instanceof Pair) return pathsIn(form.both, [...path, 0]);
    if (!(form instanceof Group)) return [];
    return Object.entries<Schema>(form.members).flatMap(([key, value]) => pathsIn(value, [...path, key]));
  });
  return [...own, ...inner];
}
