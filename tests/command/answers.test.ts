/** What the command answers when all is well. */
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Prediction } from "../../src/core/index.ts";
import { glassdrum, ownFolder, type Ran, unclear } from "./glassdrum.ts";

let folder: { path: string; remove: () => Promise<void> };
beforeAll(async () => {
  folder = await ownFolder();
});
afterAll(() => folder.remove());

const run = (args: readonly string[], input?: string): Promise<Ran> =>
  glassdrum(args, { cwd: folder.path, ...(input === undefined ? {} : { input }) });
const inFolder = (name: string) => join(folder.path, name);

describe("new", () => {
  test("writes a project that is checked without a problem, and says what stands in it", async () => {
    const written = await run(["new", "mine.glassdrum.json"]);
    expect(unclear(written)).toEqual([]);
    expect(written.status).toBe(0);
    expect(written.out).toMatch(/microphone\.diaphragm\.thickness +30 um +Thickness/);
    const lines = written.out.split("\n").filter((line) => line.startsWith("  "));
    expect(lines.filter((line) => line.trim().split(/ {2,}/).length < 3)).toEqual([]);
    expect((await run(["check", "mine.glassdrum.json"])).status).toBe(0);
  });

  test("never writes over a file", async () => {
    await writeFile(inFolder("kept.json"), "mine");
    const ran = await run(["new", "kept.json"]);
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("exists");
    expect(await readFile(inFolder("kept.json"), "utf8")).toBe("mine");
  });

  test("takes the demo, or changed defaults, to standard output", async () => {
    const demo = await run(["new", "-", "--from", "demo"]);
    expect((JSON.parse(demo.out) as { title: string }).title).toContain("invented");
    const changed = await run(["new", "-", "--set", "microphone.film.gap=44 um"]);
    expect(JSON.parse(changed.out)).toMatchObject({ microphone: { film: { gap: "44 um" } } });
  });
});

describe("check", () => {
  test("a file, standard input and the demo are the same project", async () => {
    await run(["new", "demo.json", "--from", "demo"]);
    const text = await readFile(inFolder("demo.json"), "utf8");
    const answers = await Promise.all([
      run(["check", "demo.json", "--json"]),
      run(["check", "-", "--json"], text),
      run(["check", "demo", "--json"]),
    ]);
    expect(answers.map(({ status }) => status)).toEqual([0, 0, 0]);
    expect(new Set(answers.map(({ out }) => out)).size).toBe(1);
  });

  test("an unknown key is a remark with what was meant", async () => {
    const ran = await run(["check", "-", "--json"], '{ "format": "glassdrum-project", "version": 1, "titel": "x" }');
    expect(ran.status).toBe(0);
    const { remarks } = JSON.parse(ran.out) as { remarks: { code: string; message: string }[] };
    expect(remarks.find(({ code }) => code === "unknown-key")?.message).toContain('"title"');
  });
});

