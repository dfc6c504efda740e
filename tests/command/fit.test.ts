/** `glassdrum fit` as a person calls it: bare records and a project's record. */
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { glassdrum, ownFolder, unclear } from "./glassdrum.ts";

let folder: Awaited<ReturnType<typeof ownFolder>>;

/** 900 Hz, damping ratio 0.05, 48 kHz: written here, not by the simulator. */
const omega = 2 * Math.PI * 900;
const value = (t: number) => 0.2 + Math.exp(-0.05 * omega * t) * Math.cos(Math.sqrt(1 - 0.05 ** 2) * omega * t);
const rows = Array.from({ length: 700 }, (_, i) => `${((i * 1000) / 48000).toFixed(6)};${value(i / 48000).toFixed(6)}`);

beforeAll(async () => {
  folder = await ownFolder();
  await writeFile(
    join(folder.path, "tone-off.csv"),
    `Zeit (ms);U (V)\r\n${rows.join("\r\n").replaceAll(".", ",")}\r\n`,
  );
  await writeFile(join(folder.path, "bare.txt"), rows.join("\n").replaceAll(";", " "));
  await writeFile(
    join(folder.path, "own.glassdrum.json"),
    '{ "format": "glassdrum-project", "version": 1, "specimens": [{ "id": "a", "records": [{ "id": "r", "file": "bare.txt", "kind": "ring-down",' +
      ' "recipe": { "columns": [{ "index": 0, "is": "time", "unit": "ms" }, { "index": 1, "is": "output", "unit": "V" }] } }] }] }',
  );
});

afterAll(() => folder.remove());

test("a bare record answers with its damping ratio, in words and as one object", async () => {
  const words = await glassdrum(["fit", "tone-off.csv"], { cwd: folder.path });
  expect([words.status, unclear(words)]).toEqual([0, []]);
  expect(words.out).toContain("Damping ratio");
  const { status, out } = await glassdrum(["fit", "tone-off.csv", "--json"], { cwd: folder.path });
  const { kind, values, residuals, stopped } = JSON.parse(out);
  expect([status, kind, stopped]).toEqual([0, "ring-down", "converged"]);
  expect(values.dampingRatio.value).toBeCloseTo(0.05, 4);
  expect(values.frequency.low).toBeLessThan(900.1);
  expect(residuals.rms).toBeLessThan(1e-5);
});

test("a file that leaves its units open asks, and takes the answer", async () => {
  const asked = await glassdrum(["fit", "bare.txt"], { cwd: folder.path });
  expect([asked.status, unclear(asked)]).toEqual([1, []]);
  expect(asked.err).toContain("Possible: s, ms, us");
  const told = await glassdrum(["fit", "bare.txt", "--columns", "1=time ms, 2=output V", "--json"], {
    cwd: folder.path,
  });
  expect(JSON.parse(told.out).values.dampingRatio.value).toBeCloseTo(0.05, 4);
});

test("a project's record is read by its recipe; what is not there or not understood is wrong use", async () => {
  const own = await glassdrum(["fit", "own.glassdrum.json", "--record", "a/r", "--json"], { cwd: folder.path });
  expect([own.status, JSON.parse(own.out).values.dampingRatio.value.toFixed(3)]).toEqual([0, "0.050"]);
  const statuses = await Promise.all(
    [["nothing.csv"], ["own.glassdrum.json", "--record", "z"], ["bare.txt", "--kind", "guess"]].map((args) =>
      glassdrum(["fit", ...args], { cwd: folder.path }),
    ),
  );
  expect(statuses.map(({ status }) => status)).toEqual([2, 2, 2]);
  expect(statuses.flatMap(unclear)).toEqual([]);
});

test("a reading is written into a specimen of a project; a kept one that differs is marked; a formula is fitted", async () => {
  const inFolder = { cwd: folder.path };
  const columns = ["--columns", "1=time ms, 2=output V"];
  const into = await glassdrum(
    ["fit", "bare.txt", ...columns, "--use", "0 ms to 12 ms", "--into", "own.glassdrum.json", "--specimen", "B 1"],
    inFolder,
  );
  expect([into.status, unclear(into), into.err]).toEqual([0, [], ""]);
  const project = JSON.parse(await readFile(join(folder.path, "own.glassdrum.json"), "utf8"));
  expect(project.specimens[1]).toMatchObject({ id: "b-1", name: "B 1", records: [{ id: "r1", file: "bare.txt" }] });
  expect(project.specimens[1].records[0].readings.dampingRatio.value).toBeCloseTo(0.05, 4);
  const again = await glassdrum(["fit", "own.glassdrum.json", "--record", "b-1/r1"], inFolder);
  expect([again.status, again.out.includes("The project keeps")]).toEqual([0, false]);
  project.specimens[1].records[0].readings.dampingRatio.value = 0.06;
  await writeFile(join(folder.path, "moved.glassdrum.json"), JSON.stringify(project));
  const moved = await glassdrum(["fit", "moved.glassdrum.json", "--record", "b-1/r1", "--json"], inFolder);
  expect(JSON.parse(moved.out).remarks.map(({ code }: { code: string }) => code)).toContain("reading-differs");
  const nowhere = await glassdrum(["fit", "bare.txt", ...columns, "--into", "demo", "--specimen", "A"], inFolder);
  expect([nowhere.status, unclear(nowhere)]).toEqual([2, []]);

  const bend = Array.from({ length: 25 }, (_, i) => `${i},${(3 + 2 * (1 - Math.exp(-0.3 * i))).toFixed(9)}`).join("\n");
  await writeFile(join(folder.path, "bend.csv"), `x,y\n${bend}\n`);
  const typed = await glassdrum(
    [
      "fit",
      "bend.csv",
      "--kind",
      "formula",
      "--formula",
      "y = a + b*(1 - exp(-c*x))",
      "--start",
      "a=1,b=1,c=1",
      "--json",
    ],
    inFolder,
  );
  const { values } = JSON.parse(typed.out);
  expect([values.a.value, values.b.value, values.c.value].map((one) => one.toFixed(6))).toEqual([
    "3.000000",
    "2.000000",
    "0.300000",
  ]);
});
