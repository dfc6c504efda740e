/**
 * Routes of the app's own server and the shapes they speak. All under /api, JSON unless said otherwise; docs/api.md has the table.
 *
 * A page starts with GET /api/project. It saves with POST /api/projects the first time (`opened: true` ties the project to the
 * file that the server was opened with) and with POST /api/projects/ID/states after that, always naming the state it works on:
 * where somebody else was first the answer says `conflict: true`, both states are kept, and POST /api/projects/ID/head chooses.
 * GET /api/changes (server-sent events) tells of every change at once, by another page or another program.
 * Every write carries the header `x-glassdrum-token` with the token of the page's <meta name="glassdrum-token">.
 * Without a library (full disk, damaged file …) its routes answer 503 with the reason; the page keeps its work and can download it.
 */
import type { Context, Hono } from "hono";
import type { Outcome, Problem } from "../core/problem.ts";
import type {
  History,
  Imported,
  ProjectChange,
  RecordRow,
  Saved,
  ShelfLine,
  StateLine,
  StoredProject,
} from "../store/shapes.ts";

export type { History, Imported, ProjectChange, RecordRow, Saved, ShelfLine, StateLine, StoredProject };

/** GET /api/project: the project that the server was opened with. */
export interface OpenedProject {
  /** Name of the file, without its folder; null for the demo and for standard input. */
  readonly name: string | null;
  /** The project's text: byte for byte as it was read, or as the library went on with it. */
  readonly text: string;
  /** Where the library has it; null: not yet. */
  readonly inLibrary: { readonly id: string; readonly state: number } | null;
  /** A state beside it that waits for a choice: the file was changed outside while the library had gone on. */
  readonly beside: number | null;
  /** SHA-256 of the file as it is now; null: no file. Goes with POST /api/file. */
  readonly fileHash: string | null;
}

/** GET /api/library */
export interface Library {
  /** Path of the library's file. */
  readonly file: string;
  readonly projects: readonly ShelfLine[];
}

/** POST /api/projects. Answer: Saved. */
export interface NewProject {
  readonly text: string;
  /** What was done, in words. */
  readonly says: string;
  /** It is the project that the server was opened with. */
  readonly opened?: boolean | undefined;
}

/** POST /api/projects/ID/states. Answer: Saved, status 200, `conflict` or not. */
export interface NewState {
  /** The state that the text was made from. */
  readonly base: number;
  readonly text: string;
  readonly says: string;
}

/** POST /api/projects/ID/head: that state is the one that counts. Answer: Saved; `conflict` where the head is no longer `base`. */
export interface ChosenHead {
  readonly number: number;
  readonly base: number;
}

/** POST /api/projects/ID/name. Answer: null. */
export interface StateName {
  readonly number: number;
  readonly name: string | null;
}

/** POST /api/projects/ID/away. Answer: null. */
export interface Away {
  readonly away: boolean;
}

/** POST /api/file: writes the project back to the file that the server was opened with. Answer: FileWritten. */
export interface FileText {
  readonly text: string;
  /** `fileHash` of the file as the page knows it; where it is another by now the answer is 409, `file-changed`. */
  readonly over: string;
}

export interface FileWritten {
  readonly fileHash: string;
}

/** One event of GET /api/changes, as JSON in its data. */
export type Change =
  | ({ readonly kind: "project" } & ProjectChange)
  /** The file that the server was opened with was written by another program. */
  | { readonly kind: "file"; readonly fileHash: string | null };

/** Every answer that is not what was asked for: status 4xx or 5xx. */
export interface Refused {
  readonly problems: readonly Problem[];
}

const statusOf: Readonly<Record<string, 404 | 409 | 413 | 503 | 500>> = {
  "no-such-project": 404,
  "no-such-state": 404,
  "no-such-record": 404,
  "file-changed": 409,
  "too-large": 413,
  "zip-too-large": 413,
  "state-damaged": 500,
  "record-damaged": 500,
  "library-locked": 503,
  "library-read-only": 503,
  "library-disk-error": 503,
  "library-damaged": 503,
  "library-not-opened": 503,
  "newer-library": 503,
  "disk-full": 503,
};

/** Status of a refusal: 422 where what was sent is at fault. */
export function refused(context: Context, problems: readonly Problem[]): Response {
  const status = problems.map(({ code }) => statusOf[code]).find((found) => found !== undefined) ?? 422;
  return context.json({ problems } satisfies Refused, status);
}

export function reply<T>(context: Context, outcome: Outcome<T>): Response {
  context.header("Cache-Control", "no-store");
  return outcome.ok ? context.json(outcome.value as never) : refused(context, outcome.problems);
}

/** The last route of /api. */
export function unknownRoute(routes: Hono): void {
  routes.all("*", (context) => {
    const problem: Problem = {
      code: "unknown-route",
      path: [],
      message: `${context.req.method} ${context.req.path} is nothing that this server does.`,
    };
    return context.json({ problems: [problem] } satisfies Refused, 404);
  });
}
