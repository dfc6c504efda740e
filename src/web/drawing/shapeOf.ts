/** What the drawing needs of a project, in SI: also of one that can't be computed, so that a part out of place is seen there. */
import { completed, findPath, type Project } from "../../core/index.ts";
import { valueText } from "../shell/valueText.ts";

export interface GuidePlace {
  readonly path: string;
  /** [m] */
  readonly at: number;
  readonly depth: number;
  readonly face: "front" | "back";
}

export interface DrawnShape {
  /** [m] */
  readonly across: number;
  readonly along: number;
  readonly thickness: number;
  readonly guides: readonly GuidePlace[];
  /** null: no film. */
  readonly film: { readonly gap: number; readonly sides: string; readonly ends: string } | null;
  readonly sides: string;
  readonly ends: string;
}

export function shapeOf(project: Project): DrawnShape {
  const { microphone } = completed(project.file);
  const number = (path: string, otherwise: number): number => {
    const found = findPath(path);
    const value = found.ok ? found.value.read(project) : found;
    return value.ok ? value.value : otherwise;
  };
  const plate = "microphone.diaphragm";
  const film = "microphone.film";
  return {
    across: number(`${plate}.across`, 5e-3),
    along: number(`${plate}.along`, 5e-3),
    thickness: number(`${plate}.thickness`, 30e-6),
    guides: guidePaths(project).map((path) => ({
      path,
      at: number(`${path}.at`, 0),
      depth: number(`${path}.depth`, 0),
      face: valueText(project, `${path}.face`) === "back" ? "back" : "front",
    })),
    film: microphone?.film
      ? {
          gap: number(`${film}.gap`, 0),
          sides: valueText(project, `${film}.edges.sides`) || "open",
          ends: valueText(project, `${film}.edges.ends`) || "open",
        }
      : null,
    sides: valueText(project, `${plate}.edges.sides`),
    ends: valueText(project, `${plate}.edges.ends`),
  };
}

/** "microphone.guide", or one with its index for each of a list. */
export function guidePaths(project: Project): readonly string[] {
  const guide = project.file.microphone?.guide;
  return Array.isArray(guide) ? guide.map((_, i) => `microphone.guide[${i}]`) : ["microphone.guide"];
}
