/** Opens the library of a folder. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { Kysely } from "kysely";
import { answer, type Outcome, refuse } from "../core/problem.ts";
import { contextOf, type LibraryContext } from "./context.ts";
import { libraryFile } from "./folder.ts";
import { migrate, type Step } from "./migrations.ts";
import { storageProblem } from "./problems.ts";
import type { Tables } from "./schema.ts";
import { type DatabaseOptions, openDatabase } from "./sqlite.ts";

export interface OpenLibrary extends LibraryContext {
  /** Changes whenever another program has written. */
  readonly outsideVersion: () => number;
  /** What the database finds wrong with itself; empty where all is well. */
  readonly check: () => readonly string[];
  readonly close: () => Promise<void>;
}

/**
 * Opens or makes `library.db` in the folder and brings it to the present form; before a step that changes what is there a copy
 * is made beside it (library-before-2.db; library-before-2-1.db where that one is there from an earlier try).
 *
 * Problems: `library-not-opened`, `library-damaged`, `library-locked`, `library-read-only`, `disk-full`, `newer-library`.
 */
export async function openLibrary(
  folder: string,
  options: DatabaseOptions & { readonly steps?: readonly Step[] } = {},
): Promise<Outcome<OpenLibrary>> {
  const file = join(folder, libraryFile);
  let db: Kysely<Tables> | null = null;
  try {
    const opened = openDatabase(file, options);
    db = new Kysely<Tables>({ dialect: opened.dialect });
    const migrated = await migrate(db, {
      names: { bytes: "blob" },
      copy: async (version) => opened.copyTo(freeCopy(folder, version + 1)),
      ...(options.steps === undefined ? {} : { steps: options.steps }),
    });
    if (!migrated.ok) {
      await db.destroy();
      return migrated;
    }
    const { outsideVersion, check } = opened;
    const kept = db;
    return answer({ ...contextOf(kept, file), outsideVersion, check, close: () => kept.destroy() });
  } catch (error) {
    await db?.destroy();
    const problem = storageProblem(error, file);
    if (problem === null) throw error;
    return refuse(problem);
  }
}

/** A name for the copy that no file has. */
function freeCopy(folder: string, version: number): string {
  const named = (end: string) => join(folder, `library-before-${version}${end}.db`);
  let path = named("");
  for (let count = 1; existsSync(path); count++) path = named(`-${count}`);
  return path;
}
