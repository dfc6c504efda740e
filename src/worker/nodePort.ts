/** Both ends of the protocol over Node's worker threads. */
import { parentPort, Worker } from "node:worker_threads";
import type { Thread } from "./asker.ts";
import type { FromWorker, ToWorker } from "./protocol.ts";
import { runner, type Task } from "./run.ts";

/** Inside the thread: answers the questions of the one who started it. */
export function serveParent(tasks: Readonly<Record<string, Task>>): void {
  const port = parentPort;
  if (port === null) throw new Error("serveParent: this is no worker thread");
  const hear = runner({
    tasks,
    post: (message) => port.postMessage(message),
    later: (work) => setImmediate(work),
    now: () => performance.now(),
  });
  port.on("message", (message: ToWorker) => hear(message));
}

/** Starts a thread for an asker. Node loads plain JavaScript only, so the address leads into dist/. */
export function startNodeThread(address = new URL("./nodeThread.js", import.meta.url)): Thread {
  const worker = new Worker(address);
  return {
    post: (message) => worker.postMessage(message),
    listen: (heard, died) => {
      worker.on("message", (message: FromWorker) => heard(message));
      worker.on("error", (error) => died(error instanceof Error ? error.message : String(error)));
      worker.on("messageerror", (error) => died(error.message));
      worker.on("exit", (code) => died(`exit status ${code}`));
    },
    end: () => void worker.terminate(),
  };
}
