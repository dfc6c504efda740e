/** A project for a verb: read from a file, standard input or the built-in demo, then changed as `--set` says. */
import {
  answer,
  changeValue,
  demoText,
  loadProject,
  type Outcome,
  type Problem,
  type Project,
  refuse,
} from "../core/index.ts";
import { namesShelf, readShelf } from "./library.ts";
import { readBytes } from "./readFile.ts";
import { readSetting } from "./settings.ts";
import { type Status, status } from "./status.ts";

export type Obtained =
  | { readonly ok: true; readonly project: Project }
  | { readonly ok: false; readonly status: Status; readonly problems: readonly Problem[] };

/** Problems that lie in how the command was called, not in the project. */
const wrongUse = new Set([
  "file-missing",
  "file-is-folder",
  "file-not-readable",
  "no-such-project",
  "several-projects",
  "set-without-value",
  "set-without-path",
  "unreadable-path",
  "unknown-path",
  "no-such-item",
  "not-a-group",
]);

const refused = (problems: readonly Problem[], fromCall: boolean): Obtained => ({
  ok: false,
  status: fromCall && problems.some(({ code }) => wrongUse.has(code)) ? status.wrongUse : status.no,
  problems,
});

/** The project of FILE with every `--set` applied. */
export async function obtainProject(file: string, settings: readonly string[]): Promise<Obtained> {
  const source = await sourceOf(file);
  if (!source.ok) return refused(source.problems, true);
  const loaded = loadProject(source.value);
  if (!loaded.ok) return refused(loaded.problems, false);
  const changed = applySettings(loaded.value, settings);
  return changed.ok ? { ok: true, project: changed.value } : refused(changed.problems, true);
}

async function sourceOf(file: string): Promise<Outcome<Uint8Array | string>> {
  if (file === "demo") return answer(demoText);
  if (!namesShelf(file)) return readBytes(file);
  const kept = await readShelf(file);
  return kept.ok ? answer(kept.value.text) : kept;
}

/** The project with each setting applied in turn; the problems of all settings come at once. */
export function applySettings(start: Project, settings: readonly string[]): Outcome<Project> {
  const problems: Problem[] = [];
  let project = start;
  for (const text of settings) {
    const setting = readSetting(text);
    const changed = setting.ok ? changeValue(project, setting.value.path, setting.value.value) : setting;
    if (changed.ok) project = changed.value;
    else problems.push(...changed.problems);
  }
  return problems.length > 0 ? refuse(...problems) : answer(project);
}
