/** The list of earlier projects: undo and redo are steps in it. */
import { type Accessor, batch, createMemo, createSignal } from "solid-js";
import type { Project } from "../../core/index.ts";

export interface Entry {
  readonly project: Project;
  /** What was done to come here: "Air gap 40 µm". */
  readonly says: string;
  /** Which of the projects that were opened in this page it belongs to, counted from 0. */
  readonly opening: number;
}

export interface History {
  /** Oldest first. */
  readonly entries: Accessor<readonly Entry[]>;
  /** Which of them is the present one. */
  readonly index: Accessor<number>;
  readonly project: Accessor<Project>;
  readonly says: Accessor<string>;
  readonly opening: Accessor<number>;
  /** Adds a step after the present one; what had been undone is forgotten. */
  readonly push: (project: Project, says: string) => void;
  /** The same, with the first step of another project; gives its number. `before` is called before anybody hears of it. */
  readonly open: (project: Project, says: string, before?: (opening: number) => void) => number;
  readonly go: (index: number) => void;
}

/** Steps that are kept. A project is some 10 kB. */
const most = 200;

export function createHistory(first: Project, says: string): History {
  const [entries, setEntries] = createSignal<readonly Entry[]>([{ project: first, says, opening: 0 }]);
  const [index, setIndex] = createSignal(0);
  const entry = createMemo(() => entries()[index()] ?? { project: first, says, opening: 0 });
  const project = createMemo(() => entry().project);
  let openings = 1;
  const add = (changed: Project, what: string, opening: number) =>
    batch(() => {
      const next = [...entries().slice(0, index() + 1), { project: changed, says: what, opening }].slice(-most);
      setEntries(next);
      setIndex(next.length - 1);
    });
  return {
    entries,
    index,
    project,
    says: () => entry().says,
    opening: () => entry().opening,
    push: (changed, what) => add(changed, what, entry().opening),
    open: (opened, what, before) => {
      const opening = openings++;
      before?.(opening);
      add(opened, what, opening);
      return opening;
    },
    go: (wanted) => setIndex(Math.min(Math.max(wanted, 0), entries().length - 1)),
  };
}
