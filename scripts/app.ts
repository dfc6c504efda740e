/** The built app, started as a user starts it, for tests and pictures. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const command = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url));

export interface RunningApp {
  /** "http://127.0.0.1:41234/" */
  readonly url: string;
  stop(): Promise<void>;
}

/** `glassdrum open FILE` on a free port, with the library of that folder, else one of its own that goes when it stops. Needs `npm run build` before. */
export async function startApp(file = "demo", folder?: string): Promise<RunningApp> {
  const data = folder ?? mkdtempSync(join(tmpdir(), "glassdrum-library-"));
  const child = spawn(process.execPath, [command, "open", file, "--port", "0", "--json", "--data", data], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let errors = "";
  child.stderr.setEncoding("utf8").on("data", (text) => {
    errors += text;
  });
  const ended = once(child, "exit");
  const url = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.stdout.setEncoding("utf8").on("data", (text) => {
      said += text;
      const found = /"url":\s*"([^"]+)"/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    });
    child.once("exit", (code) => reject(new Error(`glassdrum open ended with ${code}: ${errors}`)));
  });
  return {
    url,
    stop: async () => {
      child.kill("SIGTERM");
      await ended;
      if (folder === undefined) rmSync(data, { recursive: true, force: true });
    },
  };
}
