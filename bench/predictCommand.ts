/** The whole command as a person runs it, against a node process that does nothing. Needs `npm run build` first. */
import type { Process } from "./task.ts";

export const predictCommand: Process = {
  kind: "process",
  name: "node dist/cli/main.js predict demo --json",
  asked: "under 6 empty processes, below 150 MB",
  args: ["dist/cli/main.js", "predict", "demo", "--json"],
  against: { name: "empty node process", args: ["-e", ""] },
  repetitions: 7,
  // 1: the demo does not meet its own brief.
  statuses: [0, 1],
};
