/** The page's end of the protocol over a browser's worker. */
import type { Thread } from "./asker.ts";
import type { FromWorker } from "./protocol.ts";

/** Starts the worker for an asker. */
export function startBrowserThread(): Thread {
  const worker = new Worker(new URL("./browserThread.ts", import.meta.url), { type: "module", name: "glassdrum" });
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
