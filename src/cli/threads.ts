/** Long work on all cores: the same tasks as in the page, each in a thread of its own. */
import { availableParallelism } from "node:os";
import { dirname, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { type Asker, asker } from "../worker/asker.ts";
import { startNodeThread } from "../worker/nodePort.ts";
import type { WorkerQuestions } from "../worker/tasks.ts";

/** Threads of a command; more than eight do not pay for these lengths. */
const threadCount = (): number => Math.max(1, Math.min(8, availableParallelism()));

// From dist/cli/ and from dist/chunks/ alike.
const address = pathToFileURL(resolve(dirname(fileURLToPath(import.meta.url)), "../worker/nodeThread.js"));

export function startThreads(count = threadCount()): {
  readonly askers: readonly Asker<WorkerQuestions>[];
  readonly close: () => void;
} {
  const askers = Array.from({ length: count }, () => asker<WorkerQuestions>(() => startNodeThread(address)));
  return {
    askers,
    close: () => {
      for (const one of askers) one.close();
    },
  };
}
