// Loaded into a process before its own code: writes its peak memory [kB] to the pipe on descriptor 3 when it ends.
import { readFileSync, writeSync } from "node:fs";

// What the system calls the largest resident size counts the parent's too, from before the program was loaded: Linux says it apart.
function peak() {
  try {
    return /VmHWM:\s*(\d+) kB/.exec(readFileSync("/proc/self/status", "utf8"))?.[1];
  } catch {
    return undefined;
  }
}

process.on("exit", () => writeSync(3, peak() ?? String(process.resourceUsage().maxRSS)));
