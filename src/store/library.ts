/**
 * The library: projects with every state they were ever saved in, and raw records byte for byte. One embedded database file,
 * every save one transaction. Nothing is overwritten: a save adds a state, going back adds one, and two that meet are both kept.
 */
import { answer, type Outcome, refuse } from "../core/problem.ts";
import { type LibraryContext, withStorage } from "./context.ts";
import { factsOf, listSpecimens } from "./facts.ts";
import { hashOf } from "./hash.ts";
import { damaged, noSuchProject, noSuchState } from "./problems.ts";
import type { Saved, ShelfLine, StoredProject } from "./shapes.ts";
import { addState } from "./states.ts";

/** Everything on the shelf, the newest first; `put away` projects too where asked. */
export const shelf = (context: LibraryContext): Promise<Outcome<readonly ShelfLine[]>> =>
  withStorage(context, async () => {
    const { db } = context;
    const [projects, states, records, specimens] = await Promise.all([
      db
        .selectFrom("project")
        .select(["id", "title", "created", "saved", "removed"])
        .orderBy("saved", "desc")
        .orderBy("id")
        .execute(),
      db
        .selectFrom("state")
        .select(["project", ({ fn }) => fn.countAll<number | string>().as("count")])
        .groupBy("project")
        .execute(),
      db
        .selectFrom("record")
        .select(["project", ({ fn }) => fn.countAll<number | string>().as("count")])
        .groupBy("project")
        .execute(),
      db.selectFrom("specimen").selectAll().orderBy("id").execute(),
    ]);
    const countOf = (rows: readonly { project: string; count: number | string }[]) =>
      new Map(rows.map(({ project, count }) => [project, Number(count)]));
    const [stateCounts, recordCounts] = [countOf(states), countOf(records)];
    const named = new Map<string, { id: string; name: string }[]>();
    for (const { project, id, name } of specimens) named.set(project, [...(named.get(project) ?? []), { id, name }]);
    return answer(
      projects.map(({ id, title, created, saved, removed }) => ({
        id,
        title,
        created: Number(created),
        saved: Number(saved),
        removed: removed === null ? null : Number(removed),
        states: stateCounts.get(id) ?? 0,
        records: recordCounts.get(id) ?? 0,
        specimens: named.get(id) ?? [],
      })),
    );
  });

/** A new project with its first state. Problems: those of `loadProject`, and of the storage. */
export const addProject = (
  context: LibraryContext,
  { text, says, origin = null }: { readonly text: string; readonly says: string; readonly origin?: string | null },
): Promise<Outcome<Saved>> =>
  withStorage(context, async () => {
    const facts = factsOf(text);
    if (!facts.ok) return facts;
    const id = context.newId();
    const saved = context.now();
    await context.db.transaction().execute(async (db) => {
      await db
        .insertInto("project")
        .values({
          id,
          title: facts.value.title,
          head: 1,
          created: saved,
          saved,
          removed: null,
          origin,
          origin_state: origin === null ? null : 1,
        })
        .execute();
      await addState(db, { project: id, number: 1, parent: null, text, saved, says });
      await listSpecimens(db, id, facts.value.specimens);
    });
    return answer({ id, state: 1, head: 1, conflict: false });
  });

/** A project in a state, the head where none is named. Problems: `no-such-project`, `no-such-state`, `state-damaged`. */
export const readProject = (context: LibraryContext, id: string, number?: number): Promise<Outcome<StoredProject>> =>
  withStorage(context, async () => {
    const { db } = context;
    const project = await db
      .selectFrom("project")
      .select(["id", "title", "head"])
      .where("id", "=", id)
      .executeTakeFirst();
    if (project === undefined) return refuse(noSuchProject(id));
    const state = number ?? project.head;
    const row = await db
      .selectFrom("state")
      .select(["text", "sha256"])
      .where("project", "=", id)
      .where("number", "=", state)
      .executeTakeFirst();
    if (row === undefined) return refuse(noSuchState(id, state));
    if (hashOf(row.text) !== row.sha256) return refuse(damaged(id, state));
    const records = await db
      .selectFrom("record")
      .innerJoin("raw", "raw.sha256", "record.sha256")
      .select(["record.id", "record.name", "record.sha256", "record.added", "raw.size"])
      .where("record.project", "=", id)
      .orderBy("record.added")
      .orderBy("record.id")
      .execute();
    return answer({
      id,
      title: project.title,
      state,
      text: row.text,
      records: records.map((record) => ({ ...record, added: Number(record.added), size: Number(record.size) })),
    });
  });

/** Puts a project away, or back on the shelf. Nothing is deleted. Problems: `no-such-project`. */
export const putAway = (context: LibraryContext, id: string, away: boolean): Promise<Outcome<null>> =>
  withStorage(context, async () => {
    const moved = await context.db
      .updateTable("project")
      .set({ removed: away ? context.now() : null })
      .where("id", "=", id)
      .returning("id")
      .executeTakeFirst();
    return moved === undefined ? refuse(noSuchProject(id)) : answer(null);
  });
