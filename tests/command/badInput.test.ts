/** Every bad input gets a clear answer: what was found, where, what is needed. Never a NaN, a hang or a stack trace. */
import { chmod, mkdir, truncate, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { glassdrum, ownFolder, type Ran, unclear } from "./glassdrum.ts";

let folder: { path: string; remove: () => Promise<void> };
let demo = "";

beforeAll(async () => {
  folder = await ownFolder();
  const written = await run(["new", "-", "--from", "demo"]);
  demo = written.out;
});
afterAll(() => folder.remove());

const run = (args: readonly string[], input?: string | Uint8Array): Promise<Ran> =>
  glassdrum(args, { cwd: folder.path, ...(input === undefined ? {} : { input }) });

interface Json {
  readonly problems?: readonly { code: string; path: (string | number)[]; message: string }[];
  readonly remarks?: readonly { code: string; path: (string | number)[]; message: string }[];
}

const read = (ran: Ran): Json => JSON.parse(ran.out) as Json;
const codes = (list: Json["problems"]) => (list ?? []).map(({ code, path }) => `${code} ${path.join(".")}`.trim());

/** Runs the verb in words and with --json, both clear, both with the same status. */
async function refused(args: readonly string[], status: number, input?: string | Uint8Array): Promise<string[]> {
  // Two processes, a core each.
  const [words, json] = await Promise.all([run(args, input), run([...args, "--json"], input)]);
  expect(unclear(words)).toEqual([]);
  expect(unclear(json)).toEqual([]);
  expect([words.status, json.status]).toEqual([status, status]);
  expect(`${words.out}${words.err}`.trim()).not.toBe("");
  const problems = read(json).problems ?? [];
  expect(problems.length).toBeGreaterThan(0);
  for (const { message } of problems) expect(message.length).toBeGreaterThan(10);
  return codes(problems);
}

describe("a file that is none", () => {
  test("missing", async () => {
    expect(await refused(["predict", "nowhere.glassdrum.json"], 2)).toEqual(["file-missing"]);
    expect(await refused(["check", "nowhere.glassdrum.json"], 2)).toEqual(["file-missing"]);
  });

  test("a folder", async () => {
    await mkdir(join(folder.path, "folder"));
    expect(await refused(["predict", "folder"], 2)).toEqual(["file-is-folder"]);
  });

  test("under a file as if it were a folder", async () => {
    await writeFile(join(folder.path, "plain.txt"), "x");
    expect(await refused(["predict", "plain.txt/project.json"], 2)).toEqual(["file-missing"]);
  });

  test("not readable", async () => {
    const path = join(folder.path, "locked.json");
    await writeFile(path, demo);
    await chmod(path, 0o000);
    const ran = await run(["check", "locked.json"]);
    // The superuser reads everything: then the file is simply read.
    if (process.getuid?.() === 0) expect(ran.status).toBe(0);
    else expect(await refused(["check", "locked.json"], 2)).toEqual(["file-not-readable"]);
    expect(unclear(ran)).toEqual([]);
  });

  test("of 200 MB: refused by its size, unread", async () => {
    const path = join(folder.path, "huge.json");
    await writeFile(path, "{");
    await truncate(path, 200e6);
    expect(await refused(["predict", "huge.json"], 1)).toEqual(["too-large"]);
  });

  test("that never ends", async () => {
    expect(await refused(["predict", "/dev/zero"], 1)).toEqual(["too-large"]);
  });
});

describe("text that is no project", () => {
  const cases: readonly (readonly [string, () => string | Uint8Array, RegExp])[] = [
    ["empty", () => "", /^empty-file/],
    ["blank", () => " \n\n", /^empty-file/],
    ["not JSON", () => "diaphragm: 5 mm", /^not-json/],
    ["cut off in the middle", () => demo.slice(0, demo.length / 2), /^not-json/],
    ["with a trailing comma", () => demo.replace(/\}\s*$/, ",}"), /^trailing-comma/],
    ["with a repeated key", () => demo.replace('"version"', '"version": 1, "version"'), /^repeated-key/],
    ["with NaN in it", () => demo.replace(/"lossFactor":\s*[\d.]+/, '"lossFactor": NaN'), /^not-finite/],
    ["a list", () => "[]", /./],
    ["null", () => "null", /./],
    ["of another format", () => '{ "format": "something", "version": 1 }', /./],
    ["of a later version", () => demo.replace(/"version":\s*1/, '"version": 99'), /version/],
    ["not text at all", () => new Uint8Array([0xff, 0xfe, 0x00, 0x80, 0x81]), /./],
    ["nested without end", () => "[".repeat(200_000), /^too-deep/],
  ];
  for (const [name, text, first] of cases)
    test(name, async () => {
      const found = await refused(["predict", "-"], 1, text());
      expect(found[0]).toMatch(first);
      expect(await refused(["check", "-"], 1, text())).toEqual(found);
    });

  test("a byte-order mark is no obstacle and is reported", async () => {
    const ran = await run(["check", "-", "--json"], `\ufeff${demo}`);
    expect(unclear(ran)).toEqual([]);
    expect(ran.status).toBe(0);
    expect(codes(read(ran).remarks).join(" ")).toMatch(/byte-order-mark/);
  });
});

