/**
 * The library: projects with every state they were ever saved in, and raw records byte for byte. One embedded database file,
 * every save one transaction. Nothing is overwritten: a save adds a state, going back adds one, and two that meet are both kept.
 */
import { randomUUID } from "node:crypto";
import type { Kysely } from "kysely";
import { loadProject } from "../core/index.ts";
import { answer, type Outcome, type Problem, refuse } from "../core/problem.ts";
import { hashOf } from "./hash.ts";
import { storageProblem } from "./problems.ts";
import type { Tables } from "./schema.ts";
import type { History, Saved, SaveRequest, ShelfLine, StoredProject } from "./shapes.ts";

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

interface Facts {
  readonly title: string;
  readonly specimens: readonly { readonly id: string; readonly name: string }[];
}

/** Specimens that a project's text names, each id once; none where the text is no project. */
export function specimensOf(text: string): Facts["specimens"] {
  const facts = factsOf(text);
  return facts.ok ? [...new Map(facts.value.specimens.map((one) => [one.id, one])).values()] : [];
}

function factsOf(text: string): Outcome<Facts> {
  const loaded = loadProject(text);
  if (!loaded.ok) return loaded;
  const { title, specimens } = loaded.value.file;
  return answer({
    title: title?.trim() || "Untitled",
    specimens: (specimens ?? []).map(({ id, name }, i) => ({ id: id ?? String(i + 1), name: name ?? id ?? "" })),
  });
}

async function addState(
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

async function listSpecimens(db: Store, project: string, specimens: Facts["specimens"]): Promise<void> {
  await db.deleteFrom("specimen").where("project", "=", project).execute();
  const once = new Map(specimens.map(({ id, name }) => [id, { project, id, name }]));
  if (once.size > 0)
    await db
      .insertInto("specimen")
      .values([...once.values()])
      .execute();
}

export const noSuchProject = (id: string): Problem => ({
  code: "no-such-project",
  path: [],
  message: `There is no project ${JSON.stringify(id.slice(0, 80))} in the library.`,
});

const noSuchState = (id: string, number: number): Problem => ({
  code: "no-such-state",
  path: [],
  message: `The project ${id} has no state ${number}.`,
});

const damaged = (id: string, number: number): Problem => ({
  code: "state-damaged",
  path: [],
  message: `State ${number} of the project ${id} is not what was saved: its hash differs. The other states are whole; look at the line of time.`,
});
