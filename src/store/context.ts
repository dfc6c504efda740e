/** What a library needs from its surroundings, and how what the disk says comes back. */
import { randomUUID } from "node:crypto";
import type { Kysely } from "kysely";
import { type Outcome, refuse } from "../core/problem.ts";
import { storageProblem } from "./problems.ts";
import type { Tables } from "./schema.ts";

export type Store = Kysely<Tables>;

/** What a library needs from its surroundings. */
export interface LibraryContext {
  readonly db: Store;
  /** For messages. */
  readonly file: string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  readonly newId: () => string;
}

export const contextOf = (db: Store, file: string): LibraryContext => ({
  db,
  file,
  now: Date.now,
  newId: randomUUID,
});

/** Runs a piece of work on the library; what the disk or the database says comes back as a problem. */
export async function withStorage<T>({ file }: LibraryContext, work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  try {
    return await work();
  } catch (error) {
    const problem = storageProblem(error, file);
    if (problem === null) throw error;
    return refuse(problem);
  }
}
