/**
 * The work on the table, one for all pages: the project and its past, what was typed and could not be taken, and the last
 * answers. Everything else follows. A page gets it from `useWork`.
 */
import { batch, createContext, createEffect, createMemo, createSignal, on, useContext } from "solid-js";
import {
  changeValue,
  findPath,
  type PartKey,
  type Prediction,
  type Problem,
  type Project,
  partsToAdd,
  pathText,
  removeValue,
  type Watched,
} from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { createHistory, type History } from "./history.ts";
import { type Asked, createQuestions, type Questions } from "./questions.ts";
import { isThere, valueText } from "./valueText.ts";

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

/** Digits of a value that was dragged. */
const draggedDigits = 6;

export function createWork(first: Project, firstName: string | null): Work {
  const history = createHistory(first, words.opened);
  /** What a hand or a half-typed field makes of the present step; null: nothing. */
  const [moving, setMoving] = createSignal<{ project: Project; says: () => string } | null>(null);
  const project = createMemo(() => moving()?.project ?? history.project());
  const [held, setHeld] = createSignal(false);
  const [drafts, setDrafts] = createSignal<Readonly<Record<string, Draft>>>({});
  const [asked, setAsked] = createSignal(1);
  const [replied, setReplied] = createSignal(0);
  const [answer, setAnswer] = createSignal<Answer | null>(null);
  const [rested, setRested] = createSignal<Answer | null>(null);
  /** Of the files that projects were opened from. */
  const [names, setNames] = createSignal<ReadonlyMap<number, string | null>>(new Map([[0, firstName]]));
  const [failed, setFailed] = createSignal<{ project: Project; problems: readonly Problem[] } | null>(null);
  const questions = createQuestions({
    project,
    held,
    answered: (id, of, prediction) =>
      batch(() => {
        const known: Answer = { id, project: of, prediction, stale: [] };
        setReplied(id);
        setAnswer(known);
        setRested(known);
        setFailed(null);
      }),
    watched: (id, of, watched) =>
      batch(() => {
        setReplied(id);
        const before = rested()?.prediction;
        if (before !== undefined) setAnswer({ id, project: of, ...laidOver(before, watched) });
        setFailed(null);
      }),
    refused: (id, of, problems) =>
      batch(() => {
        setReplied(id);
        setFailed({ project: of, problems });
      }),
  });

  /** What was asked for last. */
  let last: Asked = { project: first, hand: null };
  function ask(of: Asked): void {
    last = of;
    setAsked(asked() + 1);
    questions.ask(asked(), of);
  }
  createEffect(
    on(
      project,
      (changed) => {
        if (changed !== last.project) ask({ project: changed, hand: null });
      },
      { defer: true },
    ),
  );
  questions.ask(asked(), last);

  const freshness = createMemo<Freshness>(() => {
    const shown = answer();
    const old = shown === null ? "none" : "old";
    if (failed()?.project === project() || Object.keys(drafts()).length > 0) return old;
    const exact = held() || rested()?.project === project();
    return exact && shown?.project === project() ? "current" : "computing";
  });

  function settle(): void {
    const present = moving();
    batch(() => {
      setMoving(null);
      if (present !== null && present.project.text !== history.project().text)
        history.push(present.project, present.says());
    });
  }

  function type(path: string, text: string, target: Target, settled: boolean): void {
    const changed =
      target.value === null ? removeValue(project(), target.path) : changeValue(project(), target.path, target.value);
    if (!changed.ok && !settled) return;
    batch(() => {
      const { [path]: _, ...others } = drafts();
      setDrafts(changed.ok ? others : { ...others, [path]: { text, problems: changed.problems } });
      if (changed.ok && changed.value.text !== project().text)
        setMoving({ project: changed.value, says: () => changeWords(changed.value, path) });
      if (settled) settle();
    });
  }

  function drag(path: string, value: number): void {
    const found = findPath(path);
    const changed = found.ok ? found.value.write(project(), value, { digits: draggedDigits }) : found;
    if (!changed.ok || changed.value.text === project().text) return;
    const read = found.ok ? found.value.read(changed.value) : found;
    // The thread begins before the page draws. As long as the hand moves the same value, all else stands in the same project.
    if (held() && read.ok) {
      const base = last.hand?.held.path === path ? last.hand.base : project();
      ask({ project: changed.value, hand: { base, held: { path, value: read.value } } });
    }
    setMoving({ project: changed.value, says: () => changeWords(changed.value, path) });
  }

  function undraft(path: string): void {
    const { [path]: _, ...others } = drafts();
    setDrafts(others);
  }

  const replace = (changed: Project, says: string): void =>
    batch(() => {
      setMoving(null);
      setDrafts({});
      history.push(changed, says);
    });

  return {
    project,
    asked,
    history,
    replied,
    answer,
    rested,
    freshness,
    drafts,
    // Under a hand the last ones stay in sight until the next answer.
    failure: () => (rested()?.project === project() ? [] : (failed()?.problems ?? [])),
    kept: questions.kept,
    damping: questions.damping,
    lookAtDamping: questions.lookAtDamping,
    worker: questions.worker,
    crew: questions.crew,
    still: questions.still,
    expectHand: questions.expectHand,
    name: () => names().get(history.opening()) ?? null,
    open: (opened, from, before) =>
      batch(() => {
        setMoving(null);
        setDrafts({});
        const called = from ?? opened.file.title ?? words.untitled;
        const opening = history.open(opened, `${words.openedFile} ${called}`, before);
        setNames(new Map([...names(), [opening, from]]));
      }),
    type,
    held,
    grab: () => setHeld(true),
    drag: (path, value) =>
      batch(() => {
        undraft(path);
        drag(path, value);
      }),
    dragTo: (changed, says) => {
      if (changed.text === project().text) return;
      if (held()) ask({ project: changed, hand: null });
      batch(() => {
        setDrafts({});
        setMoving({ project: changed, says: () => says });
      });
    },
    release: () => {
      batch(() => {
        setHeld(false);
        settle();
      });
      // Under the hand answers were quick ones; at rest the exact one is shown.
      if (rested()?.project !== project() && failed()?.project !== project()) {
        last = { project: project(), hand: null };
        questions.ask(asked(), last);
      }
    },
    step: (path, value) =>
      batch(() => {
        undraft(path);
        drag(path, value);
        settle();
      }),
    replace,
    go: (index) =>
      batch(() => {
        settle();
        setDrafts({});
        history.go(index);
      }),
  };
}

