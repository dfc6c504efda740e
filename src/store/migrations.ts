/** Brings a library to the present form, step by step; each step is one transaction. */
import { type Kysely, sql } from "kysely";
import { answer, type Outcome, refuse } from "../core/problem.ts";
import type { Tables } from "./schema.ts";

/** What the two databases call the same thing. */
export interface ColumnNames {
  readonly bytes: "blob" | "bytea";
}

/** One step of the form: takes a library from a version to the next. */
export type Step = (db: Kysely<Tables>, names: ColumnNames) => Promise<void>;

/** Step i takes version i to i + 1. Never change one that was released: add the next. */
export const librarySteps: readonly Step[] = [
  async (db, { bytes }) => {
    await db.schema
      .createTable("project")
      .addColumn("id", "text", (c) => c.primaryKey())
      .addColumn("title", "text", (c) => c.notNull())
      .addColumn("head", "integer", (c) => c.notNull())
      .addColumn("created", "bigint", (c) => c.notNull())
      .addColumn("saved", "bigint", (c) => c.notNull())
      .addColumn("removed", "bigint")
      .addColumn("origin", "text")
      .addColumn("origin_state", "integer")
      .execute();
    await db.schema
      .createTable("state")
      .addColumn("project", "text", (c) => c.notNull().references("project.id"))
      .addColumn("number", "integer", (c) => c.notNull())
      .addColumn("parent", "integer")
      .addColumn("text", "text", (c) => c.notNull())
      .addColumn("sha256", "text", (c) => c.notNull())
      .addColumn("saved", "bigint", (c) => c.notNull())
      .addColumn("says", "text", (c) => c.notNull())
      .addColumn("name", "text")
      .addPrimaryKeyConstraint("state_key", ["project", "number"])
      .execute();
    await db.schema
      .createTable("specimen")
      .addColumn("project", "text", (c) => c.notNull().references("project.id"))
      .addColumn("id", "text", (c) => c.notNull())
      .addColumn("name", "text", (c) => c.notNull())
      .addPrimaryKeyConstraint("specimen_key", ["project", "id"])
      .execute();
    await db.schema
      .createTable("raw")
      .addColumn("sha256", "text", (c) => c.primaryKey())
      .addColumn("size", "bigint", (c) => c.notNull())
      .addColumn("bytes", sql.raw(bytes), (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("record")
      .addColumn("id", "text", (c) => c.primaryKey())
      .addColumn("project", "text", (c) => c.notNull().references("project.id"))
      .addColumn("name", "text", (c) => c.notNull())
      .addColumn("sha256", "text", (c) => c.notNull().references("raw.sha256"))
      .addColumn("added", "bigint", (c) => c.notNull())
      .execute();
    await db.schema.createIndex("record_project").on("record").column("project").execute();
    await db.schema.createIndex("project_origin").on("project").column("origin").execute();
  },
];

/** Version of the library; 0: a new one, without tables. */
export async function versionOf(db: Kysely<Tables>): Promise<number> {
  await db.schema
    .createTable("fact")
    .ifNotExists()
    .addColumn("key", "text", (c) => c.primaryKey())
    .addColumn("value", "text", (c) => c.notNull())
    .execute();
  const row = await db.selectFrom("fact").select("value").where("key", "=", "version").executeTakeFirst();
  return row === undefined ? 0 : Number(row.value);
}

export interface Migration {
  readonly names: ColumnNames;
  readonly copy: (version: number) => Promise<void>;
  readonly steps?: readonly Step[];
}

/**
 * Runs the steps that the library lacks. `copy` is called once before the first step of a library that holds something.
 *
 * Problems: `newer-library`.
 */
export async function migrate(
  db: Kysely<Tables>,
  { names, copy, steps = librarySteps }: Migration,
): Promise<Outcome<{ readonly from: number; readonly to: number }>> {
  const from = await versionOf(db);
  const to = steps.length;
  if (from > to) return refuse(newer(from, to));
  if (from > 0 && from < to) await copy(from);
  for (let version = from; version < to; version++)
    await db.transaction().execute(async (step) => {
      await (steps[version] as Step)(step, names);
      const value = String(version + 1);
      await step
        .insertInto("fact")
        .values({ key: "version", value })
        .onConflict((c) => c.column("key").doUpdateSet({ value }))
        .execute();
    });
  return answer({ from, to });
}

const newer = (found: number, known: number) => ({
  code: "newer-library",
  path: [],
  message: `The library has version ${found}; this program knows versions up to ${known}. Nothing was touched. Use a newer Glassdrum, or another folder with --data.`,
});
