/** What the Bench knows: the project, what was typed and could not be taken, and the last answer. Everything else follows. */
import { batch, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import { changeValue, type Prediction, type Problem, type Project, pathText, projectText } from "../../core/index.ts";
import { type Asker, asker } from "../../worker/asker.ts";
import { startBrowserThread } from "../../worker/browserPort.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";

/** What stands in a field and is not in the project, with the reasons. */
export interface Draft {
  readonly text: string;
  readonly problems: readonly Problem[];
}

/** An answer and the project that it belongs to. */
export interface Answer {
  /** Counts up with every question. */
  readonly id: number;
  readonly project: Project;
  readonly prediction: Prediction;
}

export type Freshness = "none" | "computing" | "current" | "old";

export interface BenchState {
  readonly project: () => Project;
  readonly answer: () => Answer | null;
  /** "old": the numbers shown do not belong to what is typed. */
  readonly freshness: () => Freshness;
  readonly drafts: () => Readonly<Record<string, Draft>>;
  /** Why the project as it stands has no answer. */
  readonly failure: () => readonly Problem[];
  /** Takes a typed value if it is good. `settled`: the hand has left the field, so that a bad value is said and kept. */
  readonly type: (path: string, text: string, target: { path: string; value: string }, settled: boolean) => void;
}

export function createBench(first: Project): BenchState {
  const [project, setProject] = createSignal(first);
  const [drafts, setDrafts] = createSignal<Readonly<Record<string, Draft>>>({});
  const [answer, setAnswer] = createSignal<Answer | null>(null);
  const [failure, setFailure] = createSignal<readonly Problem[]>([]);
  const [failed, setFailed] = createSignal<Project | null>(null);
  const worker: Asker<WorkerQuestions> = asker<WorkerQuestions>(startBrowserThread);
  onCleanup(() => worker.close());

  createEffect(
    on(project, async (asked) => {
      const reply = await worker.ask("prediction", "predict", { text: projectText(asked) });
      if (reply.kind === "answer")
        batch(() => {
          setAnswer({ id: reply.id, project: asked, prediction: reply.value });
          setFailed(null);
          setFailure([]);
        });
      if (reply.kind === "refused")
        batch(() => {
          setFailed(asked);
          setFailure(reply.problems);
        });
    }),
  );

  const freshness = createMemo<Freshness>(() => {
    const shown = answer();
    if (failed() === project()) return shown === null ? "none" : "old";
    if (Object.keys(drafts()).length > 0) return shown === null ? "none" : "old";
    return shown?.project === project() ? "current" : "computing";
  });

  function type(path: string, text: string, target: { path: string; value: string }, settled: boolean): void {
    const changed = changeValue(project(), target.path, target.value);
    if (!changed.ok && !settled) return;
    batch(() => {
      const { [path]: _, ...others } = drafts();
      setDrafts(changed.ok ? others : { ...others, [path]: { text, problems: changed.problems } });
      if (changed.ok && changed.value.text !== project().text) setProject(changed.value);
    });
  }

  return { project, answer, freshness, drafts, failure, type };
}

/** Problems that belong to a field: those at its path, or inside it. */
export function problemsAt(path: string, problems: readonly Problem[]): readonly Problem[] {
  return problems.filter((problem) => {
    const where = pathText(problem.path);
    return where === path || where.startsWith(`${path}.`) || where.startsWith(`${path}[`);
  });
}
