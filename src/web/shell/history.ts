/** The list of earlier projects: undo and redo are steps in it. */
import { type Accessor, batch, createMemo, createSignal } from "solid-js";
import type { Project } from "../../core/index.ts";

export interface Entry {
  readonly project: Project;
  /** What was done to come here: "Air gap 40 µm". */
  readonly says: string;
}

export interface History {
  /** Oldest first. */
  readonly entries: Accessor<readonly Entry[]>;
  /** Which of them is the present one. */
  readonly index: Accessor<number>;
  readonly project: Accessor<Project>;
  /** Adds a step after the present one; what had been undone is forgotten. */
  readonly push: (project: Project, says: string) => void;
  readonly go: (index: number) => void;
}

/** Steps that are kept. A project is some 10 kB. */
const most = 200;

export function createHistory(first: Project, says: string): History {
  const [entries, setEntries] = createSignal<readonly Entry[]>([{ project: first, says }]);
  const [index, setIndex] = createSignal(0);
  const project = createMemo(() => entries()[index()]?.project ?? first);
  return {
    entries,
    index,
    project,
    push: (changed, what) =>
      batch(() => {
        const next = [...entries().slice(0, index() + 1), { project: changed, says: what }].slice(-most);
        setEntries(next);
        setIndex(next.length - 1);
      }),
    go: (wanted) => setIndex(Math.min(Math.max(wanted, 0), entries().length - 1)),
  };
}
