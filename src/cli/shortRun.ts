/** How V8 is to compile for a run of less than a second. */
import { setFlagsFromString } from "node:v8";

/**
 * In so short a run the compiler is the bottleneck: half of all work is its own, and a function waits for its turn behind others.
 * Without inlining and peeled loops each takes its turn sooner. Where code also relied on what kind of object a field holds, an
 * object made late by the same lines threw a dozen functions away that had just been compiled. Results don't depend on it.
 */
const light = ["turbo-inlining", "turbo-loop-peeling", "track-field-types"];

/** Only where it was tried: V8 11, Node 20. */
const tried = process.versions.v8.startsWith("11.");

export function compileLightly(): void {
  if (tried) for (const flag of light) setFlagsFromString(`--no-${flag}`);
}

/** As V8 does by itself. */
export function compileFully(): void {
  if (tried) for (const flag of light) setFlagsFromString(`--${flag}`);
}
