// Loaded into a process before its own code: writes its peak memory [kB] to the pipe on descriptor 3 when it ends.
import { writeSync } from "node:fs";

process.on("exit", () => writeSync(3, String(process.resourceUsage().maxRSS)));
