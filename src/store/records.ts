/** Raw records: what an instrument wrote, byte for byte, kept once for each content and checked whenever it is read. */
import { answer, type Outcome, refuse } from "../core/problem.ts";
import { type LibraryContext, withStorage } from "./context.ts";
import { hashOf } from "./hash.ts";
import { noSuchProject } from "./problems.ts";
import type { RecordRow } from "./shapes.ts";

export interface StoredRecord extends RecordRow {
  readonly bytes: Uint8Array;
}

/** Keeps the bytes under a project. The same bytes under the same name are kept once. Problems: `no-such-project`, `empty-record`. */
export const addRecord = (
  context: LibraryContext,
  project: string,
  { name, bytes }: { readonly name: string; readonly bytes: Uint8Array },
): Promise<Outcome<RecordRow>> =>
  withStorage(context, async () => {
    if (bytes.length === 0)
      return refuse({ code: "empty-record", path: [], message: `${name} is empty: there is nothing to keep.` });
    const sha256 = hashOf(bytes);
    return context.db.transaction().execute(async (db): Promise<Outcome<RecordRow>> => {
      const owner = await db.selectFrom("project").select("id").where("id", "=", project).executeTakeFirst();
      if (owner === undefined) return refuse(noSuchProject(project));
      const size = bytes.length;
      await db
        .insertInto("raw")
        .values({ sha256, size, bytes })
        .onConflict((c) => c.column("sha256").doNothing())
        .execute();
      const known = await db
        .selectFrom("record")
        .selectAll()
        .where("project", "=", project)
        .where("sha256", "=", sha256)
        .where("name", "=", name)
        .executeTakeFirst();
      if (known !== undefined) return answer({ id: known.id, name, sha256, size, added: Number(known.added) });
      const row = { id: context.newId(), project, name, sha256, added: context.now() };
      await db.insertInto("record").values(row).execute();
      return answer({ id: row.id, name, sha256, size, added: row.added });
    });
  });

/** The bytes as they came. Problems: `no-such-record`, `record-damaged`: the bytes no longer have their hash. */
export const readRecord = (context: LibraryContext, id: string): Promise<Outcome<StoredRecord>> =>
  withStorage(context, async () => {
    const row = await context.db
      .selectFrom("record")
      .innerJoin("raw", "raw.sha256", "record.sha256")
      .select(["record.id", "record.name", "record.sha256", "record.added", "raw.bytes"])
      .where("record.id", "=", id)
      .executeTakeFirst();
    if (row === undefined)
      return refuse({
        code: "no-such-record",
        path: [],
        message: `There is no record ${JSON.stringify(id.slice(0, 80))} in the library.`,
      });
    const bytes = new Uint8Array(row.bytes);
    const found = hashOf(bytes);
    if (found !== row.sha256)
      return refuse({
        code: "record-damaged",
        path: [],
        message: `${row.name} is not what was kept: its hash is ${found.slice(0, 12)}…, needed: ${row.sha256.slice(0, 12)}…. Import the original file again, or an archive that holds it.`,
      });
    return answer({ ...row, added: Number(row.added), size: bytes.length, bytes });
  });
