/** Both ends of the protocol over a browser's worker. */
import type { Thread } from "./asker.ts";
import type { FromWorker, ToWorker } from "./protocol.ts";
import { runner, type Task } from "./run.ts";

/** Starts the app's worker for an asker. */
export const startBrowserThread = (): Thread =>
  threadOf(new Worker(new URL("./browserThread.ts", import.meta.url), { type: "module", name: "glassdrum" }));

/** A worker as an asker needs it. */
export function threadOf(worker: Worker): Thread {
  return {
    post: (message) => worker.postMessage(message),
    listen: (heard, died) => {
      worker.onmessage = ({ data }: MessageEvent<FromWorker>) => heard(data);
      worker.onerror = (event) => {
        event.preventDefault();
        died(event.message || "its program could not be loaded");
      };
      worker.onmessageerror = () => died("a message could not be read");
    },
    end: () => worker.terminate(),
  };
}

/** Inside the worker: answers the questions of the page. `later` brings the tasks that are not there from the start. */
export function servePage(
  tasks: Readonly<Record<string, Task>>,
  later: () => Promise<Readonly<Record<string, Task>>> = async () => ({}),
): void {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  const known = { ...tasks };
  const hear = runner({
    tasks: known,
    post: (message) => self.postMessage(message),
    later: (work) => {
      waiting.push(work);
      port2.postMessage(null);
    },
    now: () => performance.now(),
  });
  /** What was said while tasks are being loaded, in its order; null: nothing is being loaded. */
  let unheard: ToWorker[] | null = null;
  let complete = false;
  async function load(first: ToWorker): Promise<void> {
    unheard = [first];
    // What can't be loaded is answered as a task that is not known.
    Object.assign(known, await later().catch(() => ({})));
    complete = true;
    const said = unheard;
    unheard = null;
    for (const message of said) hear(message);
  }
  self.onmessage = ({ data }: MessageEvent<ToWorker>) => {
    if (unheard !== null) unheard.push(data);
    else if (!complete && data.kind === "ask" && !Object.hasOwn(known, data.task)) void load(data);
    else hear(data);
  };
}
