/** The page of the worker's tests: hands the asker to whoever drives the page. */
import { type Asker, asker } from "../../../src/worker/asker.ts";
import { threadOf } from "../../../src/worker/browserPort.ts";

export type Fake = {
  count: { input: { steps: number; each: number }; value: number };
  no: { input: null; value: never };
  breaks: { input: null; value: never };
  dies: { input: null; value: null };
  late: { input: number; value: number };
};

declare global {
  interface Window {
    readonly startAsker: (kind?: "missing") => Asker<Fake>;
  }
}

const start = (kind?: "missing"): Asker<Fake> =>
  asker<Fake>(() =>
    threadOf(
      kind === "missing"
        ? new Worker("./no-such-program.js", { type: "module" })
        : new Worker(new URL("./thread.ts", import.meta.url), { type: "module" }),
    ),
  );

Object.assign(window, { startAsker: start });
