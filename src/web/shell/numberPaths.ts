/** Every value of a design that has a number and can be varied, part by part: for axes, curves and tolerances. */
import { completed, fieldPaths, findPath, type Project } from "../../core/index.ts";
import { partName } from "../../words/en/partNames.ts";
import { valueText } from "./valueText.ts";

export interface NumberPath {
  readonly path: string;
  readonly label: string;
}

export interface NumberGroup {
  readonly title: string;
  readonly paths: readonly NumberPath[];
}

/** Of the microphone and its air, in the order of the file's schema; `positive`: only values above zero. */
export function numberGroups(project: Project, positive = false): readonly NumberGroup[] {
  const { microphone } = completed(project.file);
  const groups = new Map<string, NumberPath[]>();
  for (const path of fieldPaths().flatMap((pattern) => each(pattern, microphone))) {
    const label = labelOf(path);
    // As it is typed: "38 um"; a word or nothing has no number.
    const typed = label === null ? Number.NaN : Number.parseFloat(valueText(project, path));
    if (label === null || Number.isNaN(typed) || (positive && !(typed > 0))) continue;
    const title = partName(path);
    const numbered = /holes\[(\d+)\]/.exec(path)?.[1];
    const many = (microphone?.front?.holes?.length ?? 0) > 1;
    const name = numbered === undefined || !many ? label : `${label} ${Number(numbered) + 1}`;
    groups.set(title, [...(groups.get(title) ?? []), { path, label: name }]);
  }
  return [...groups].map(([title, paths]) => ({ title, paths }));
}

/** Labels of paths do not change; null: not of a design, or a place in a list. */
const labels = new Map<string, string | null>();
function labelOf(path: string): string | null {
  const known = labels.get(path);
  if (known !== undefined) return known;
  const found = path.startsWith("brief.") || path.endsWith("]") ? null : findPath(path);
  const label = found?.ok ? found.value.label : null;
  labels.set(path, label);
  return label;
}

/** The same value of every guide and every hole: a schema's path names the first item of a list. */
function each(pattern: string, microphone: ReturnType<typeof completed>["microphone"]): readonly string[] {
  if (pattern.startsWith("microphone.guide.") && Array.isArray(microphone?.guide))
    return microphone.guide.map((_, i) => pattern.replace("guide.", `guide[${i}].`));
  if (pattern.startsWith("microphone.front.holes[0]"))
    return (microphone?.front?.holes ?? []).map((_, i) => pattern.replace("holes[0]", `holes[${i}]`));
  return [pattern];
}
