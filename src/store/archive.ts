/**
 * A project or the whole library as one ZIP of plain files, and back, equal:
 *
 *     manifest.json                      what is in it, each file with its SHA-256
 *     index.csv                          the same as a table, for a spreadsheet
 *     projects/ID/states/0001.glassdrum.json   every state, byte for byte
 *     projects/ID/records/RECORD/NAME          every raw record, byte for byte
 */
import { answer, type Outcome, type Problem, refuse } from "../core/problem.ts";
import { bytesOfText, type Files, filesOf, textOfBytes, zipOf } from "../writers/zip.ts";
import { type LibraryContext, withStorage } from "./context.ts";
import { specimensOf } from "./facts.ts";
import { hashOf } from "./hash.ts";
import { type Manifest, type ManifestProject, readManifest } from "./manifest.ts";
import { noSuchProject } from "./problems.ts";
import type { Imported } from "./shapes.ts";

/** An archive larger than this, unpacked, is not read in [bytes]. */
const largestArchive = 2e9;

/** One project, or all. Problems: `no-such-project`, `record-damaged`, and of the storage. */
export const archiveOf = (context: LibraryContext, id?: string): Promise<Outcome<Uint8Array>> =>
  withStorage(context, async () => {
    const { db } = context;
    const all = db.selectFrom("project").selectAll().orderBy("id");
    const projects = await (id === undefined ? all : all.where("id", "=", id)).execute();
    if (id !== undefined && projects.length === 0) return refuse(noSuchProject(id));
    const files = new Map<string, Uint8Array>();
    const listed: ManifestProject[] = [];
    for (const project of projects) {
      const states = await db
        .selectFrom("state")
        .selectAll()
        .where("project", "=", project.id)
        .orderBy("number")
        .execute();
      const records = await db
        .selectFrom("record")
        .innerJoin("raw", "raw.sha256", "record.sha256")
        .select(["record.id", "record.name", "record.sha256", "record.added", "raw.bytes"])
        .where("record.project", "=", project.id)
        .orderBy("record.id")
        .execute();
      const folder = `projects/${project.id}`;
      listed.push({
        id: project.id,
        title: project.title,
        head: project.head,
        created: Number(project.created),
        saved: Number(project.saved),
        removed: project.removed === null ? null : Number(project.removed),
        states: states.map(({ number, parent, saved, says, name, sha256, text }) => {
          const file = `${folder}/states/${String(number).padStart(4, "0")}.glassdrum.json`;
          files.set(file, bytesOfText(text));
          return { number, parent, saved: Number(saved), says, name, file, sha256 };
        }),
        records: records.map((record) => {
          const file = `${folder}/records/${record.id}/${safeName(record.name)}`;
          files.set(file, new Uint8Array(record.bytes));
          return { id: record.id, name: record.name, added: Number(record.added), file, sha256: record.sha256 };
        }),
      });
    }
    const damaged = listed
      .flatMap(({ states, records }) => [...states, ...records])
      .filter(({ file, sha256 }) => hashOf(files.get(file) as Uint8Array) !== sha256);
    if (damaged.length > 0) return refuse(...damaged.map(({ file }) => notItsHash(file)));
    const manifest: Manifest = { format: "glassdrum-archive", version: 1, projects: listed };
    return answer(
      zipOf(
        new Map([
          ["manifest.json", bytesOfText(`${JSON.stringify(manifest, null, 2)}\n`)],
          ["index.csv", bytesOfText(indexOf(manifest))],
          ...files,
        ]),
      ),
    );
  });

/**
 * Reads an archive in: all of it or nothing. A project that is here already and is the same stays as it is; one that differs is
 * added beside it.
 *
 * Problems: those of `filesOf` and `readManifest`, `archive-file-missing`, `archive-file-damaged`, and of the storage.
 */
export const importArchive = (context: LibraryContext, zip: Uint8Array): Promise<Outcome<readonly Imported[]>> =>
  withStorage(context, async () => {
    const files = filesOf(zip, { atMost: largestArchive });
    if (!files.ok) return files;
    const manifest = readManifest(files.value.get("manifest.json"));
    if (!manifest.ok) return manifest;
    const problems = fileProblems(manifest.value, files.value);
    if (problems.length > 0) return refuse(...problems);
    const imported: Imported[] = [];
    await context.db.transaction().execute(async (db) => {
      for (const project of manifest.value.projects)
        imported.push(await importProject({ ...context, db }, project, files.value));
    });
    return answer(imported);
  });

