import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import type { Problem } from "../core/index.ts";
import { newProject } from "./new.ts";
import { status } from "./status.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "glassdrum-new-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** What `new --json` answers when it makes nothing. */
async function refused(file: string, from = "defaults"): Promise<readonly Problem[]> {
  const written = vi.spyOn(process.stdout, "write").mockReturnValue(true);
  try {
    expect(await newProject(file, { from, json: true, set: [] })).toBe(status.wrongUse);
    return (JSON.parse(written.mock.calls.map(([text]) => String(text)).join("")) as { problems: Problem[] }).problems;
  } finally {
    written.mockRestore();
  }
}

test("a start that there is none of is refused with those that there are", async () => {
  expect(await refused("-", "nothing")).toEqual([
    {
      code: "unknown-start",
      path: ["--from"],
      message: 'Found "nothing"; a project starts from "defaults" or from "demo".',
    },
  ]);
});

test("a file that exists stays as it is", async () => {
  const file = join(folder, "mine.glassdrum.json");
  await writeFile(file, "mine");
  expect(await refused(file)).toMatchObject([
    {
      code: "file-exists",
      path: [],
      message: `${file} exists and stays as it is. Name another file, or remove that one first.`,
    },
  ]);
  expect(await readFile(file, "utf8")).toBe("mine");
});

test("a file that can't be written is named with the reason", async () => {
  const file = join(folder, "no such folder", "mine.glassdrum.json");
  const [problem, ...others] = await refused(file);
  expect(others).toEqual([]);
  expect(problem).toMatchObject({ code: "file-not-written", path: [] });
  expect(problem?.message).toMatch(/mine\.glassdrum\.json can't be written: .*folder.*\.$/);
});
