/** Designs kept by name in the project: each is the project with some of its values changed. */
import { answer, changeValue, fileValue, type Outcome, type Project, readPath, removeValue } from "../../core/index.ts";
import { fieldGroups } from "./fieldList.ts";

export interface KeptDesign {
  readonly name: string;
  readonly changes: Readonly<Record<string, unknown>>;
}

export const keptDesigns = (project: Project): readonly KeptDesign[] =>
  (project.file.kept ?? []).map(({ name, changes }, i) => ({ name: name ?? `${i + 1}`, changes: changes ?? {} }));

/** The project as that design would have it. Problems: those of `changeValue`. */
export function applied(project: Project, { changes }: KeptDesign): Outcome<Project> {
  let changed: Outcome<Project> = answer(project);
  for (const [path, value] of Object.entries(changes)) {
    if (!changed.ok) return changed;
    changed = changeValue(changed.value, path, typeof value === "string" ? value : JSON.stringify(value));
  }
  return changed;
}

/** The project with its present state kept under a name: every value of the page that its file names. */
export function withKept(project: Project, name: string): Outcome<Project> {
  const changes = Object.fromEntries([
    ...fieldGroups(project).flatMap(({ fields }) => fields.flatMap(({ path }) => saidAt(project, path))),
    ...(project.file.microphone?.film ? [] : [["microphone.film", null]]),
  ]);
  const kept = JSON.stringify({ name, changes });
  const count = project.file.kept?.length;
  return count === undefined ? changeValue(project, "kept", `[${kept}]`) : changeValue(project, `kept[${count}]`, kept);
}

export const withoutKept = (project: Project, index: number): Outcome<Project> =>
  removeValue(project, `kept[${index}]`);

/** Path and value, where the file says one there or for the whole group of edges. */
function saidAt(project: Project, path: string): [string, unknown][] {
  const steps = readPath(path);
  if (!steps.ok) return [];
  const own = fileValue(project, steps.value);
  if (own !== undefined) return [[path, own]];
  const last = steps.value.at(-1);
  const group = last === "sides" || last === "ends" ? fileValue(project, steps.value.slice(0, -1)) : undefined;
  return typeof group === "string" ? [[path, group]] : [];
}
