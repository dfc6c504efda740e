/**
 * How a page asks the worker for a task. The question is a function of the project; it is asked anew when that changes,
 * and only the answer to the latest one counts:
 *
 *     const work = useWork();
 *     const spectrum = taskAnswer("noise", () => ({ text: projectText(work.project()) }));
 *     spectrum.value()   // the newest answer, also while a newer question is out; null before the first
 *     spectrum.state()   // "waiting" | "computing" | "current" | "old" | "refused"
 *
 * The task's name, input and value stand in `worker/tasks.ts` (`WorkerQuestions`): a new task is one entry there.
 * It runs on the thread for what takes long, so that a hand on the Bench never waits for it; nothing is asked while a
 * hand holds a part, nor before the first answer is shown. null in place of a question: nothing is asked.
 * Answers are remembered for a while: coming back to a page shows them at once.
 */
import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { Problem } from "../../core/index.ts";
import type { Reply, Step, Urgency } from "../../worker/protocol.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";
import { useWork } from "./work.ts";

export interface TaskAnswer<Value> {
  readonly value: Accessor<Value | null>;
  /** Remarks of that answer. */
  readonly remarks: Accessor<readonly Problem[]>;
  /** Why the latest question has no answer. */
  readonly problems: Accessor<readonly Problem[]>;
  /** How far the question that is out has come. */
  readonly step: Accessor<Step<Value> | null>;
  /** "old": the value belongs to an earlier question, and a newer one is out. */
  readonly state: Accessor<"waiting" | "computing" | "current" | "old" | "refused">;
}

interface Known<Value> {
  readonly question: string;
  readonly value: Value;
  readonly remarks: readonly Problem[];
}

/** Answers that are remembered, the oldest forgotten first. */
const remembered = new Map<string, Known<unknown>>();
const most = 24;

export function taskAnswer<Name extends keyof WorkerQuestions>(
  task: Name,
  question: () => WorkerQuestions[Name]["input"] | null,
  /** Two questions of one task on a page need two channels. */
  channel: string = task,
  /** "refine" goes before what other pages compute in the background. */
  urgency: Urgency = "batch",
): TaskAnswer<WorkerQuestions[Name]["value"]> {
  const { worker } = useWork();
  return answerOf(task, question, {
    ask: (input, onStep) => worker.ask(channel, task, input, { urgency, onStep }),
    stop: () => worker.stop(channel),
  });
}

/** How a question is put to one thread or to many. */
export interface Way<Input, Value> {
  readonly ask: (input: Input, onStep: (step: Step<Value>) => void) => Promise<Reply<Value>>;
  readonly stop: () => void;
}

/** The answer to a question, whatever way it is asked. Answers are remembered under the task's name. */
export function answerOf<Input, Value>(
  task: string,
  question: () => Input | null,
  { ask, stop }: Way<Input, Value>,
): TaskAnswer<Value> {
  const work = useWork();
  const [known, setKnown] = createSignal<Known<Value> | null>(null);
  const [refused, setRefused] = createSignal<{ question: string; problems: readonly Problem[] } | null>(null);
  const [step, setStep] = createSignal<Step<Value> | null>(null);
  const wanted = createMemo<string | null>((before) => {
    if (work.still() === null || work.held()) return before;
    const input = question();
    return input === null ? null : JSON.stringify(input);
  }, null);
  createEffect(
    on(wanted, async (asked) => {
      setStep(null);
      if (asked === null) return stop();
      const key = `${task} ${asked}`;
      // Only answers of this task are kept under its name.
      const again = remembered.get(key) as Known<Value> | undefined;
      if (again !== undefined) {
        stop();
        setKnown(again);
        return;
      }
      const reply = await ask(JSON.parse(asked) as Input, (step) => wanted() === asked && setStep(step));
      if (wanted() !== asked) return;
      setStep(null);
      if (reply.kind === "answer") {
        const found = { question: asked, value: reply.value, remarks: reply.remarks };
        for (const oldest of remembered.keys()) if (remembered.size >= most) remembered.delete(oldest);
        remembered.set(key, found);
        setKnown(found);
      }
      if (reply.kind === "refused") setRefused({ question: asked, problems: reply.problems });
    }),
  );
  onCleanup(stop);
  return {
    value: () => known()?.value ?? null,
    remarks: () => known()?.remarks ?? [],
    problems: () => (refused()?.question === wanted() ? (refused()?.problems ?? []) : []),
    step,
    state: () => {
      if (wanted() === null) return "waiting";
      if (known()?.question === wanted()) return "current";
      if (refused()?.question === wanted()) return "refused";
      return known() === null ? "computing" : "old";
    },
  };
}
