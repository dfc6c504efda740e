import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Kysely } from "kysely";
import { KyselyPGlite } from "kysely-pglite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { codesOf, good } from "../../tests/outcomes.ts";
import { demoText } from "../core/index.ts";
import { archiveOf, importArchive } from "./archive.ts";
import { createWatch } from "./changes.ts";
import type { LibraryContext } from "./context.ts";
import { hashOf } from "./hash.ts";
import { addProject, putAway, readProject, shelf } from "./library.ts";
import { migrate } from "./migrations.ts";
import { openLibrary } from "./open.ts";
import { boundTo, noteFile } from "./origin.ts";
import { addRecord, readRecord } from "./records.ts";
import type { Tables } from "./schema.ts";
import { chooseHead, historyOf, nameState, saveState } from "./states.ts";

const withGap = (gap: string) => demoText.replace("38 um", gap);

/** Ids and times that a test can name. */
let id = 0;
function counted(db: Kysely<Tables>): LibraryContext {
  let time = 1_700_000_000_000;
  return { db, file: "library.db", now: () => (time += 1000), newId: () => `id-${++id}` };
}

interface Opened {
  readonly context: LibraryContext;
  readonly close: () => Promise<void>;
}

async function onSqlite(): Promise<Opened> {
  const folder = mkdtempSync(join(tmpdir(), "glassdrum-store-"));
  const library = good(await openLibrary(folder));
  const close = async () => {
    await library.close();
    rmSync(folder, { recursive: true });
  };
  return { context: counted(library.db), close };
}

async function onPostgres(): Promise<Opened> {
  const { dialect } = await KyselyPGlite.create();
  const db = new Kysely<Tables>({ dialect });
  good(await migrate(db, { names: { bytes: "bytea" }, copy: async () => {} }));
  return { context: counted(db), close: () => db.destroy() };
}

