#!/usr/bin/env node
/** The command `glassdrum`. Sets the exit status and lets the streams drain: process.exit would cut a pipe short. */
import { run } from "./run.ts";

// A reader that has seen enough (`| head`) is no error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
process.exitCode = await run(process.argv.slice(2));
