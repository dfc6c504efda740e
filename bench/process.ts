/** Times a process of its own against another one, in turns, and reads its peak memory. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { median, spread } from "./statistics.ts";
import type { Process, Timed } from "./task.ts";

const root = fileURLToPath(new URL("../", import.meta.url));
const memoryReport = new URL("./reportMemory.mjs", import.meta.url).href;

export function timeProcess(task: Process, kernelSeconds: number): Timed {
  const timed = (args: readonly string[], statuses: readonly number[]) => {
    const start = process.hrtime.bigint();
    run(args, statuses);
    return Number(process.hrtime.bigint() - start) * 1e-9;
  };
  const own: number[] = [];
  const other: number[] = [];
  // The first turn reads files from the disk and is not counted.
  for (let turn = 0; turn <= task.repetitions; turn++) {
    const empty = timed(task.against.args, [0]);
    const seconds = timed(task.args, task.statuses);
    if (turn === 0) continue;
    other.push(empty);
    own.push(seconds);
  }
  const ratio = median(own) / median(other);
  return {
    name: task.name,
    ...(task.asked !== undefined && { asked: task.asked }),
    seconds: own,
    overKernel: own.map((seconds) => seconds / kernelSeconds),
    notes: [
      `${task.repetitions} times, in turns with ${task.against.name}: ${(1e3 * median(other)).toFixed(1)} ms, spread ${(100 * spread(other)).toFixed(0)} %`,
      `ratio of the medians ${ratio.toFixed(2)}, of the smallest ${(Math.min(...own) / Math.min(...other)).toFixed(2)}`,
      `peak memory ${(peakMemory(task) / 1e6).toFixed(0)} MB`,
    ],
  };
}

function run(args: readonly string[], statuses: readonly number[]): void {
  const { status, stderr } = spawnSync(process.execPath, [...args], { cwd: root, maxBuffer: 1e9 });
  if (status === null || !statuses.includes(status))
    throw new Error(`node ${args.join(" ")} ended with status ${status}: ${stderr.toString().slice(0, 500)}`);
}

/** Largest resident memory of one run, all its threads together [byte]. */
export function peakMemory({ args, statuses }: Pick<Process, "args" | "statuses">): number {
  const { status, output } = spawnSync(process.execPath, ["--import", memoryReport, ...args], {
    cwd: root,
    maxBuffer: 1e9,
    stdio: ["ignore", "pipe", "pipe", "pipe"],
  });
  if (status === null || !statuses.includes(status)) throw new Error(`node ${args.join(" ")} ended with ${status}`);
  return 1024 * Number(output[3]?.toString());
}
