/** What the file says at a path, as a person would type it. */
import { completed, defaults, fileValue, type Project, readPath } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";

/** What the file says at a path, else the default; one word for all edges holds for each pair. Empty: nothing. */
export function valueText(project: Project, path: string): string {
  const steps = readPath(path);
  if (!steps.ok) return "";
  const own = fileValue(project, steps.value);
  const value =
    own ??
    within(completedOnce(project), steps.value) ??
    (/\.diaphragm\.edges\.(sides|ends)$/.test(path) ? defaults.microphone.diaphragm.edges : null) ??
    (/\.holes?(\[\d+\])?\.ends$/.test(path) ? "piston" : null);
  if (path.endsWith(".backPlate")) return wallText(value);
  if (value === null || value === undefined) return "";
  if (typeof value !== "object") return String(value);
  if (!path.includes(".edges.")) return words.ownMaterial;
  return "bond" in value ? words.glued : words.elastic;
}

function wallText(value: unknown): string {
  if (typeof value !== "object" || value === null) return words.wall.none;
  if ("hole" in value) return words.wall.hole;
  return "holes" in value ? words.wall.holes : words.wall.other;
}

/** Whether the file has a part: a group, or a list with something in it. */
export function isThere(project: Project, path: string): boolean {
  const steps = readPath(path);
  const value = steps.ok ? fileValue(project, steps.value) : undefined;
  return Array.isArray(value) ? value.length > 0 : value !== undefined && value !== null;
}

/** A page asks for many values of the same project. */
const completedOnce = (project: Project): unknown => {
  const known = whole.get(project) ?? completed(project.file);
  whole.set(project, known);
  return known;
};
const whole = new WeakMap<Project, unknown>();

function within(document: unknown, steps: readonly (string | number)[]): unknown {
  let value = document;
  for (const step of steps) {
    if (typeof value === "string" && (step === "sides" || step === "ends")) return value;
    if (typeof value !== "object" || value === null) return undefined;
    if ((step === "sides" || step === "ends") && !(step in value) && ("rotation" in value || "bond" in value))
      return value;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}
