/** The worker in a browser: the module that the page starts. */
import type { ToWorker } from "./protocol.ts";
import { runner } from "./run.ts";
import { tasks } from "./tasks.ts";

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
