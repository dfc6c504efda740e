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

/** Inside the worker: answers the questions of the page. */
export function servePage(tasks: Readonly<Record<string, Task>>): void {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  const hear = runner({
    tasks,
    post: (message) => self.postMessage(message),
    later: (work) => {
      waiting.push(work);
      port2.postMessage(null);
    },
    now: () => performance.now(),
  });
  self.onmessage = ({ data }: MessageEvent<ToWorker>) => hear(data);
}