/** Tests of one database follow each other: each makes projects of its own. */
describe.each([
  { name: "SQLite", open: onSqlite, sessions: "many" },
  { name: "PostgreSQL", open: onPostgres, sessions: "one" },
])("a library in $name", ({ open, sessions }) => {
  let context: LibraryContext;
  let close: () => Promise<void>;
  beforeAll(async () => {
    ({ context, close } = await open());
  });
  afterAll(() => close());

  test("every saved state is kept, byte for byte, with what was done", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    const saved = good(await saveState(context, id, { base: 1, text: withGap("40 um"), says: "Air gap 40 um" }));
    expect(saved).toEqual({ id, state: 2, head: 2, conflict: false });
    expect(good(await readProject(context, id)).text).toBe(withGap("40 um"));
    expect(good(await readProject(context, id, 1)).text).toBe(demoText);
    expect(good(await historyOf(context, id))).toMatchObject({
      head: 2,
      states: [
        { number: 1, parent: null, says: "Opened", sha256: hashOf(demoText) },
        { number: 2, parent: 1, says: "Air gap 40 um" },
      ],
    });
  });

  test("saving what is there already adds nothing", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    expect(good(await saveState(context, id, { base: 1, text: demoText, says: "again" })).state).toBe(1);
    expect(good(await historyOf(context, id)).states).toHaveLength(1);
  });

  test("two saves from the same state are both kept, and one of them is chosen", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    await saveState(context, id, { base: 1, text: withGap("40 um"), says: "one" });
    const second = good(await saveState(context, id, { base: 1, text: withGap("42 um"), says: "other" }));
    expect(second).toEqual({ id, state: 3, head: 2, conflict: true });
    expect(good(await readProject(context, id)).text).toBe(withGap("40 um"));
    expect(good(await chooseHead(context, id, { number: 3, base: 1 })).conflict).toBe(true);
    expect(good(await chooseHead(context, id, { number: 3, base: 2 }))).toMatchObject({ head: 3, conflict: false });
    expect(good(await readProject(context, id)).text).toBe(withGap("42 um"));
    expect(good(await readProject(context, id, 2)).text).toBe(withGap("40 um"));
  });

  test("saves at the same time lose nothing: one after the other, whoever is late is kept beside", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    const gaps = ["31 um", "32 um", "33 um", "34 um", "35 um", "36 um"];
    const save = (gap: string) => saveState(context, id, { base: 1, text: withGap(gap), says: gap });
    // PostgreSQL inside the test has one session only, and no two transactions of it at a time.
    const saved: Awaited<ReturnType<typeof save>>[] = [];
    if (sessions === "one") for (const gap of gaps) saved.push(await save(gap));
    else saved.push(...(await Promise.all(gaps.map(save))));
    expect(saved.map(good).filter(({ conflict }) => !conflict)).toHaveLength(1);
    const states = await Promise.all(saved.map((one) => readProject(context, id, good(one).state)));
    expect(states.map((state) => good(state).text)).toEqual(gaps.map(withGap));
  });

  test("a state gets a name, and loses it", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    good(await nameState(context, id, { number: 1, name: "as ordered" }));
    expect(good(await historyOf(context, id)).states[0]?.name).toBe("as ordered");
    good(await nameState(context, id, { number: 1, name: null }));
    expect(good(await historyOf(context, id)).states[0]?.name).toBeNull();
    expect(codesOf(await nameState(context, id, { number: 9, name: "x" }))).toEqual(["no-such-state"]);
  });

  test("a project put away is still there, and comes back", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    const find = async () => good(await shelf(context)).find((line) => line.id === id);
    good(await putAway(context, id, true));
    expect((await find())?.removed).not.toBeNull();
    good(await putAway(context, id, false));
    expect(await find()).toMatchObject({ removed: null, states: 1, records: 0, specimens: [{ id: "a3", name: "A3" }] });
  });

  test("raw records come back byte for byte, and the same bytes are kept once", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    const bytes = Uint8Array.from({ length: 1000 }, (_, i) => (i * 37) % 256);
    const first = good(await addRecord(context, id, { name: "a3.wav", bytes }));
    expect(good(await addRecord(context, id, { name: "a3.wav", bytes })).id).toBe(first.id);
    const read = good(await readRecord(context, first.id));
    expect([...read.bytes]).toEqual([...bytes]);
    expect(read).toMatchObject({ name: "a3.wav", sha256: hashOf(bytes), size: 1000 });
    expect(good(await readProject(context, id)).records).toMatchObject([{ id: first.id, size: 1000 }]);
    expect(codesOf(await addRecord(context, id, { name: "e", bytes: new Uint8Array() }))).toEqual(["empty-record"]);
  });

  test("a record or a state that was damaged on the disk is refused, not shown", async () => {
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    const record = good(await addRecord(context, id, { name: "r.csv", bytes: new Uint8Array([9, 9, 9, id.length]) }));
    await context.db
      .updateTable("raw")
      .set({ bytes: new Uint8Array([9, 9, 8]) })
      .where("sha256", "=", record.sha256)
      .execute();
    expect(codesOf(await readRecord(context, record.id))).toEqual(["record-damaged"]);
    await context.db.updateTable("state").set({ text: "{}" }).where("project", "=", id).execute();
    expect(codesOf(await readProject(context, id))).toEqual(["state-damaged"]);
    expect(codesOf(await archiveOf(context, id))).toEqual(["archive-file-damaged", "archive-file-damaged"]);
    await context.db.deleteFrom("record").where("project", "=", id).execute();
    await context.db.deleteFrom("raw").where("sha256", "=", record.sha256).execute();
    await context.db.updateTable("state").set({ text: demoText }).where("project", "=", id).execute();
  });

  test("what is no project or not there is refused with its reason", async () => {
    expect(codesOf(await addProject(context, { text: "{", says: "" }))).not.toEqual([]);
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    expect(codesOf(await saveState(context, id, { base: 1, text: withGap("38"), says: "" }))).toEqual(["no-unit"]);
    expect(codesOf(await saveState(context, id, { base: 7, text: demoText, says: "" }))).toEqual(["no-such-state"]);
    expect(codesOf(await saveState(context, "nobody", { base: 1, text: demoText, says: "" }))).toEqual([
      "no-such-project",
    ]);
    for (const asked of [readProject, historyOf, archiveOf])
      expect(codesOf(await asked(context, "nobody"))).toEqual(["no-such-project"]);
    expect(codesOf(await putAway(context, "nobody", true))).toEqual(["no-such-project"]);
    expect(codesOf(await chooseHead(context, "nobody", { number: 1, base: 1 }))).toEqual(["no-such-project"]);
    expect(codesOf(await readRecord(context, "nobody"))).toEqual(["no-such-record"]);
    expect(codesOf(await addRecord(context, "nobody", { name: "x", bytes: new Uint8Array([1]) }))).toEqual([
      "no-such-project",
    ]);
  });

  test("the watch tells what changed since it was asked last", async () => {
    const watch = createWatch(context);
    await watch();
    expect(await watch()).toEqual([]);
    const { id } = good(await addProject(context, { text: demoText, says: "Opened" }));
    expect(await watch()).toEqual([{ id, head: 1, states: 1, away: false }]);
    await saveState(context, id, { base: 1, text: withGap("41 um"), says: "" });
    expect(await watch()).toEqual([{ id, head: 2, states: 2, away: false }]);
  });

  test("a file that was changed outside comes in as a state: on top, or beside what the library went on with", async () => {
    const origin = `/somewhere/${context.newId()}.glassdrum.json`;
    expect(good(await boundTo(context, { origin, text: demoText }))).toBeNull();
    const { id } = good(await addProject(context, { text: demoText, says: "Opened", origin }));
    await saveState(context, id, { base: 1, text: withGap("40 um"), says: "" });
    expect(good(await boundTo(context, { origin, text: demoText }))).toMatchObject({ id, state: 2, beside: null });
    expect(good(await boundTo(context, { origin, text: withGap("50 um") }))).toMatchObject({ state: 2, beside: 3 });
    await noteFile(context, id, 2);
    expect(good(await boundTo(context, { origin, text: withGap("55 um") }))).toMatchObject({
      state: 4,
      beside: null,
      text: withGap("55 um"),
    });
  });

  test("an archive goes out and comes back equal, into an empty library and into one that went on", async () => {
    const zip = good(await archiveOf(context));
    const tables = ["specimen", "record", "raw", "state", "project"] as const;
    for (const table of tables) await context.db.deleteFrom(table).execute();
    const imported = good(await importArchive(context, zip));
    expect(imported.length).toBeGreaterThan(5);
    expect(imported.every(({ as }) => as === "added")).toBe(true);
    expect(good(await archiveOf(context))).toEqual(zip);
    expect(good(await importArchive(context, zip)).every(({ as }) => as === "known")).toBe(true);
    expect(good(await archiveOf(context))).toEqual(zip);
    const first = imported[0]?.id ?? "";
    await context.db
      .updateTable("state")
      .set({ sha256: hashOf("x") })
      .where("project", "=", first)
      .execute();
    expect(good(await importArchive(context, zip)).map(({ as }) => as)).toContain("beside");
  });
});
