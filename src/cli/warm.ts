/**
 * Run once by the build: predicts the demo, so that V8 compiles what a prediction needs, and keeps that beside the built files.
 */
import { fileURLToPath } from "node:url";
import { setFlagsFromString } from "node:v8";
import { keepCompiled, loadBuilt } from "./compiled.ts";

const { run } = loadBuilt(fileURLToPath(new URL("./run.js", import.meta.url))) as typeof import("./run.ts");

// What ran once must not be thrown away before it is kept; the kept code is for a Node without flags.
setFlagsFromString("--no-flush-bytecode");
void run(["predict", "demo", "--json"]).then(() => {
  setFlagsFromString("--flush-bytecode");
  keepCompiled();
});
