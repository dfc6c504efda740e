/** Designs kept by name in the project: each is the project with some of its values changed. */
import { answer, changeValue, fileValue, type Outcome, type Project, readPath, removeValue } from "../../core/index.ts";

export interface KeptDesign {
  readonly name: string;
  readonly changes: Readonly<Record<string, unknown>>;
}

export const keptDesigns = (project: Project): readonly KeptDesign[] =>
  (project.file.kept ?? []).map(({ name, changes }, i) => ({ name: name ?? `${i + 1}`, changes: changes ?? {} }));

/**
 * The project as that design would have it; of a group that was kept whole only what differs is written, so that the text of the
 * rest stays. Problems: those of `changeValue`.
 */
export function applied(project: Project, { changes }: KeptDesign): Outcome<Project> {
  let changed: Outcome<Project> = answer(project);
  for (const [path, value] of Object.entries(changes)) {
    if (!changed.ok) return changed;
    const steps = readPath(path);
    if (!steps.ok) return steps;
    const piecewise = written(changed.value, steps.value, value);
    // Half of a group may be no microphone on the way from one to the other: then it is written whole.
    changed = piecewise.ok ? piecewise : changeValue(changed.value, steps.value, textOf(value));
  }
  return changed;
}

type Steps = readonly (string | number)[];
const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const textOf = (value: unknown): string => (typeof value === "string" ? value : JSON.stringify(value));

function written(project: Project, steps: Steps, value: unknown): Outcome<Project> {
  const old = fileValue(project, steps);
  if (JSON.stringify(old) === JSON.stringify(value) || (value === null && old === undefined)) return answer(project);
  if (!isGroup(value) || !isGroup(old)) return changeValue(project, steps, textOf(value));
  let changed: Outcome<Project> = answer(project);
  for (const key of new Set([...Object.keys(value), ...Object.keys(old)])) {
    if (!changed.ok) return changed;
    const at = [...steps, key];
    changed = key in value ? written(changed.value, at, value[key]) : removeValue(changed.value, at);
  }
  return changed;
}

/** Parts that a microphone can be without. */
const optional = ["film", "front", "back", "frame", "body"] as const;

/**
 * The project with its present state, or that of `other`, kept under a name: every group of the microphone, and the air. A name that
 * is there already is kept anew. Problems: those of `changeValue`.
 */
export function withKept(project: Project, name: string, other: Project = project): Outcome<Project> {
  const { microphone = {}, air } = other.file;
  const kept = JSON.stringify({
    name,
    changes: Object.fromEntries([
      ...Object.keys(microphone).map((key) => [`microphone.${key}`, fileValue(other, ["microphone", key])]),
      ...optional.filter((key) => !(key in microphone)).map((key) => [`microphone.${key}`, null]),
      ...(air === undefined ? [] : [["air", fileValue(other, ["air"])]]),
    ]),
  });
  const designs = keptDesigns(project);
  if (project.file.kept === undefined) return changeValue(project, "kept", `[${kept}]`);
  const same = designs.findIndex((one) => one.name === name);
  return changeValue(project, `kept[${same < 0 ? designs.length : same}]`, kept);
}

export const withoutKept = (project: Project, index: number): Outcome<Project> =>
  removeValue(project, `kept[${index}]`);
