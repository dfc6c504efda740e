/** `glassdrum open`: serves the app on this machine until it is told to stop. */
import { projectText } from "../core/index.ts";
import { problemLines } from "../words/en/problems.ts";
import { folderInUse, namesShelf, readShelf } from "./library.ts";
import { answerJson, answerLine, answerProblems, sayLine } from "./print.ts";
import { obtainProject } from "./project.ts";
import { readBytes } from "./readFile.ts";
import { type Status, status } from "./status.ts";

export interface OpenOptions {
  readonly port?: number;
  readonly json: boolean;
  readonly set: readonly string[];
}

type Source = { readonly file?: string; readonly text?: string; readonly id?: string };

export async function open(file: string, { port, json, set }: OpenOptions): Promise<Status> {
  const source = await sourceOf(file, set, json);
  if (typeof source === "number") return source;
  const { serve } = await import("../server/serve.ts");
  const { url, remarks, close } = await serve({
    ...source,
    data: folderInUse(),
    ...(port === undefined ? {} : { port }),
  });
  if (json) answerJson({ url, remarks });
  else answerLine(url);
  for (const line of [...problemLines(remarks), "Serves this machine only. Ctrl-C stops it."]) sayLine(line);
  await stopped();
  await close();
  return status.done;
}

/**
 * A file is handed on as it is, so that the page can show its problems beside the fields and read it anew;
 * standard input and a changed project are handed on as text.
 */
async function sourceOf(file: string, set: readonly string[], json: boolean): Promise<Source | Status> {
  if (namesShelf(file) && set.length === 0) {
    const kept = await readShelf(file);
    if (kept.ok) return { id: kept.value.id };
    answerProblems("open", file, kept.problems, json);
    return status.wrongUse;
  }
  if (file !== "-" && set.length === 0) {
    const found = file === "demo" ? null : await readBytes(file);
    if (found === null) return {};
    if (found.ok) return { file };
    answerProblems("open", file, found.problems, json);
    return status.wrongUse;
  }
  const obtained = await obtainProject(file, set);
  if (obtained.ok) return { text: projectText(obtained.project) };
  answerProblems("open", file, obtained.problems, json);
  return obtained.status;
}

const stopped = () =>
  new Promise<void>((resolve) => {
    process.once("SIGINT", () => resolve());
    process.once("SIGTERM", () => resolve());
  });