describe("values that can't be", () => {
  const set = (...pairs: readonly string[]) => ["predict", "demo", ...pairs.flatMap((pair) => ["--set", pair])];
  const cases: readonly (readonly [string, string, string])[] = [
    ["without a unit", "microphone.film.gap=50", "microphone.film.gap"],
    ["with the wrong kind of unit", "microphone.film.gap=50 Pa", "microphone.film.gap"],
    ["with an unknown unit", "microphone.film.gap=50 furlong", "microphone.film.gap"],
    ["not a number", "microphone.film.gap=wide", "microphone.film.gap"],
    ["NaN", "microphone.film.gap=NaN", "microphone.film.gap"],
    ["NaN with a unit", "microphone.film.gap=NaN um", "microphone.film.gap"],
    ["too large for a number", "microphone.film.gap=1e999 m", "microphone.film.gap"],
    ["negative thickness", "microphone.diaphragm.thickness=-30 um", "microphone.diaphragm.thickness"],
    ["no thickness", "microphone.diaphragm.thickness=0 um", "microphone.diaphragm.thickness"],
    ["a guide outside the diaphragm", "microphone.guide.at=3 mm", "microphone.guide.at"],
    ["a material that nobody knows", "microphone.diaphragm.material=kryptonite", "microphone.diaphragm.material"],
    ["a word for an edge that is none", "microphone.diaphragm.edges=glued", "microphone.diaphragm.edges"],
    ["humidity above 100 %", "air.humidity=120 %", "air.humidity"],
    ["a temperature below absolute zero", "air.temperature=-300 degC", "air.temperature"],
    ["a list for a length", "microphone.film.gap=[1,2]", "microphone.film.gap"],
  ];
  for (const [name, pair, path] of cases)
    test(name, async () => {
      const found = await refused(set(pair), 1);
      expect(found.some((one) => one.includes(path))).toBe(true);
    });

  test("several at once are all named in one pass", async () => {
    const found = await refused(
      set("microphone.film.gap=50", "microphone.diaphragm.thickness=-1 um", "air.humidity=3 Pa"),
      1,
    );
    for (const path of ["microphone.film.gap", "microphone.diaphragm.thickness", "air.humidity"])
      expect(found.some((one) => one.includes(path))).toBe(true);
  });
});

