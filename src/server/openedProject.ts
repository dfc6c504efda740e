/** The project that the server was opened with, read anew for each page that is loaded. */
import { randomUUID } from "node:crypto";
import { readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { basename, resolve } from "node:path";
import { demoText, largestFile, loadProject } from "../core/index.ts";
import { answer, type Outcome, refuse } from "../core/problem.ts";
import type { LibraryContext } from "../store/context.ts";
import { hashOf } from "../store/hash.ts";
import { readProject } from "../store/library.ts";
import { boundTo } from "../store/origin.ts";
import { reasonOf } from "../words/en/fileErrors.ts";
import type { FileText, FileWritten, OpenedProject } from "./api.ts";

export interface Source {
  /** Path of the project's file. */
  readonly file?: string | undefined;
  /** The project's text in place of a file. Neither: the demo. */
  readonly text?: string | undefined;
  /** The library's project of that id in place of both. */
  readonly id?: string | undefined;
}

/** Whole path of the source's file; null: it has none. */
export const originOf = ({ file }: Source): string | null => (file === undefined ? null : resolve(file));

/**
 * Problems: `file-not-readable`, `too-large`, `not-utf8`, and of the storage. What the text says is not judged here. Without a
 * library the file alone counts.
 */
export async function readOpened(source: Source, library: LibraryContext | null): Promise<Outcome<OpenedProject>> {
  if (source.id !== undefined && library !== null) {
    const kept = await readProject(library, source.id);
    if (!kept.ok) return kept;
    const { id, text, state } = kept.value;
    return answer({ name: null, text, inLibrary: { id, state }, beside: null, fileHash: null });
  }
  const found = await readSource(source);
  if (!found.ok) return found;
  const { name, text } = found.value;
  const origin = originOf(source);
  const fileHash = origin === null ? null : hashOf(text);
  const alone = answer({ name, text, inLibrary: null, beside: null, fileHash });
  if (origin === null || library === null || !loadProject(text).ok) return alone;
  const bound = await boundTo(library, { origin, text });
  if (!bound.ok || bound.value === null) return alone;
  const { id, state, beside } = bound.value;
  return answer({ name, text: bound.value.text, inLibrary: { id, state }, beside, fileHash });
}

async function readSource({
  file,
  text,
}: Source): Promise<Outcome<{ readonly name: string | null; readonly text: string }>> {
  const name = file === undefined ? null : basename(file);
  if (text !== undefined) return answer({ name, text });
  if (file === undefined) return answer({ name, text: demoText });
  try {
    const { size } = await stat(file);
    if (size > largestFile)
      return refuse({
        code: "too-large",
        path: [],
        message: `${name} has ${size} bytes; a project has at most ${largestFile}. Is it a record? Records are imported on the page.`,
      });
    const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
    return answer({ name, text: decoder.decode(await readFile(file)) });
  } catch (error) {
    if (error instanceof TypeError)
      return refuse({
        code: "not-utf8",
        path: [],
        message: `${name} is not text in UTF-8. Save it again as UTF-8, or name another file.`,
      });
    return refuse({ code: "file-not-readable", path: [], message: `${name} can't be read: ${reasonOf(error)}.` });
  }
}

/** Hash of the file as it is now; null: there is none, or it can't be read. */
export async function fileHashOf(source: Source): Promise<string | null> {
  const origin = originOf(source);
  if (origin === null) return null;
  try {
    return hashOf(await readFile(origin));
  } catch {
    return null;
  }
}

/**
 * Writes the project back to its file, whole or not at all.
 *
 * Problems: `no-file`, `file-changed`: another program wrote it since, `file-not-written`, those of `loadProject`.
 */
export async function writeBack(source: Source, { text, over }: FileText): Promise<Outcome<FileWritten>> {
  const origin = originOf(source);
  if (origin === null)
    return refuse({ code: "no-file", path: [], message: "The app was not opened with a file; download the project." });
  const loaded = loadProject(text);
  if (!loaded.ok) return loaded;
  if ((await fileHashOf(source)) !== over)
    return refuse({
      code: "file-changed",
      path: [],
      message: `${basename(origin)} was changed by another program since it was read. Nothing was written. Read it anew; both states are kept in the library.`,
    });
  const part = `${origin}.${randomUUID()}.tmp`;
  try {
    await writeFile(part, text, { flush: true });
    await rename(part, origin);
    return answer({ fileHash: hashOf(text) });
  } catch (error) {
    // What can't be taken away either was never made, or stays beside the file; the reason is the first one.
    await rm(part, { force: true }).catch(() => null);
    return refuse({
      code: "file-not-written",
      path: [],
      message: `${basename(origin)} can't be written: ${reasonOf(error)}. What was in it is still there; download the project instead.`,
    });
  }
}
