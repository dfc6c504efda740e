import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { createInterface } from "node:readline";
import { afterAll, beforeAll, expect, test } from "vitest";
import { bin, glassdrum, ownFolder } from "./glassdrum.ts";

let folder: { path: string; remove: () => Promise<void> };
beforeAll(async () => {
  folder = await ownFolder();
});
afterAll(() => folder.remove());

/** Starts `open` on a free port and waits for the address it prints. */
async function opened(args: readonly string[], input = "") {
  if (!existsSync(bin)) throw new Error("dist/cli/main.js is missing: run npm run build first.");
  const child = spawn(process.execPath, [bin, "open", ...args, "--port", "0", "--data", folder.path], {
    cwd: folder.path,
  });
  child.stdin.end(input);
  child.stderr.resume();
  const [url] = (await once(createInterface(child.stdout), "line")) as [string];
  const stop = async () => {
    child.kill("SIGTERM");
    const [status] = (await once(child, "close")) as [number | null];
    return status;
  };
  return { url, stop };
}

test("open prints an address of this machine, serves there, and ends well when it is told to stop", async () => {
  const { url, stop } = await opened(["demo"]);
  try {
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect((await fetch(url)).status).toBeLessThan(500);
  } finally {
    expect(await stop()).toBe(0);
  }
  await expect(fetch(url)).rejects.toThrow();
});

test("open of a file that is not there ends at once", async () => {
  const ran = await glassdrum(["open", "nowhere.glassdrum.json", "--port", "0"], { cwd: folder.path });
  expect(ran.status).toBe(2);
  expect(ran.err).toContain("nowhere.glassdrum.json");
});

test("open of a changed project names what is wrong with the change", async () => {
  const ran = await glassdrum(["open", "demo", "--port", "0", "--set", "microphone.film.gap=5"], { cwd: folder.path });
  expect(ran.status).toBe(1);
  expect(ran.err).toContain("microphone.film.gap");
});
