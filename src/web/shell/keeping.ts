/**
 * Keeps the work in the library: every step of the history is saved as a state, one after the other, on top of the state that it
 * was made from. What somebody else saved meanwhile is taken over where nothing of ours is lost by that; else both are shown.
 */
import { createEffect, createSignal, on, onCleanup, untrack } from "solid-js";
import { loadProject, type Outcome, type Problem, projectText } from "../../core/index.ts";
import type { OpenedProject, Saved } from "../../server/api.ts";
import { shelfWords as words } from "../../words/en/shelf.ts";
import { hearChanges, library, noServer, token } from "./library.ts";
import type { Work } from "./work.ts";

export interface Keeping {
  /** "apart": not in the library, because nothing was changed yet. */
  readonly state: () => "apart" | "keeping" | "kept" | "failed" | "conflict";
  /** When it was last kept [ms since 1970]; null: not by this page. */
  readonly at: () => number | null;
  /** Where the library has the project on the table; null: nowhere yet. */
  readonly id: () => string | null;
  readonly problems: () => readonly Problem[];
  /** Two states that wait for a choice. */
  readonly conflict: () => { readonly mine: number; readonly theirs: number } | null;
  readonly choose: (which: "mine" | "theirs") => Promise<void>;
  /** Keeps the project as it stands, also where nothing was changed. */
  readonly keep: () => Promise<void>;
  /** Puts a project of the library on the table; a state of it as the next step. */
  readonly open: (id: string, state?: number) => Promise<readonly Problem[]>;
  /** The file that the server was opened with, while its project lies on the table; null: none. */
  readonly file: () => string | null;
  /** Writes the project back to it, unless another program wrote it meanwhile. */
  readonly writeFile: () => Promise<void>;
  /** Counts the changes that were heard of: whoever lists the library reads it anew. */
  readonly changes: () => number;
}

/** What is known of one project that was opened in this page. */
interface Kept {
  id: string | null;
  state: number;
  /** The text that the library has; null: none. */
  text: string | null;
  /** It is the project that the server was opened with. */
  readonly first: boolean;
}

/** Where a reload of this page finds its project again; another start of the server begins anew. */
const returnKey = `glassdrum.table.${token.slice(0, 12)}`;
export const lastOpened = (): string | null => sessionStorage.getItem(returnKey);

