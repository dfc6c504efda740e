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

/** Adds a project to the shelf; answers its id. Problems: `no-title`, those of `addProject`. */
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
