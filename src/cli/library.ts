/** The library as a verb sees it: `shelf:TITLE` or `shelf:ID` names a project in it, in the place of a FILE. */
import { answer, type Outcome, type Problem, refuse } from "../core/index.ts";
import { dataFolder } from "../store/folder.ts";
import type { ShelfLine } from "../store/shapes.ts";

const prefix = "shelf:";

export const namesShelf = (file: string): boolean => file.startsWith(prefix);

/** Folder of `--data`, said once for the whole command. */
let chosen: string | null = null;
export function useDataFolder(folder: string): void {
  chosen = folder;
}
export const folderInUse = (): string => chosen ?? dataFolder();

/**
 * The text of a project on the shelf, and its id.
 *
 * Problems: `no-such-project`, `several-projects`, and of the storage.
 */
export async function readShelf(name: string): Promise<Outcome<{ readonly id: string; readonly text: string }>> {
  const { openLibrary } = await import("../store/open.ts");
  const { readProject, shelf } = await import("../store/library.ts");
  const library = await openLibrary(folderInUse());
  if (!library.ok) return library;
  try {
    const lines = await shelf(library.value);
    if (!lines.ok) return lines;
    const found = pick(name.slice(prefix.length).trim(), lines.value);
    return found.ok ? await readProject(library.value, found.value.id) : found;
  } finally {
    await library.value.close();
  }
}

/**
 * The bytes of a record that the library keeps with a project on the shelf, by the name of its file.
 *
 * Problems: those of `readShelf`, `no-such-record`, `record-damaged`.
 */
export async function readShelfRecord(project: string, name: string): Promise<Outcome<Uint8Array>> {
  const kept = await readShelf(project);
  if (!kept.ok) return kept;
  const { openLibrary } = await import("../store/open.ts");
  const { readProject } = await import("../store/library.ts");
  const { readRecord } = await import("../store/records.ts");
  const library = await openLibrary(folderInUse());
  if (!library.ok) return library;
  try {
    const stored = await readProject(library.value, kept.value.id);
    if (!stored.ok) return stored;
    const row = stored.value.records.filter((record) => record.name === name).at(-1);
    if (row === undefined)
      return refuse({
        code: "no-such-record",
        path: [],
        message: `The library keeps no file ${name} with ${project}; it has ${stored.value.records.map((record) => record.name).join(", ") || "none"}. Needed: one of them.`,
      });
    const record = await readRecord(library.value, row.id);
    return record.ok ? answer(record.value.bytes) : record;
  } finally {
    await library.value.close();
  }
}

/** A new state of a project on the shelf, with the records that it names. Problems: those of `readShelf`, `addRecord` and `saveState`, `saved-beside`. */
export async function changeOnShelf(
  project: string,
  {
    text,
    says,
    records,
  }: {
    readonly text: string;
    readonly says: string;
    readonly records: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  },
): Promise<Outcome<null>> {
  const kept = await readShelf(project);
  if (!kept.ok) return kept;
  const { openLibrary } = await import("../store/open.ts");
  const { readProject } = await import("../store/library.ts");
  const { saveState } = await import("../store/states.ts");
  const { addRecord } = await import("../store/records.ts");
  const library = await openLibrary(folderInUse());
  if (!library.ok) return library;
  try {
    const { id } = kept.value;
    const before = await readProject(library.value, id);
    if (!before.ok) return before;
    for (const record of records) {
      const added = await addRecord(library.value, id, record);
      if (!added.ok) return added;
    }
    const saved = await saveState(library.value, id, { base: before.value.state, text, says });
    if (!saved.ok) return saved;
    if (!saved.value.conflict) return answer(null);
    return refuse({
      code: "saved-beside",
      path: [],
      message: `${project} was saved by somebody else meanwhile: this reading is kept beside it as state ${saved.value.state}. Choose one of them on the Shelf.`,
    });
  } finally {
    await library.value.close();
  }
}

/** Adds a project to the shelf; answers its id. Problems: those of `openLibrary` and `addProject`. */
export async function addToShelf(name: string, text: string): Promise<Outcome<{ readonly id: string }>> {
  const { openLibrary } = await import("../store/open.ts");
  const { addProject } = await import("../store/library.ts");
  const library = await openLibrary(folderInUse());
  if (!library.ok) return library;
  try {
    return await addProject(library.value, { text, says: `Made by the command as ${name}` });
  } finally {
    await library.value.close();
  }
}

/** Title of `shelf:TITLE`. */
export const shelfTitle = (name: string): string => name.slice(prefix.length).trim();

function pick(wanted: string, lines: readonly ShelfLine[]): Outcome<ShelfLine> {
  const present = lines.filter(({ removed }) => removed === null);
  const same = (a: string) => a.toLocaleLowerCase() === wanted.toLocaleLowerCase();
  const found = lines.filter(({ id }) => id === wanted);
  const named = found.length > 0 ? found : present.filter(({ title }) => same(title));
  if (named.length === 1) return answer(named[0] as ShelfLine);
  if (named.length > 1) return refuse(several(wanted, named));
  return refuse(none(wanted, present));
}

const listed = (lines: readonly ShelfLine[]): string =>
  lines.length === 0
    ? "The shelf is empty."
    : `On the shelf: ${lines
        .slice(0, 20)
        .map(({ title, id }) => `"${title}" (${id})`)
        .join(", ")}${lines.length > 20 ? ` and ${lines.length - 20} more` : ""}.`;

const none = (wanted: string, lines: readonly ShelfLine[]): Problem => ({
  code: "no-such-project",
  path: [],
  message: `The library in ${folderInUse()} has no project "${wanted}". ${listed(lines)}`,
});

const several = (wanted: string, lines: readonly ShelfLine[]): Problem => ({
  code: "several-projects",
  path: [],
  message: `${lines.length} projects are called "${wanted}"; name one by its id. ${listed(lines)}`,
});