export function createKeeping(work: Work, opened: OpenedProject): Keeping {
  const known = new Map<number, Kept>();
  known.set(0, {
    id: opened.inLibrary?.id ?? null,
    state: opened.inLibrary?.state ?? 0,
    text: opened.text,
    first: true,
  });
  const present = (): Kept => {
    const opening = work.history.opening();
    const found = known.get(opening) ?? { id: null, state: 0, text: null, first: false };
    known.set(opening, found);
    return found;
  };
  const [id, setId] = createSignal(known.get(0)?.id ?? null);
  const [at, setAt] = createSignal<number | null>(null);
  const [busy, setBusy] = createSignal(false);
  const [problems, setProblems] = createSignal<readonly Problem[]>([]);
  const [changes, setChanges] = createSignal(0);
  const [conflict, setConflict] = createSignal<{ mine: number; theirs: number } | null>(
    opened.inLibrary !== null && opened.beside !== null
      ? { mine: opened.inLibrary.state, theirs: opened.beside }
      : null,
  );
  /** Heads that were heard of while a save of ours was out. */
  let heard: { id: string; head: number } | null = null;

  const text = () => projectText(work.history.project());
  const unkept = () => present().text !== text();

  function noted(kept: Kept, saved: Saved, of: string): void {
    kept.id = saved.id;
    kept.state = saved.state;
    kept.text = of;
    setId(saved.id);
    setAt(Date.now());
    sessionStorage.setItem(returnKey, saved.id);
    if (saved.conflict) setConflict({ mine: saved.state, theirs: saved.head });
  }

  async function save(): Promise<void> {
    const kept = present();
    // What was opened comes first, so that its line of time begins there.
    const beginning = kept.id === null && kept.text !== null ? kept.text : null;
    const of = beginning ?? text();
    const says = beginning === null ? work.history.says() : words.asOpened;
    const reply: Outcome<Saved> =
      kept.id === null
        ? await library.add({ text: of, says, opened: kept.first })
        : await library.save(kept.id, { base: kept.state, text: of, says });
    if (reply.ok) noted(kept, reply.value, of);
    else setProblems(reply.problems);
  }

  /** One save after the other, until nothing is left to keep. */
  async function pump(always = false): Promise<void> {
    if (busy()) return;
    setBusy(true);
    setProblems([]);
    let first = always;
    while ((first || unkept()) && problems().length === 0 && conflict() === null) {
      first = false;
      await save();
    }
    setBusy(false);
    if (heard !== null) await follow(heard.id, heard.head);
  }
  createEffect(
    on(
      () => work.history.project(),
      () => {
        const kept = present();
        setId(kept.id);
        if (untrack(unkept)) void pump();
      },
      { defer: true },
    ),
  );

  /** Takes over what somebody else saved, where nothing of ours is unkept. */
  async function follow(changed: string, head: number): Promise<void> {
    const kept = present();
    if (busy()) {
      heard = { id: changed, head };
      return;
    }
    heard = null;
    if (kept.id !== changed || head === kept.state || conflict() !== null || unkept()) return;
    const theirs = await library.project(changed);
    if (!theirs.ok || unkept() || theirs.value.state === kept.state) return;
    take(theirs.value.text, theirs.value.state, words.changedElsewhere);
  }

  /** A text that the library has already, as the next step of the history. */
  function take(of: string, state: number, says: string): readonly Problem[] {
    const loaded = loadProject(of);
    if (!loaded.ok) return loaded.problems;
    const kept = present();
    kept.state = state;
    kept.text = projectText(loaded.value);
    work.replace(loaded.value, says);
    return [];
  }

  const [fileHash, setFileHash] = createSignal(opened.fileHash);
  /** The file was written by another program: the server has put it on the line of time, on top or beside. */
  async function fileChanged(): Promise<void> {
    if (!present().first) return;
    const now = await library.opened();
    if (!now.ok) return void setProblems(now.problems);
    const { inLibrary, beside, text: written } = now.value;
    setFileHash(now.value.fileHash);
    if (inLibrary === null) return void (unkept() || written === text() || take(written, 0, words.fileChanged));
    if (beside !== null) setConflict({ mine: inLibrary.state, theirs: beside });
    else await follow(inLibrary.id, inLibrary.state);
  }

  const [gone, setGone] = createSignal(false);
  const stop = hearChanges(
    (change) => {
      setChanges(changes() + 1);
      if (change.kind === "project") void follow(change.id, change.head);
      else if (change.fileHash !== fileHash()) void fileChanged();
    },
    (is) => setGone(!is),
  );
  onCleanup(stop);
  /** The browser asks before a page goes that holds what nothing else does. */
  const leave = (event: BeforeUnloadEvent) => {
    if (present().id !== null && unkept()) event.preventDefault();
  };
  window.addEventListener("beforeunload", leave);
  onCleanup(() => window.removeEventListener("beforeunload", leave));

  return {
    state: () => {
      if (conflict() !== null) return "conflict";
      if (problems().length > 0 || gone()) return "failed";
      if (busy()) return "keeping";
      return id() === null ? "apart" : "kept";
    },
    at,
    id,
    problems: () => (gone() && problems().length === 0 ? [noServer] : problems()),
    conflict,
    changes,
    file: () => (fileHash() !== null && work.history.opening() === 0 ? opened.name : null),
    writeFile: async () => {
      const hash = fileHash();
      if (hash === null) return;
      const written = await library.writeFile(text(), hash);
      if (!written.ok) return void setProblems(written.problems);
      setFileHash(written.value.fileHash);
      const kept = present();
      if (kept.id !== null) await library.written(kept.id);
      setAt(Date.now());
    },
    keep: () => pump(true),
    choose: async (which) => {
      const kept = present();
      const both = conflict();
      if (both === null || kept.id === null) return;
      const wanted = which === "mine" ? both.mine : both.theirs;
      const chosen = await library.choose(kept.id, { number: wanted, base: both.theirs });
      const state = chosen.ok ? await library.project(kept.id) : chosen;
      if (!state.ok) return void setProblems(state.problems);
      setConflict(null);
      setProblems([]);
      if (which === "theirs") take(state.value.text, state.value.state, words.changedElsewhere);
      else kept.state = state.value.state;
      await pump();
    },
    open: async (wanted, state) => {
      const found = state === undefined ? await library.project(wanted) : await library.state(wanted, state);
      if (!found.ok) return found.problems;
      const loaded = loadProject(found.value.text);
      if (!loaded.ok) return loaded.problems;
      if (state !== undefined && present().id === wanted) {
        work.replace(loaded.value, words.goneBack(state));
        return [];
      }
      const head = state === undefined ? found : await library.project(wanted);
      if (!head.ok) return head.problems;
      work.open(loaded.value, null, (opening) =>
        known.set(opening, {
          id: wanted,
          state: head.value.state,
          text: projectText(loaded.value) === head.value.text ? head.value.text : null,
          first: false,
        }),
      );
      setId(wanted);
      sessionStorage.setItem(returnKey, wanted);
      return [];
    },
  };
}
