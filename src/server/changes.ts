/** Tells every open page what changed: in the library, by this program or another, and in the opened file. */
import type { Context } from "hono";
import { streamSSE } from "hono/streaming";
import { createWatch } from "../store/changes.ts";
import type { OpenLibrary } from "../store/open.ts";
import type { Change } from "./api.ts";
import { fileHashOf, type Source } from "./openedProject.ts";

export interface Changes {
  /** GET /api/changes: server-sent events, each a `Change`. */
  readonly stream: (context: Context) => Response;
  /** Looks at once; after a write of our own. */
  readonly look: () => Promise<void>;
  readonly stop: () => void;
}

/** How often other programs' work is looked for [ms]: at once, for a person. */
const interval = 250;

export function createChanges(library: OpenLibrary | null, source: Source): Changes {
  const listeners = new Set<(change: Change) => void>();
  const watch = library === null ? null : createWatch(library);
  let version = library?.outsideVersion() ?? 0;
  let fileHash: string | null | undefined;
  let busy: Promise<void> = Promise.resolve();
  const tell = (change: Change) => {
    for (const listener of listeners) listener(change);
  };

  async function lookNow(always: boolean): Promise<void> {
    const hash = await fileHashOf(source);
    if (fileHash !== undefined && hash !== fileHash) tell({ kind: "file", fileHash: hash });
    fileHash = hash;
    if (library === null || watch === null) return;
    const found = library.outsideVersion();
    if (!always && found === version) return;
    version = found;
    for (const change of await watch()) tell({ kind: "project", ...change });
  }
  /** One look after the other; a disk that fails now is told by the next request that needs it. */
  const look = (always = true) => {
    busy = busy.then(() => lookNow(always)).catch(() => {});
    return busy;
  };

  // The first look learns what is there already.
  void look();
  const timer = setInterval(() => void look(false), interval);
  timer.unref();

  return {
    look: () => look(),
    stop: () => clearInterval(timer),
    stream: (context) =>
      streamSSE(context, async (stream) => {
        await new Promise<void>((done) => {
          const listener = (change: Change) => void stream.writeSSE({ data: JSON.stringify(change) });
          listeners.add(listener);
          stream.onAbort(() => {
            listeners.delete(listener);
            done();
          });
          void stream.writeSSE({ event: "ready", data: "" });
        });
      }),
  };
}
