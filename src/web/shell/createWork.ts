/** How the work on the table is kept: what is typed and dragged becomes projects, each of them a question, each answer its own project. */
import { batch, createEffect, createMemo, createSignal, on } from "solid-js";
import {
  changeValue,
  findPath,
  type Prediction,
  type Problem,
  type Project,
  removeValue,
  type Watched,
} from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { changeWords } from "./changeWords.ts";
import { createHistory } from "./history.ts";
import { type Asked, createQuestions } from "./questions.ts";
import type { Answer, Draft, Freshness, Target, Work } from "./work.ts";

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
