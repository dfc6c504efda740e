import { mkdtemp, readFile, rm, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { keepCompiled, loadBuilt } from "./compiled.ts";

const folders: string[] = [];
afterAll(() => Promise.all(folders.map((folder) => rm(folder, { recursive: true }))));

/** Two built files, the first of which needs the second; the compiled code of another pair like them where `kept`. */
async function pair(kept = true): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "glassdrum-compiled-"));
  folders.push(folder);
  const main = join(folder, "main.js");
  await writeFile(main, 'const { two } = require("./two.js");\nexports.answer = () => two() + 1;\n');
  await writeFile(join(folder, "two.js"), "exports.two = () => 2;\n");
  if (!kept) return main;
  const other = await pair(false);
  answerOf(other);
  keepCompiled();
  for (const name of ["main.code", "two.code"])
    await writeFile(join(folder, name), await readFile(join(other, "..", name)));
  return main;
}

const answerOf = (file: string) => (loadBuilt(file) as { readonly answer: () => number }).answer();

test("a built file answers without compiled code beside it", async () => {
  expect(answerOf(await pair(false))).toBe(3);
});

test("a built file answers with its compiled code, and keeps one file for each", async () => {
  const main = await pair();
  expect((await readFile(join(main, "..", "two.code"))).length).toBeGreaterThan(100);
  expect(answerOf(main)).toBe(3);
});

test("compiled code that is cut short, altered or empty is not used", async () => {
  const cut = await pair();
  await truncate(join(cut, "..", "main.code"), 100);
  expect(answerOf(cut)).toBe(3);
  const altered = await pair();
  const code = await readFile(join(altered, "..", "main.code"));
  code[code.length >> 1]! ^= 0x55;
  await writeFile(join(altered, "..", "main.code"), code);
  expect(answerOf(altered)).toBe(3);
  const empty = await pair();
  await writeFile(join(empty, "..", "main.code"), "");
  expect(answerOf(empty)).toBe(3);
});

test("compiled code of another text of the same length is not used", async () => {
  const main = await pair();
  await writeFile(join(main, "..", "two.js"), "exports.two = () => 7;\n");
  expect(answerOf(main)).toBe(8);
});
