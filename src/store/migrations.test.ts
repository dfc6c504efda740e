import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Kysely, sql } from "kysely";
import { afterEach, beforeEach, expect, test } from "vitest";
import { good } from "../../tests/outcomes.ts";
import { demoText } from "../core/index.ts";
import { addProject, readProject } from "./library.ts";
import { librarySteps, type Step, versionOf } from "./migrations.ts";
import { openLibrary } from "./open.ts";
import type { Tables } from "./schema.ts";
import { openDatabase } from "./sqlite.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "glassdrum-migration-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A form that a later release could have. */
const withShelfMark: Step = async (db) => {
  await db.schema.alterTable("project").addColumn("mark", "text").execute();
};

/** A library of the present form with the demo in it; returns the demo's id. */
async function filled(): Promise<string> {
  const library = good(await openLibrary(folder));
  const { id } = good(await addProject(library, { text: demoText, says: "Opened" }));
  await library.close();
  return id;
}

/** What a file of the folder holds: its version, the columns of `project`, and the demo's text. */
async function held(file: string): Promise<{ version: number; columns: string[]; texts: string[] }> {
  const db = new Kysely<Tables>({ dialect: openDatabase(join(folder, file)).dialect });
  const { rows } = await sql<{ name: string }>`select name from pragma_table_info('project')`.execute(db);
  const texts = await db.selectFrom("state").select("text").execute();
  const version = await versionOf(db);
  await db.destroy();
  return { version, columns: rows.map(({ name }) => name), texts: texts.map(({ text }) => text) };
}

test("a library of an earlier form is copied, then brought to the later one with all that it holds", async () => {
  const id = await filled();
  const present = librarySteps.length;
  const library = good(await openLibrary(folder, { steps: [...librarySteps, withShelfMark] }));
  expect(good(await readProject(library, id)).text).toBe(demoText);
  await library.close();
  const after = await held("library.db");
  expect([after.version, after.columns.includes("mark")]).toEqual([present + 1, true]);
  const copy = await held(`library-before-${present + 1}.db`);
  expect(copy).toMatchObject({ version: present, texts: [demoText] });
  expect(copy.columns).not.toContain("mark");
});

test("nothing is copied where nothing changes", async () => {
  await filled();
  await good(await openLibrary(folder)).close();
  expect(existsSync(join(folder, `library-before-${librarySteps.length + 1}.db`))).toBe(false);
});

test("a step that fails half way leaves the library as it was", async () => {
  const id = await filled();
  const failing: Step = async (db, names) => {
    await withShelfMark(db, names);
    throw new Error("the step has a fault");
  };
  await expect(openLibrary(folder, { steps: [...librarySteps, failing] })).rejects.toThrow("the step has a fault");
  const after = await held("library.db");
  expect([after.version, after.columns.includes("mark")]).toEqual([librarySteps.length, false]);
  // The next try makes a copy of its own and goes through.
  const library = good(await openLibrary(folder, { steps: [...librarySteps, withShelfMark] }));
  expect(good(await readProject(library, id)).text).toBe(demoText);
  await library.close();
  expect((await held(`library-before-${librarySteps.length + 1}-1.db`)).texts).toEqual([demoText]);
});

test("a library of a later form is not touched, and the reason is said", async () => {
  await filled();
  await good(await openLibrary(folder, { steps: [...librarySteps, withShelfMark] })).close();
  const refused = await openLibrary(folder);
  expect(refused).toMatchObject({ ok: false, problems: [{ code: "newer-library" }] });
  expect((await held("library.db")).version).toBe(librarySteps.length + 1);
});
