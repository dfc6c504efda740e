/** The design as a point of the plane: where it stands, and what it is with other values. */
import { findPath, formatQuantity, type Project } from "../../core/index.ts";
import type { Spot } from "./PlaneView.tsx";

/** null: it has no such values. */
export function spotOf(project: Project, x: string, y: string): Spot | null {
  const [a, b] = [x, y].map((path) => {
    const place = findPath(path);
    const read = place.ok ? place.value.read(project) : place;
    return read.ok ? read.value : null;
  });
  return a === null || b === null || a === undefined || b === undefined ? null : { x: a, y: b };
}

/** Values [SI] that a move to `spot` sets: those of the axes, and what goes with the first in proportion. */
export function movedTo(
  project: Project,
  [x, y]: readonly [string, string],
  spot: Spot,
  tied: readonly string[],
): readonly (readonly [path: string, value: number])[] {
  const from = spotOf(project, x, y);
  if (from === null) return [];
  const side = [x, y].indexOf("microphone.diaphragm.across");
  const ratio = side === 0 ? spot.x / from.x : side === 1 ? spot.y / from.y : 1;
  const following = tied.flatMap((path): (readonly [string, number])[] => {
    const place = findPath(path);
    const read = place.ok ? place.value.read(project) : place;
    return read.ok ? [[path, read.value * ratio]] : [];
  });
  return [...following, [x, spot.x], [y, spot.y]];
}

/** The project with those values, and what that is called; null: one of them can't be taken. */
export function withValues(
  project: Project,
  values: readonly (readonly [string, number])[],
): { readonly project: Project; readonly says: string } | null {
  let changed = project;
  for (const [path, value] of values) {
    const place = findPath(path);
    const written = place.ok ? place.value.write(changed, value, { digits: 6 }) : place;
    if (!written.ok) return null;
    changed = written.value;
  }
  const says = values.slice(-2).map(([path, value]) => {
    const place = findPath(path);
    return place.ok ? `${place.value.label} ${formatQuantity(value, place.value.kind, { digits: 4 })}` : path;
  });
  return { project: changed, says: says.join(", ") };
}
