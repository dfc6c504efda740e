/** Commands that judge many microphones: parts that join, tables and pictures, and what is said of wrong use. */
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { glassdrum, ownFolder, type Ran, unclear } from "./glassdrum.ts";

let folder: { path: string; remove: () => Promise<void> };
beforeAll(async () => {
  folder = await ownFolder();
});
afterAll(() => folder.remove());

const run = (...args: readonly string[]): Promise<Ran> => glassdrum(args, { cwd: folder.path });
const few = ["--count", "9", "--influence", "0", "--wanted", "1%"];

test("parts of a spread join to the bytes of the whole run, with a table and a picture", async () => {
  const [whole, ...parts] = await Promise.all([
    run("spread", "demo", "--json", ...few),
    run("spread", "demo", "--part", "1/2", ...few),
    run("spread", "demo", "--part", "2/2", ...few),
  ]);
  for (const [i, { out }] of parts.entries()) await writeFile(join(folder.path, `part${i}.json`), out);
  const files = ["--join", "part1.json", "part0.json", "--wanted", "1%"];
  const joined = await run("spread", "demo", "--json", "--csv", "band.csv", "--svg", "band.svg", ...files);
  expect(joined.status).toBe(0);
  expect(joined.out).toBe(whole!.out);
  expect(await readFile(join(folder.path, "band.csv"), "utf8")).toMatch(/^frequency \[Hz\],2\.5 % \[dB\]/);
  expect(await readFile(join(folder.path, "band.svg"), "utf8")).toMatch(/^<svg[\s\S]*half[\s\S]*<\/svg>\n$/);
});

test("parts and files that can't be used are told apart", async () => {
  const files = ["--join", "part1.json", "part0.json", "--wanted", "1%"];
  const code = async (...args: readonly string[]) => {
    const ran = await run("spread", "demo", "--json", ...args);
    expect(unclear(ran)).toEqual([]);
    return [ran.status, (JSON.parse(ran.out) as { problems: readonly { code: string }[] }).problems[0]?.code];
  };
  expect(
    await Promise.all([
      code("--join", "part9.json"),
      code("--part", "3/2"),
      code(...files, "--csv", "-"),
      code(...files, "--csv", ""),
      code(...files, "--csv", "nowhere/band.csv"),
      code(...files, "--svg", "nowhere/band.svg"),
    ]),
  ).toEqual([
    [2, "part-not-readable"],
    [2, "bad-part"],
    [2, "two-answers"],
    [2, "csv-target"],
    [2, "csv-not-written"],
    [2, "svg-not-written"],
  ]);
});
