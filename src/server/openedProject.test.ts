import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoText } from "../core/index.ts";
import { hashOf } from "../store/hash.ts";
import { writeBack } from "./openedProject.ts";

const folder = mkdtempSync(join(tmpdir(), "glassdrum-back-"));
afterAll(() => rmSync(folder, { recursive: true }));

test("an app that was opened without a file has none to write back", async () => {
  expect(await writeBack({ text: demoText }, { text: demoText, over: "" })).toEqual({
    ok: false,
    problems: [{ code: "no-file", path: [], message: "The app was not opened with a file; download the project." }],
  });
});

test("a file that can't be written keeps what was in it, and nothing lies beside it", async () => {
  // A name that is as long as the disk takes leaves no room for the name of the part beside it.
  const name = `${"n".repeat(236)}.glassdrum.json`;
  const file = join(folder, name);
  writeFileSync(file, "before");
  expect(await writeBack({ file }, { text: demoText, over: hashOf("before") })).toMatchObject({
    problems: [
      {
        code: "file-not-written",
        path: [],
        message: expect.stringMatching(/^n+\.glassdrum\.json can't be written: .+ still there; download the project/),
      },
    ],
  });
  expect(readFileSync(file, "utf8")).toBe("before");
  expect(readdirSync(folder)).toEqual([name]);
});
