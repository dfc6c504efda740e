/** The page's side of the app's server: every question that a page asks of the library, each with an outcome. */
import type { Outcome, Problem } from "../../core/index.ts";
import type {
  Change,
  ChosenHead,
  FileWritten,
  History,
  Imported,
  Library,
  NewProject,
  NewState,
  OpenedProject,
  Refused,
  Saved,
  StoredProject,
} from "../../server/api.ts";
import { shelfWords as words } from "../../words/en/shelf.ts";

/** This start of the server: it lets its own page write. */
export const token = document.querySelector<HTMLMetaElement>('meta[name="glassdrum-token"]')?.content ?? "";

/** Problems: `no-server`, and those that the server says. */
async function ask<T>(path: string, init?: RequestInit): Promise<Outcome<T>> {
  try {
    const response = await fetch(`/api${path}`, init);
    if (response.ok) return { ok: true, value: (await response.json()) as T, remarks: [] };
    const { problems } = (await response.json()) as Refused;
    return { ok: false, problems };
  } catch {
    return { ok: false, problems: [noServer] };
  }
}

/** Nothing answers at the address that this page came from. */
export const noServer: Problem = { code: "no-server", path: [], message: words.noServer };

const post = <T>(path: string, body: unknown): Promise<Outcome<T>> =>
  ask(path, {
    method: "POST",
    headers: { "content-type": "application/json", "x-glassdrum-token": token },
    body: JSON.stringify(body),
  });

const of = (id: string): string => `/projects/${encodeURIComponent(id)}`;

export const library = {
  opened: () => ask<OpenedProject>("/project"),
  shelf: () => ask<Library>("/library"),
  project: (id: string) => ask<StoredProject>(of(id)),
  history: (id: string) => ask<History>(`${of(id)}/states`),
  state: (id: string, number: number) => ask<StoredProject>(`${of(id)}/states/${number}`),
  add: (project: NewProject) => post<Saved>("/projects", project),
  save: (id: string, state: NewState) => post<Saved>(`${of(id)}/states`, state),
  choose: (id: string, head: ChosenHead) => post<Saved>(`${of(id)}/head`, head),
  name: (id: string, number: number, name: string | null) => post<null>(`${of(id)}/name`, { number, name }),
  away: (id: string, away: boolean) => post<null>(`${of(id)}/away`, { away }),
  /** Writes the opened file, if it still has the hash `over`. */
  writeFile: (text: string, over: string) => post<FileWritten>("/file", { text, over }),
  /** The file now holds the state that counts. */
  written: (id: string) => post<null>(`${of(id)}/written`, {}),
  /** Reads a ZIP, whole or not at all. */
  bringIn: (bytes: Blob) =>
    ask<readonly Imported[]>("/archive", { method: "POST", headers: { "x-glassdrum-token": token }, body: bytes }),
  /** Keeps a record's file under a project, as it came. */
  addRecord: (id: string, name: string, file: Blob) =>
    ask<unknown>(`${of(id)}/records?name=${encodeURIComponent(name)}`, {
      method: "POST",
      headers: { "x-glassdrum-token": token },
      body: file,
    }),
  /** Address of a ZIP: of one project, or of the whole library. */
  archiveOf: (id?: string): string => (id === undefined ? "/api/archive" : `/api${of(id)}/archive`),
};

/** Hears of every change, by another page or another program, until the function that it gives is called. */
export function hearChanges(heard: (change: Change) => void, connected: (is: boolean) => void): () => void {
  const source = new EventSource("/api/changes");
  source.addEventListener("ready", () => connected(true));
  source.onmessage = ({ data }) => heard(JSON.parse(String(data)) as Change);
  source.onerror = () => connected(false);
  return () => source.close();
}
