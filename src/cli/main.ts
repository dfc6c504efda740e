#!/usr/bin/env node
/** The command `glassdrum`. Sets the exit status and lets the streams drain: process.exit would cut a pipe short. */
import { fileURLToPath } from "node:url";
import { loadBuilt } from "./compiled.ts";

const { run } = loadBuilt(fileURLToPath(new URL("./run.js", import.meta.url))) as typeof import("./run.ts");

// A reader that has seen enough (`| head`) is no error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
void run(process.argv.slice(2)).then((status) => {
  process.exitCode = status;
});
