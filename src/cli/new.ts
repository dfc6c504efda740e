/** `glassdrum new`: a project to start from, never written over an existing file. */
import { writeFile } from "node:fs/promises";
import {
  answer,
  demoText,
  fieldPaths,
  fileValue,
  loadProject,
  lookUp,
  type Outcome,
  type Project,
  projectText,
  refuse,
  starterText,
} from "../core/index.ts";
import { newLines } from "../words/en/new.ts";
import { answerJson, answerLine, answerProblems, answerText } from "./print.ts";
import { applySettings } from "./project.ts";
import { type Status, status } from "./status.ts";

export interface NewOptions {
  readonly from: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

export async function newProject(file: string, options: NewOptions): Promise<Status> {
  const start = startText(options.from);
  const project = start.ok ? applySettings(start.value, options.set) : start;
  const written = project.ok ? await writeNew(file, projectText(project.value)) : project;
  if (!project.ok || !written.ok) {
    answerProblems("new", file, written.ok ? [] : written.problems, options.json);
    return status.wrongUse;
  }
  show(file, project.value, options.json);
  return status.done;
}

function startText(from: string): Outcome<Project> {
  if (from === "demo") return loadProject(demoText);
  if (from === "defaults") return loadProject(starterText());
  return refuse({
    code: "unknown-start",
    path: ["--from"],
    message: `Found "${from}"; a project starts from "defaults" or from "demo".`,
  });
}

async function writeNew(file: string, text: string): Promise<Outcome<null>> {
  if (file === "-") return answer(null);
  try {
    // "wx": fails where the file exists, in the same step that makes it.
    await writeFile(file, text, { flag: "wx" });
    return answer(null);
  } catch (error) {
    return refuse(notWritten(file, error));
  }
}

function notWritten(file: string, error: unknown) {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const message =
    code === "EEXIST"
      ? `${file} exists and stays as it is. Name another file, or remove that one first.`
      : `${file} can't be written: ${error instanceof Error ? error.message : String(error)}.`;
  return { code: code === "EEXIST" ? "file-exists" : "file-not-written", path: [], message };
}

function show(file: string, project: Project, json: boolean): void {
  const text = projectText(project);
  if (json) answerJson({ file: file === "-" ? null : file, text });
  else if (file === "-") answerText(text);
  else answerLine(newLines({ file, values: meanings(project) }).join("\n"));
}

/** Each value of air and microphone that the file holds, with its label. */
function meanings(project: Project) {
  return fieldPaths().flatMap((path) => {
    const place = lookUp(path);
    const value = place.ok ? fileValue(project, place.value.steps) : undefined;
    const label = place.ok ? (place.value.field?.label ?? "") : "";
    return value === undefined || path.startsWith("brief.") ? [] : [{ path, value: String(value), label }];
  });
}
