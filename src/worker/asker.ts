/** The page's end: questions as promises. A late answer never reaches anyone: each question ends once. */
import type { Problem } from "../core/problem.ts";
import type { FromWorker, Questions, Reply, Step, ToWorker, Urgency } from "./protocol.ts";

/** A worker thread as the asker needs it; the browser's `Worker` and Node's are wrapped into it. */
export interface Thread {
  readonly post: (message: ToWorker) => void;
  readonly listen: (heard: (message: FromWorker) => void, died: (reason: string) => void) => void;
  readonly end: () => void;
}

export interface AskOptions<Value> {
  /** "refine" where absent. */
  readonly urgency?: Urgency;
  readonly onStep?: (step: Step<Value>, id: number) => void;
}

export interface Asker<Known extends Questions> {
  /**
   * Asks; an earlier question of the same channel ends as "superseded" at once.
   * A thread that died answers "worker-died", and the next question starts a new one.
   */
  ask<Name extends keyof Known & string>(
    channel: string,
    task: Name,
    input: Known[Name]["input"],
    options?: AskOptions<Known[Name]["value"]>,
  ): Promise<Reply<Known[Name]["value"]>>;
  /** Ends the channel's question as "stopped". */
  stop(channel: string): void;
  /** Ends the thread; what was asked ends as "stopped". */
  close(): void;
}

interface Waiting {
  readonly id: number;
  readonly resolve: (reply: Reply<unknown>) => void;
  readonly onStep: ((step: Step<unknown>, id: number) => void) | undefined;
}

export function asker<Known extends Questions>(start: () => Thread): Asker<Known> {
  const waiting = new Map<string, Waiting>();
  let thread: Thread | null = null;
  let count = 0;

  function open(): Thread {
    const fresh = start();
    fresh.listen(hear, (reason) => {
      if (thread !== fresh) return;
      thread = null;
      fresh.end();
      for (const [channel, { id }] of [...waiting]) settle(channel, { kind: "refused", id, problems: [died(reason)] });
    });
    return fresh;
  }

  function settle(channel: string, reply: Reply<unknown>): void {
    const found = waiting.get(channel);
    if (found === undefined || found.id !== reply.id) return;
    waiting.delete(channel);
    found.resolve(reply);
  }

  function hear(message: FromWorker): void {
    const found = waiting.get(message.channel);
    if (found === undefined || found.id !== message.id) return;
    if (message.kind === "step") found.onStep?.(message.step, message.id);
    else {
      const { channel, ...reply } = message;
      settle(channel, reply);
    }
  }

  return {
    ask<Name extends keyof Known & string>(
      channel: string,
      task: Name,
      input: Known[Name]["input"],
      options: AskOptions<Known[Name]["value"]> = {},
    ) {
      type Value = Known[Name]["value"];
      count += 1;
      const id = count;
      const earlier = waiting.get(channel);
      if (earlier !== undefined) settle(channel, { kind: "superseded", id: earlier.id });
      return new Promise<Reply<Value>>((resolve) => {
        waiting.set(channel, {
          id,
          // The task of that name gives values of that type; the thread only carries them.
          resolve: (reply) => resolve(reply as Reply<Value>),
          onStep: options.onStep as Waiting["onStep"],
        });
        thread ??= open();
        thread.post({ kind: "ask", id, channel, urgency: options.urgency ?? "refine", task, input });
      });
    },
    stop(channel) {
      const found = waiting.get(channel);
      if (found === undefined) return;
      thread?.post({ kind: "stop", channel });
      settle(channel, { kind: "stopped", id: found.id });
    },
    close() {
      thread?.end();
      thread = null;
      for (const [channel, { id }] of [...waiting]) settle(channel, { kind: "stopped", id });
    },
  };
}

const died = (reason: string): Problem => ({
  code: "worker-died",
  path: [],
  message: `The computing thread ended: ${reason}. A fault of this program; the next change starts it again.`,
});
