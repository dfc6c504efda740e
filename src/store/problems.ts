/** What the database or the disk said, as a problem that a person can act on. */
import type { Problem } from "../core/problem.ts";

/** Primary result codes of SQLite (sqlite.org/rescode.html). */
const sqlite = { busy: 5, locked: 6, readOnly: 8, ioError: 10, corrupt: 11, full: 13, cantOpen: 14, notADatabase: 26 };

const codes: Readonly<Record<number, string>> = {
  [sqlite.busy]: "library-locked",
  [sqlite.locked]: "library-locked",
  [sqlite.readOnly]: "library-read-only",
  [sqlite.ioError]: "library-disk-error",
  [sqlite.corrupt]: "library-damaged",
  [sqlite.full]: "disk-full",
  [sqlite.cantOpen]: "library-not-opened",
  [sqlite.notADatabase]: "library-damaged",
};

const systemCodes: Readonly<Record<string, string>> = {
  ENOSPC: "disk-full",
  EDQUOT: "disk-full",
  EROFS: "library-read-only",
  EACCES: "library-not-opened",
  EPERM: "library-not-opened",
  ENOTDIR: "library-not-opened",
  EEXIST: "library-not-opened",
};

const words: Readonly<Record<string, string>> = {
  "library-locked":
    "Another program holds the library's file and does not let go. Close it, then try again; what is on the page is kept there.",
  "library-read-only":
    "The library's file or folder can be read but not written. Give yourself the right to write there, or start with --data and another folder; what is on the page is kept there.",
  "library-disk-error":
    "The disk did not do what was asked. Save the project as a file in another place, then check the disk.",
  "library-damaged":
    "The library's file is damaged or is no library. Nothing was changed in it. Move it away and start again, or start with --data and another folder; saved archives can be read in.",
  "disk-full":
    "The disk is full: nothing was saved, and nothing that was saved before is lost. Make room and try again, or save the project as a file in another place.",
  "library-not-opened":
    "The library's file can't be opened or made. Check the folder, or start with --data and another one.",
};

/** A refusal with its reason, or null where the error is a fault of ours. */
export function storageProblem(error: unknown, file: string): Problem | null {
  const code = codeOf(error);
  if (code === null) return null;
  const said = error instanceof Error ? error.message : String(error);
  return { code, path: [], message: `${words[code]} Library: ${file} (${said}).` };
}

function codeOf(error: unknown): string | null {
  if (!(error instanceof Error)) return null;
  const { errcode, code } = error as { readonly errcode?: unknown; readonly code?: unknown };
  // An extended code carries the primary one in its low byte.
  if (typeof errcode === "number") return codes[errcode & 0xff] ?? null;
  return typeof code === "string" ? (systemCodes[code] ?? null) : null;
}

export const noSuchProject = (id: string): Problem => ({
  code: "no-such-project",
  path: [],
  message: `There is no project ${JSON.stringify(id.slice(0, 80))} in the library.`,
});

export const noSuchState = (id: string, number: number): Problem => ({
  code: "no-such-state",
  path: [],
  message: `The project ${id} has no state ${number}.`,
});

export const damaged = (id: string, number: number): Problem => ({
  code: "state-damaged",
  path: [],
  message: `State ${number} of the project ${id} is not what was saved: its hash differs. The other states are whole; look at the line of time.`,
});
