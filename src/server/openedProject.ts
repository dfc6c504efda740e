/** The project that the server was opened with, read anew for each page that is loaded. */
import { readFile, stat } from "node:fs/promises";
import { basename } from "node:path";
import { demoText, largestFile } from "../core/index.ts";
import { answer, type Outcome, refuse } from "../core/problem.ts";
import type { OpenedProject } from "./api.ts";

export interface Source {
  /** Path of the project's file. */
  readonly file?: string | undefined;
  /** The project's text in place of a file. Neither: the demo. */
  readonly text?: string | undefined;
}

/** Problems: `file-not-readable`, `too-large`, `not-utf8`. What the text says is not judged here. */
export async function readOpened({ file, text }: Source): Promise<Outcome<OpenedProject>> {
  const name = file === undefined ? null : basename(file);
  if (text !== undefined) return answer({ name, text });
  if (file === undefined) return answer({ name, text: demoText });
  try {
    const { size } = await stat(file);
    if (size > largestFile) return refuse({ code: "too-large", path: [], message: `${name} has ${size} bytes.` });
    const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
    return answer({ name, text: decoder.decode(await readFile(file)) });
  } catch (error) {
    if (error instanceof TypeError)
      return refuse({ code: "not-utf8", path: [], message: `${name} is not text in UTF-8.` });
    return refuse({
      code: "file-not-readable",
      path: [],
      message: `${name} can't be read: ${error instanceof Error ? error.message : String(error)}.`,
    });
  }
}
