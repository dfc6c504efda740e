/**
 * The work on the table, one for all pages: the project and its past, what was typed and could not be taken, and the last
 * answers. Everything else follows. A page gets it from `useWork`.
 */
import { createContext, useContext } from "solid-js";
import { type Prediction, type Problem, type Project, pathText } from "../../core/index.ts";
import type { History } from "./history.ts";
import type { Questions } from "./questions.ts";

/** What stands in a field and is not in the project, with the reasons. */
export interface Draft {
  readonly text: string;
  readonly problems: readonly Problem[];
}

/** Where a typed value goes; null: what the file says there is taken out. */
export interface Target {
  readonly path: string;
  readonly value: string | null;
}

/** An answer and the project that it belongs to. */
export interface Answer {
  /** Sequence number of the change that it answers. */
  readonly id: number;
  readonly project: Project;
  readonly prediction: Prediction;
  /** Requirements whose numbers wait for the hand to rest: what is shown of them is that of the last rest. */
  readonly stale: readonly string[];
}

export type Freshness = "none" | "computing" | "current" | "old";

export interface Work
  extends Pick<Questions, "kept" | "damping" | "lookAtDamping" | "worker" | "crew" | "still" | "expectHand"> {
  /** The project as it stands, under a hand too. */
  readonly project: () => Project;
  /** Sequence number of its last change. */
  readonly asked: () => number;
  readonly history: History;
  /** Sequence number of the last change that was answered or refused. */
  readonly replied: () => number;
  /** The newest answer, during a drag too. */
  readonly answer: () => Answer | null;
  /** The answer at the last rest: what charts draw their axes for. */
  readonly rested: () => Answer | null;
  /** "old": the numbers shown do not belong to what is typed. */
  readonly freshness: () => Freshness;
  readonly drafts: () => Readonly<Record<string, Draft>>;
  /** Why the project as it stands has no answer. */
  readonly failure: () => readonly Problem[];
  /** Takes a typed value if it is good. `settled`: the hand has left the field, so that a bad value is said and kept. */
  readonly type: (path: string, text: string, target: Target, settled: boolean) => void;
  /** Whether a hand holds a part: then axes and scales stand still. */
  readonly held: () => boolean;
  readonly grab: () => void;
  /** A value [SI] follows the hand that holds it. What can't be written stays undone. */
  readonly drag: (path: string, value: number) => void;
  /** The same for several values at once, with what the step will be called. */
  readonly dragTo: (project: Project, says: string) => void;
  /** The hand lets go: one step of the history. */
  readonly release: () => void;
  /** One step by key: a change and its step of the history. */
  readonly step: (path: string, value: number) => void;
  /** Another project in place of this one, as a step of the history. */
  readonly replace: (project: Project, says: string) => void;
  /** To an earlier or later project of the history. */
  readonly go: (index: number) => void;
  /** Name of the file that it came from; null: none. */
  readonly name: () => string | null;
  /** Another project in place of this one, from a file of that name. `before` is called before anybody hears of it. */
  readonly open: (project: Project, name: string | null, before?: (opening: number) => void) => void;
}

export const WorkContext = createContext<Work>();

/** The open project. Only inside the app's pages. */
export function useWork(): Work {
  const work = useContext(WorkContext);
  if (work === undefined) throw new Error("no project is open around this page");
  return work;
}

/** Problems that belong to a field: those at its path, or inside it. */
export function problemsAt(path: string, problems: readonly Problem[]): readonly Problem[] {
  return problems.filter((problem) => {
    const where = pathText(problem.path);
    return where === path || where.startsWith(`${path}.`) || where.startsWith(`${path}[`);
  });
}
