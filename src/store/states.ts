/** The states of a project: saved one on another, chosen, named. Nothing is overwritten; two that meet are both kept. */
import { answer, type Outcome, refuse } from "../core/problem.ts";
import { type LibraryContext, type Store, withStorage } from "./context.ts";
import { type Facts, factsOf, listSpecimens } from "./facts.ts";
import { hashOf } from "./hash.ts";
import { noSuchProject, noSuchState } from "./problems.ts";
import type { Tables } from "./schema.ts";
import type { History, Saved, SaveRequest } from "./shapes.ts";

/**
 * Saves a new state on top of `base`. Where another save came first both are kept, and the answer says so.
 *
 * Problems: `no-such-project`, `no-such-state`, those of `loadProject`, and of the storage.
 */
export const saveState = (context: LibraryContext, id: string, request: SaveRequest): Promise<Outcome<Saved>> =>
  withStorage(context, async () => {
    const { base, text, says } = request;
    const facts = factsOf(text);
    if (!facts.ok) return facts;
    return context.db.transaction().execute(async (db): Promise<Outcome<Saved>> => {
      const saved = context.now();
      // Written before it is read: the row is ours until the end, in SQLite and in PostgreSQL alike.
      const project = await db
        .updateTable("project")
        .set({ saved })
        .where("id", "=", id)
        .returning(["head"])
        .executeTakeFirst();
      if (project === undefined) return refuse(noSuchProject(id));
      const from = await db
        .selectFrom("state")
        .select(["text"])
        .where("project", "=", id)
        .where("number", "=", base)
        .executeTakeFirst();
      if (from === undefined) return refuse(noSuchState(id, base));
      const inLine = base === project.head;
      if (inLine && from.text === text) return answer({ id, state: base, head: base, conflict: false });
      const last = await db
        .selectFrom("state")
        .select(({ fn }) => fn.max("number").as("number"))
        .where("project", "=", id)
        .executeTakeFirstOrThrow();
      const number = Number(last.number) + 1;
      await addState(db, { project: id, number, parent: base, text, saved, says });
      if (inLine) await moveHead(db, id, number, facts.value);
      return answer({ id, state: number, head: inLine ? number : project.head, conflict: !inLine });
    });
  });

/** Makes a kept state the one that counts: the answer to a conflict. The others stay. */
export const chooseHead = (
  context: LibraryContext,
  id: string,
  { number, base }: { readonly number: number; readonly base: number },
): Promise<Outcome<Saved>> =>
  withStorage(context, () =>
    context.db.transaction().execute(async (db): Promise<Outcome<Saved>> => {
      const project = await db
        .updateTable("project")
        .set({ saved: context.now() })
        .where("id", "=", id)
        .returning(["head"])
        .executeTakeFirst();
      if (project === undefined) return refuse(noSuchProject(id));
      if (project.head !== base) return answer({ id, state: number, head: project.head, conflict: true });
      const state = await db
        .selectFrom("state")
        .select("text")
        .where("project", "=", id)
        .where("number", "=", number)
        .executeTakeFirst();
      if (state === undefined) return refuse(noSuchState(id, number));
      const facts = factsOf(state.text);
      if (!facts.ok) return facts;
      await moveHead(db, id, number, facts.value);
      return answer({ id, state: number, head: number, conflict: false });
    }),
  );

/** A project's line of time, the oldest first. Problems: `no-such-project`. */
export const historyOf = (context: LibraryContext, id: string): Promise<Outcome<History>> =>
  withStorage(context, async () => {
    const { db } = context;
    const project = await db.selectFrom("project").select("head").where("id", "=", id).executeTakeFirst();
    if (project === undefined) return refuse(noSuchProject(id));
    const states = await db
      .selectFrom("state")
      .select(["number", "parent", "saved", "says", "name", "sha256"])
      .where("project", "=", id)
      .orderBy("number")
      .execute();
    return answer({ id, head: project.head, states: states.map((s) => ({ ...s, saved: Number(s.saved) })) });
  });

/** Gives a state a name, or takes it away with null. Problems: `no-such-state`. */
export const nameState = (
  context: LibraryContext,
  id: string,
  { number, name }: { readonly number: number; readonly name: string | null },
): Promise<Outcome<null>> =>
  withStorage(context, async () => {
    const named = await context.db
      .updateTable("state")
      .set({ name })
      .where("project", "=", id)
      .where("number", "=", number)
      .returning("number")
      .executeTakeFirst();
    return named === undefined ? refuse(noSuchState(id, number)) : answer(null);
  });

export async function addState(
  db: Store,
  state: Omit<Tables["state"], "sha256" | "name" | "saved"> & { readonly saved: number },
): Promise<void> {
  await db
    .insertInto("state")
    .values({ ...state, sha256: hashOf(state.text), name: null })
    .execute();
}

async function moveHead(db: Store, id: string, number: number, { title, specimens }: Facts): Promise<void> {
  await db.updateTable("project").set({ head: number, title }).where("id", "=", id).execute();
  await listSpecimens(db, id, specimens);
}
