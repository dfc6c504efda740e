/**
 * Runs tasks in slices, the same in a browser's worker and in Node's: the most urgent question goes first, the latest
 * question of a channel replaces the earlier one, and both take effect at the next yield.
 */
import type { Outcome, Problem } from "../core/problem.ts";
import { type FromWorker, type Step, type ToWorker, urgencies } from "./protocol.ts";

/**
 * Long work yields its steps, or null where there is nothing to say, and returns its outcome; the runner stops it by not asking
 * for more. What it must wait for (something large that is loaded once) it yields too: it goes on when that has come, or has failed.
 */
export type Task = (input: unknown) => Generator<Step<unknown> | Promise<unknown> | null, Outcome<unknown>>;

export interface Ends {
  readonly tasks: Readonly<Record<string, Task>>;
  readonly post: (message: FromWorker) => void;
  /** Calls back once the messages that wait have been received. */
  readonly later: (work: () => void) => void;
  /** A clock [ms], for the length of a slice. */
  readonly now: () => number;
}

/** Length of a slice [ms]: how late a stop or a more urgent question may be, beside the length of one step. */
const sliceLength = 8;

interface Job {
  readonly ask: Extract<ToWorker, { kind: "ask" }>;
  /** null: not begun. */
  work: ReturnType<Task> | null;
  waits: boolean;
}

/** Gives the function that takes the page's messages. */
export function runner({ tasks, post, later, now }: Ends): (message: ToWorker) => void {
  const jobs = new Map<string, Job>();
  let scheduled = false;

  function schedule(): void {
    if (scheduled || mostUrgent(jobs.values()) === undefined) return;
    scheduled = true;
    later(() => {
      scheduled = false;
      const job = mostUrgent(jobs.values());
      if (job !== undefined) slice(job);
      schedule();
    });
  }

  function slice(job: Job): void {
    const { id, channel, task } = job.ask;
    let last: FromWorker | null;
    try {
      last = steps(job);
    } catch (error) {
      last = { kind: "refused", id, channel, problems: [fault(task, error)] };
    }
    if (last === null) return;
    jobs.delete(channel);
    post(last);
  }

  /** Goes on until the slice is over (null) or the task has ended. */
  function steps(job: Job): FromWorker | null {
    const { id, channel, task, input } = job.ask;
    const found = Object.hasOwn(tasks, task) ? tasks[task] : undefined;
    if (found === undefined) return { kind: "refused", id, channel, problems: [unknownTask(task)] };
    job.work ??= found(input);
    const until = now() + sliceLength;
    do {
      const { done, value } = job.work.next();
      if (done === true) return ended(job, value);
      if (value instanceof Promise) return wait(job, value);
      if (value !== null) post({ kind: "step", id, channel, step: value });
    } while (now() < until);
    return null;
  }

  function wait(job: Job, coming: Promise<unknown>): null {
    job.waits = true;
    const goOn = () => {
      job.waits = false;
      schedule();
    };
    coming.then(goOn, goOn);
    return null;
  }

  /** Ends a job from outside; a generator gets the chance to clean up. */
  function drop(job: Job, kind: "superseded" | "stopped"): void {
    jobs.delete(job.ask.channel);
    try {
      job.work?.return({ ok: false, problems: [] });
    } catch {
      // Its cleaning up failed; nobody waits for it anymore.
    }
    post({ kind, id: job.ask.id, channel: job.ask.channel });
  }

  return (message) => {
    const present = jobs.get(message.channel);
    if (present !== undefined) drop(present, message.kind === "stop" ? "stopped" : "superseded");
    if (message.kind === "ask") jobs.set(message.channel, { ask: message, work: null, waits: false });
    schedule();
  };
}

function ended({ ask: { id, channel } }: Job, outcome: Outcome<unknown>): FromWorker {
  return outcome.ok
    ? { kind: "answer", id, channel, value: outcome.value, remarks: outcome.remarks }
    : { kind: "refused", id, channel, problems: outcome.problems };
}

/** Drag before refine before batch before ahead; of the same urgency the question that was asked first. */
function mostUrgent(jobs: Iterable<Job>): Job | undefined {
  const rank = ({ ask }: Job) => urgencies.indexOf(ask.urgency);
  return [...jobs].filter(({ waits }) => !waits).sort((a, b) => rank(a) - rank(b) || a.ask.id - b.ask.id)[0];
}

const unknownTask = (task: string): Problem => ({
  code: "unknown-task",
  path: [],
  message: `The worker knows no task "${task}". The page and its worker are of different versions: load the page again.`,
});

const fault = (task: string, error: unknown): Problem => ({
  code: "fault",
  path: [],
  message: `A fault of this program, not of your input, in ${task}: ${error instanceof Error ? error.message : String(error)}`,
});