async function importProject(context: LibraryContext, project: ManifestProject, files: Files): Promise<Imported> {
  const { db } = context;
  const known = await db.selectFrom("project").select("id").where("id", "=", project.id).executeTakeFirst();
  const { title } = project;
  if (known !== undefined && (await holds(context, project))) return { id: project.id, title, as: "known" };
  const id = known === undefined ? project.id : context.newId();
  const { head, created, saved, removed } = project;
  await db
    .insertInto("project")
    .values({ id, title, head, created, saved, removed, origin: null, origin_state: null })
    .execute();
  for (const { number, parent, saved: at, says, name, file, sha256 } of project.states) {
    const text = textOfBytes(files.get(file) as Uint8Array);
    await db.insertInto("state").values({ project: id, number, parent, saved: at, says, name, text, sha256 }).execute();
    if (number === head) {
      const specimens = specimensOf(text).map((specimen) => ({ project: id, ...specimen }));
      if (specimens.length > 0) await db.insertInto("specimen").values(specimens).execute();
    }
  }
  for (const record of project.records) {
    const bytes = files.get(record.file) as Uint8Array;
    await db
      .insertInto("raw")
      .values({ sha256: record.sha256, size: bytes.length, bytes })
      .onConflict((c) => c.column("sha256").doNothing())
      .execute();
    const taken = await db.selectFrom("record").select("id").where("id", "=", record.id).executeTakeFirst();
    await db
      .insertInto("record")
      .values({
        id: taken === undefined ? record.id : context.newId(),
        project: id,
        name: record.name,
        sha256: record.sha256,
        added: record.added,
      })
      .execute();
  }
  return { id, title, as: known === undefined ? "added" : "beside" };
}

/** Whether everything that the archive says of a project is here: its states and its records may be more. */
async function holds({ db }: LibraryContext, project: ManifestProject): Promise<boolean> {
  const states = await db.selectFrom("state").select(["number", "sha256"]).where("project", "=", project.id).execute();
  const records = await db.selectFrom("record").select(["name", "sha256"]).where("project", "=", project.id).execute();
  const have = new Set([
    ...states.map(({ number, sha256 }) => `${number} ${sha256}`),
    ...records.map(({ name, sha256 }) => `${name} ${sha256}`),
  ]);
  return (
    project.states.every(({ number, sha256 }) => have.has(`${number} ${sha256}`)) &&
    project.records.every(({ name, sha256 }) => have.has(`${name} ${sha256}`))
  );
}

function fileProblems(manifest: Manifest, files: Files): Problem[] {
  return manifest.projects
    .flatMap(({ states, records }) => [...states, ...records])
    .flatMap(({ file, sha256 }) => {
      const bytes = files.get(file);
      if (bytes === undefined)
        return [
          {
            code: "archive-file-missing",
            path: [file],
            message: `The archive's manifest names ${file}, which is not in it.`,
          },
        ];
      return hashOf(bytes) === sha256 ? [] : [notItsHash(file)];
    });
}

const notItsHash = (file: string): Problem => ({
  code: "archive-file-damaged",
  path: [file],
  message: `${file} does not have the hash that was kept with it: it was changed or damaged. Nothing was taken over.`,
});

/** No folder, no drive, no dots that lead elsewhere. */
const safeName = (name: string): string => name.replace(/[^\p{L}\p{N} ._()+-]/gu, "_").replace(/^\.+/, "_") || "record";

function indexOf({ projects }: Manifest): string {
  const cell = (value: string | number) =>
    /[",\n\r]/.test(String(value)) ? `"${String(value).replaceAll('"', '""')}"` : String(value);
  const rows = projects.flatMap(({ id, title, states, records }) => [
    ...states.map(({ number, saved, says, file, sha256 }) => [
      id,
      title,
      "state",
      number,
      new Date(saved).toISOString(),
      says,
      file,
      sha256,
    ]),
    ...records.map(({ name, added, file, sha256 }) => [
      id,
      title,
      "record",
      "",
      new Date(added).toISOString(),
      name,
      file,
      sha256,
    ]),
  ]);
  const head = ["project", "title", "kind", "state", "time (UTC)", "says", "file", "sha256"];
  return [head, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}