describe("predict", () => {
  test("in words fits one screen", async () => {
    const ran = await run(["predict", "demo"]);
    expect(unclear(ran)).toEqual([]);
    expect(ran.err).toBe("");
    const lines = ran.out.trimEnd().split("\n");
    expect(lines.length).toBeLessThanOrEqual(44);
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(100);
    for (const word of ["Sensitivity", "Resonance", "Band", "Film", "Brief"]) expect(ran.out).toContain(word);
  });

  test("with --json holds every key that other programs count on", async () => {
    const ran = await run(["predict", "demo", "--json", "--at", "100 Hz,1 kHz"]);
    expect(unclear(ran)).toEqual([]);
    const answer = JSON.parse(ran.out) as Record<string, unknown>;
    const keys = ["response", "sensitivity", "modes", "resonances", "decays", "noise", "loudest", "verdict", "cards"];
    expect(Object.keys(answer)).toEqual(expect.arrayContaining([...keys, "remarks"]));
    expect(answer["response"]).toMatchObject({ frequency: [100, 1000] });
  });

  test("ends with status 1 where a must is computed and not met, with 0 where it is met or no must", async () => {
    const never = ["--set", "brief.sensitivity.atLeast=1 krad/Pa", "--set", "brief.band.must=false"];
    const must = await run(["predict", "demo", "--json", ...never, "--set", "brief.sensitivity.must=true"]);
    const wish = await run(["predict", "demo", "--json", ...never, "--set", "brief.sensitivity.must=false"]);
    const met = ({ out }: Ran) => (JSON.parse(out) as { verdict: { requirement: string; met: boolean }[] }).verdict;
    for (const ran of [must, wish])
      expect(met(ran)).toContainEqual(
        expect.objectContaining({ requirement: "brief.sensitivity.atLeast", met: false }),
      );
    expect([must.status, wish.status]).toEqual([1, 0]);
  });

  test("a value that is set changes the answer, and not the file", async () => {
    await run(["new", "set.json", "--from", "demo"]);
    const before = await readFile(inFolder("set.json"));
    const at = ["--json", "--at", "1 kHz"];
    const plain = await run(["predict", "set.json", ...at]);
    const changed = await run(["predict", "set.json", ...at, "--set", "microphone.diaphragm.thickness=60 um"]);
    const re = ({ out }: Ran) => (JSON.parse(out) as { response: { re: number[] } }).response.re[0] ?? 0;
    expect(Math.abs(re(changed))).toBeLessThan(Math.abs(re(plain)));
    expect(await readFile(inFolder("set.json"))).toEqual(before);
  });

  test("with --csv writes the numbers of --json with their units, and never over the project", async () => {
    const ran = await run(["predict", "demo", "--json", "--at", "100 Hz,1 kHz", "--csv", "response.csv"]);
    const { response } = JSON.parse(ran.out) as { response: { frequency: number[]; re: number[]; im: number[] } };
    const [header, ...rows] = (await readFile(inFolder("response.csv"), "utf8")).trimEnd().split("\r\n");
    expect(header?.split(",").every((name) => name.includes("["))).toBe(true);
    expect(rows.map((row) => row.split(",").slice(0, 3).map(Number))).toEqual(
      response.frequency.map((f, i) => [f, response.re[i], response.im[i]]),
    );
    await run(["new", "own.json", "--from", "demo"]);
    const refused = await run(["predict", "own.json", "--csv", "own.json"]);
    expect(refused.status).toBe(2);
    expect(await readFile(inFolder("own.json"), "utf8")).toContain("glassdrum-project");
  });

  test("with --sensitive says what each number depends on most, in words and in the cards", async () => {
    await run(["new", "plate.json"]);
    const bare = ["plate.json", "--set", "microphone.film=null", "--sensitive"];
    const [words, json] = await Promise.all([run(["predict", ...bare]), run(["predict", ...bare, "--json"])]);
    expect(words.out).toMatch(/Resonance\n( +\S+ {2}.*\n)* +\+1\.0 {2}Thickness\n/);
    const { cards } = JSON.parse(json.out) as Prediction;
    const found = cards["resonance"]?.mostSensitiveTo?.find(({ number }) => number === "resonance.frequency");
    // f as h / a^2: both sides of a square share the square.
    expect(found?.to.map(({ path, exponent }) => [path.split(".").at(-1), Number(exponent.toFixed(3))])).toEqual(
      expect.arrayContaining([
        ["thickness", 1],
        ["across", -1],
        ["along", -1],
      ]),
    );
  });

  test("with --csv - the table takes the place of the words", async () => {
    const ran = await run(["predict", "demo", "--at", "1 kHz", "--csv", "-"]);
    expect(ran.out.trimEnd().split("\r\n")).toHaveLength(2);
    expect((await run(["predict", "demo", "--json", "--csv", "-"])).status).toBe(2);
  });
});

describe("help", () => {
  test("of the command and of each verb goes to standard output with status 0", async () => {
    for (const args of [["--help"], ["predict", "--help"], ["help", "new"], ["--version"]]) {
      const ran = await run(args);
      expect(unclear(ran)).toEqual([]);
      expect(ran.status).toBe(0);
      expect(ran.out.trim()).not.toBe("");
    }
    expect((await run(["predict", "--help"])).out).toContain('"must": true');
  });
});
