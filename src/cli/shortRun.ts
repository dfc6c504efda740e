/** How V8 is to compile for a run of less than a second. Results don't depend on it. */
import { setFlagsFromString } from "node:v8";

/**
 * In so short a run the compiler is the bottleneck: half of all work is its own, and a function waits for its turn behind others.
 * Each flag as it is here and as V8 has it; all are read anew whenever they matter, and together they take a fifth of the time off.
 * Flags of marking are not among them: the collector does not bear a change of those while it marks.
 */
const flags = [
  // Each function takes its turn sooner; nothing is compiled a second time for a loop that runs already.
  ["--no-turbo-inlining", "--turbo-inlining"],
  ["--no-turbo-loop-peeling", "--turbo-loop-peeling"],
  ["--no-use-osr", "--use-osr"],
  // What runs a little is not worth it: bytes of bytecode between two looks.
  ["--interrupt-budget=100000", "--interrupt-budget=67584"],
  // Where code relies on what kind of object a field holds, one made late throws functions away that have just been compiled.
  ["--no-track-field-types", "--track-field-types"],
  // Waste is young and collected in a tenth of a millisecond: threads that help would wait behind the compiler's.
  ["--no-parallel-scavenge", "--parallel-scavenge"],
  ["--no-concurrent-array-buffer-sweeping", "--concurrent-array-buffer-sweeping"],
] as const;

/** Only where it was tried: V8 11, Node 20. */
const tried = process.versions.v8.startsWith("11.");

export function compileLightly(): void {
  if (tried) for (const [light] of flags) setFlagsFromString(light);
}

/** As V8 does by itself. */
export function compileFully(): void {
  if (tried) for (const [, full] of flags) setFlagsFromString(full);
}