/** What a hand moves over all the rest of the last whole answer. */
function laidOver(before: Prediction, watched: Watched): Pick<Answer, "prediction" | "stale"> {
  const waits = watched.verdict.filter(({ got }) => got === null).map(({ requirement }) => requirement);
  const verdict = watched.verdict.map((line) =>
    line.got === null ? (before.verdict.find(({ requirement }) => requirement === line.requirement) ?? line) : line,
  );
  return { prediction: { ...before, ...watched, verdict }, stale: waits };
}

/** Parts that come and go as a whole, by their path. */
const partNames: ReadonlyMap<string, string> = new Map([
  ...Object.entries(partsToAdd).map(([key, { path }]) => [path, words.partNames[key as PartKey]] as const),
  ["microphone.back", words.wholeBack],
]);

/** "Air gap 40 um": what a step did, in the words of the file. */
function changeWords(project: Project, path: string): string {
  const found = findPath(path);
  const label = found.ok ? found.value.label : path.replace(/^microphone\./, "");
  if (path.endsWith(".backPlate")) return `${words.wall.label}: ${valueText(project, path)}`;
  if (/\.front\.holes\[\d+\]$/.test(path)) return words.frontHoles(project.file.microphone?.front?.holes?.length ?? 0);
  const part = partNames.get(path);
  if (part !== undefined) return isThere(project, path) ? words.partAdded(part) : words.partTaken(part);
  const value = valueText(project, path);
  return value === "" ? label : `${label} ${value}`;
}

/** Problems that belong to a field: those at its path, or inside it. */
export function problemsAt(path: string, problems: readonly Problem[]): readonly Problem[] {
  return problems.filter((problem) => {
    const where = pathText(problem.path);
    return where === path || where.startsWith(`${path}.`) || where.startsWith(`${path}[`);
  });
}
