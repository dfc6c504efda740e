/** What goes with a side when it is varied on purpose: the guides keep their place between center and edge, and a square stays one. */
import type { Project } from "./load.ts";
import { vary } from "./paths.ts";

export interface Tie {
  readonly path: string;
  /** Value [SI] per value of the side. */
  readonly ratio: number;
}

const across = "microphone.diaphragm.across";
const along = "microphone.diaphragm.along";

/**
 * Values that follow `path` in proportion, those in `free` excepted. For the side across the guide: every guide's position, and
 * with `sides` the side along it.
 */
export function tiesOf(
  project: Project,
  path: string,
  free: readonly string[],
  { sides }: { readonly sides: boolean },
): readonly Tie[] {
  if (path !== across) return [];
  const guide = project.file.microphone?.guide;
  const count = Array.isArray(guide) ? guide.length : 1;
  const guides = Array.from({ length: count }, (_, i) =>
    Array.isArray(guide) ? `microphone.guide[${i}].at` : "microphone.guide.at",
  );
  const wanted = [...(sides ? [along] : []), ...guides].filter((one) => !free.includes(one));
  const variation = vary(project, [path, ...wanted]);
  if (!variation.ok) return [];
  const [side, ...starts] = variation.value.start;
  if (!side) return [];
  return wanted.flatMap((one, i) => {
    const start = starts[i] ?? null;
    return start === null ? [] : [{ path: one, ratio: start / side }];
  });
}
