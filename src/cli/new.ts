/** `glassdrum new`: a project to start from, never written over an existing file. */
import { writeFile } from "node:fs/promises";
import {
  answer,
  demoText,
  loadProject,
  lookUp,
  type Outcome,
  type Problem,
  type Project,
  projectText,
  refuse,
  starterText,
} from "../core/index.ts";
import { reasonOf, systemCode } from "../words/en/fileErrors.ts";
import { newLines } from "../words/en/new.ts";
import { addToShelf, namesShelf, shelfTitle } from "./library.ts";
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
  const titled = namesShelf(file) ? [`title=${shelfTitle(file)}`] : [];
  const project = start.ok ? applySettings(start.value, [...titled, ...options.set]) : start;
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

async function writeNew(file: string, text: string): Promise<Outcome<unknown>> {
  if (file === "-") return answer(null);
  if (namesShelf(file)) return addToShelf(file, text);
  try {
    // "wx": fails where the file exists, in the same step that makes it.
    await writeFile(file, text, { flag: "wx" });
    return answer(null);
  } catch (error) {
    return refuse(notWritten(file, error));
  }
}

function notWritten(file: string, error: unknown): Problem {
  if (systemCode(error) === "EEXIST")
    return {
      code: "file-exists",
      path: [],
      message: `${file} exists and stays as it is. Name another file, or remove that one first.`,
    };
  return { code: "file-not-written", path: [], message: `${file} can't be written: ${reasonOf(error)}.` };
}

function show(file: string, project: Project, json: boolean): void {
  const text = projectText(project);
  if (json) answerJson({ file: file === "-" ? null : file, text });
  else if (file === "-") answerText(text);
  else answerLine(newLines({ file, values: meanings(project) }).join("\n"));
}

function meanings({ file: { air, microphone } }: Project) {
  const values = [...valuesOf(air ?? {}, "air"), ...valuesOf(microphone ?? {}, "microphone")];
  return values.map(({ path, value }) => ({ path, value, label: labelOf(path) }));
}

/** Each value of air and microphone that the file holds, lists as one. */
function valuesOf(value: unknown, path: string): { path: string; value: string }[] {
  if (typeof value !== "object" || value === null || Array.isArray(value))
    return [{ path, value: typeof value === "string" ? value : JSON.stringify(value) }];
  return Object.entries(value).flatMap(([key, item]) => valuesOf(item, `${path}.${key}`));
}

/** The label of a value with a number; words label themselves. */
function labelOf(path: string): string | null {
  const place = lookUp(path);
  return place.ok ? (place.value.field?.label ?? null) : null;
}