describe("values at the end of the world", () => {
  const cases: readonly (readonly [string, readonly string[]])[] = [
    ["a gap of 1 nm", ["microphone.film.gap=1 nm"]],
    ["a gap of 1 m", ["microphone.film.gap=1 m"]],
    ["a diaphragm as thick as wide", ["microphone.diaphragm.thickness=5 mm"]],
    ["a diaphragm of a kilometer", ["microphone.diaphragm.across=1 km", "microphone.diaphragm.along=1 km"]],
    ["a thread of a diaphragm", ["microphone.diaphragm.along=100 m"]],
  ];
  for (const [name, pairs] of cases)
    test(`${name}: computed with a remark, or refused with a reason`, async () => {
      const args = ["predict", "demo", ...pairs.flatMap((pair) => ["--set", pair]), "--json"];
      const ran = await run(args);
      expect(unclear(ran)).toEqual([]);
      expect([0, 1]).toContain(ran.status);
      const { problems, remarks } = read(ran);
      expect((problems ?? remarks ?? []).length).toBeGreaterThan(0);
      // JSON turns a number that is none into null.
      if (problems === undefined) expect(JSON.stringify(read(ran)).match(/"(re|im)":\[[^\]]*null/)).toBeNull();
    });
});

describe("wrong use", () => {
  const cases: readonly (readonly [string, readonly string[]])[] = [
    ["no verb", []],
    ["an unknown verb", ["predicct", "demo"]],
    ["an unknown option", ["predict", "demo", "--jsom"]],
    ["no file", ["predict"]],
    ["two files", ["predict", "demo", "demo"]],
    ["--set without a value", ["predict", "demo", "--set", "microphone.film.gap"]],
    ["--set without a path", ["predict", "demo", "--set", "=50 um"]],
    ["--set of a path that is none", ["predict", "demo", "--set", "microphone.film.gapp=50 um"]],
    ["--set of a place in a list that is not there", ["predict", "demo", "--set", "choices[99].path=x"]],
    ["--set with a path that can't be read", ["predict", "demo", "--set", "microphone..film[x=1"]],
    ["--set of a prototype", ["predict", "demo", "--set", "__proto__.polluted=1"]],
    ["an empty --at", ["predict", "demo", "--at", ""]],
    ["--at without a unit", ["predict", "demo", "--at", "100"]],
    ["--at of zero", ["predict", "demo", "--at", "0 Hz"]],
    ["--at above every sound", ["predict", "demo", "--at", "1e300 Hz"]],
    ["--at with a length", ["predict", "demo", "--at", "5 mm"]],
    ["--at with more than one call answers", ["predict", "demo", "--at", new Array(20_001).fill("1Hz").join()]],
    ["--csv into a folder that is not there", ["predict", "demo", "--csv", "no/such/folder.csv"]],
    ["new into a folder that is not there", ["new", "no/such/x.glassdrum.json"]],
    ["new over a folder", ["new", "."]],
    ["a start that is none", ["new", "x.glassdrum.json", "--from", "nothing"]],
    ["a port that is none", ["open", "demo", "--port", "99999"]],
  ];
  for (const [name, args] of cases)
    test(`${name} ends with status 2 and says what would do`, async () => {
      const ran = await run(args);
      expect(unclear(ran)).toEqual([]);
      expect(ran.status).toBe(2);
      expect(ran.err.trim()).not.toBe("");
      expect(ran.out).toBe("");
    });

  test("a misspelt option brings the right one to mind", async () => {
    expect((await run(["predict", "demo", "--jsom"])).err).toContain("--json");
  });
});

describe("frequencies", () => {
  test("come back in the order asked", async () => {
    const ran = await run(["predict", "demo", "--json", "--at", "1 kHz,100 Hz,1 kHz"]);
    expect(unclear(ran)).toEqual([]);
    const { response } = JSON.parse(ran.out) as { response: { frequency: number[]; re: number[] } };
    expect(response.frequency).toEqual([1000, 100, 1000]);
    expect(response.re[0]).toBe(response.re[2]);
  });

  for (const at of ["1e-300 Hz", "1 GHz"])
    test(`of ${at} are answered or refused, without a number that is none`, async () => {
      const ran = await run(["predict", "demo", "--json", "--at", at]);
      expect(unclear(ran)).toEqual([]);
      const { problems, response } = JSON.parse(ran.out) as Json & { response?: { re: (number | null)[] } };
      expect(problems ?? response?.re.every((value) => typeof value === "number")).toBeTruthy();
    });
});
