/** Runs the built command as a person would, in a folder of its own. */
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const bin = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly cwd: string;
  /** What standard input says; nothing where absent. */
  readonly input?: string | Uint8Array;
}

/** A folder for one test file; removed by `remove`. */
export async function ownFolder(): Promise<{ path: string; remove: () => Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), "glassdrum-command-"));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}

/** Waits for the command to end. */
export function glassdrum(args: readonly string[], { cwd, input }: RunOptions): Promise<Ran> {
  if (!existsSync(bin)) throw new Error("dist/cli/main.js is missing: run npm run build first.");
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, ...args], { cwd });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ status, out, err }));
    // The command may refuse before it has read everything.
    child.stdin.on("error", () => {});
    child.stdin.end(input ?? "");
  });
}

/** What no answer may hold: a number that is none, a stack trace, an object printed by its name. */
export function unclear({ status, out, err }: Ran): string[] {
  // What the user wrote may be quoted: Found "NaN um".
  const text = `${out}\n${err}`.replace(/Found \\?"?[+-]?(NaN|Infinity)/g, "Found it");
  const signs: readonly (readonly [string, RegExp])[] = [
    ["a number that is none", /\bNaN\b|\bInfinity\b/],
    ["a stack trace", /^\s+at .*(:\d+:\d+|<anonymous>|node:)/m],
    ["an object without words", /\[object |\bundefined\b/],
    ["a fault of the program", /A fault of this program/],
  ];
  const found = signs.filter(([, sign]) => sign.test(text)).map(([name]) => name);
  return status === null ? [...found, "no exit status"] : found;
}
