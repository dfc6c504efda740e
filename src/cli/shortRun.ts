/** How V8 is to compile for a run of less than a second. */
import { setFlagsFromString } from "node:v8";

/**
 * In so short a run the compiler is the bottleneck: half of all work is its own, and a function waits for its turn behind others.
 * Without inlining and peeled loops each takes its turn sooner. Results don't depend on it. Only where it was tried: V8 11, Node 20.
 */
export function compileLightly(): void {
  if (!process.versions.v8.startsWith("11.")) return;
  setFlagsFromString("--no-turbo-inlining");
  setFlagsFromString("--no-turbo-loop-peeling");
}

/** As V8 does by itself. */
export function compileFully(): void {
  if (!process.versions.v8.startsWith("11.")) return;
  setFlagsFromString("--turbo-inlining");
  setFlagsFromString("--turbo-loop-peeling");
}
