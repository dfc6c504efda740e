import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "@photostructure/sqlite";
import { afterAll, describe, expect, test } from "vitest";
import { codesOf, good } from "../../tests/outcomes.ts";
import { demoText } from "../core/index.ts";
import { bytesOfText, zipOf } from "../writers/zip.ts";
import { importArchive } from "./archive.ts";
import { dataFolder, libraryFile } from "./folder.ts";
import { addProject, readProject } from "./library.ts";
import { librarySteps } from "./migrations.ts";
import { openLibrary } from "./open.ts";
import { storageProblem } from "./problems.ts";
import type { Database } from "./sqlite.ts";
import { historyOf, saveState } from "./states.ts";

const root = mkdtempSync(join(tmpdir(), "glassdrum-faults-"));
afterAll(() => rmSync(root, { recursive: true }));
let count = 0;
const ownFolder = () => join(root, String(++count));

/** What SQLite throws, as its binding gives it. */
const sqliteError = (errcode: number, message: string) =>
  Object.assign(new Error(message), { code: "ERR_SQLITE_ERROR", errcode });

/** A database that fails at the n-th write from now with that error. */
function failing() {
  let [left, error] = [Number.POSITIVE_INFINITY, sqliteError(13, "database or disk is full")];
  const wrap = (database: Database): Database => ({
    ...database,
    prepare(sql) {
      const statement = database.prepare(sql);
      if (!/^(insert|update|delete|commit)/i.test(sql)) return statement;
      const maybe = () => {
        if (--left <= 0) throw error;
      };
      return {
        ...statement,
        all: (parameters) => {
          maybe();
          return statement.all(parameters);
        },
        run: (parameters) => {
          maybe();
          return statement.run(parameters);
        },
      };
    },
  });
  const failAt = (n: number, with_ = error) => {
    [left, error] = [n, with_];
  };
  return { wrap, failAt };
}

describe("a save that fails", () => {
  test("leaves everything that was saved before, wherever it is cut off", async () => {
    const { wrap, failAt } = failing();
    const library = good(await openLibrary(ownFolder(), { wrap }));
    const { id } = good(await addProject(library, { text: demoText, says: "Opened" }));
    for (let n = 1; ; n++) {
      failAt(n);
      const text = demoText.replace("38 um", "40 um");
      const saved = await saveState(library, id, { base: 1, text, says: "" });
      failAt(Number.POSITIVE_INFINITY);
      if (saved.ok) {
        expect(n).toBeGreaterThan(4);
        break;
      }
      expect(codesOf(saved)).toEqual(["disk-full"]);
      expect(good(await historyOf(library, id)).states).toHaveLength(1);
      expect(good(await readProject(library, id)).text).toBe(demoText);
    }
    await library.close();
  });

  test("says what the disk said and what to do", async () => {
    const { wrap, failAt } = failing();
    const library = good(await openLibrary(ownFolder(), { wrap }));
    for (const [errcode, code] of [
      [13, "disk-full"],
      [8, "library-read-only"],
      [1032, "library-read-only"],
      [5, "library-locked"],
      [10, "library-disk-error"],
      [266, "library-disk-error"],
      [11, "library-damaged"],
    ] as const) {
      failAt(1, sqliteError(errcode, "as SQLite says it"));
      const refused = await addProject(library, { text: demoText, says: "" });
      expect([errcode, ...codesOf(refused)]).toEqual([errcode, code]);
      expect(refused.ok ? "" : refused.problems[0]?.message).toContain("as SQLite says it");
    }
    await library.close();
  });

  test("a fault of ours is not dressed up as one of the disk", async () => {
    expect(storageProblem(new TypeError("x is not a function"), "library.db")).toBeNull();
  });
});

describe("a library that can't be opened", () => {
  test("a file that is no database is left as it is", async () => {
    const folder = ownFolder();
    mkdirSync(folder);
    const text = "This was a shopping list and is no database at all. ".repeat(40);
    writeFileSync(join(folder, libraryFile), text);
    expect(codesOf(await openLibrary(folder))).toEqual(["library-damaged"]);
    expect(readFileSync(join(folder, libraryFile), "utf8")).toBe(text);
  });

  test("a damaged database is found by the check", async () => {
    const folder = ownFolder();
    const library = good(await openLibrary(folder));
    for (let i = 0; i < 30; i++) await addProject(library, { text: demoText, says: "Opened" });
    await library.close();
    const bytes = readFileSync(join(folder, libraryFile));
    bytes.fill(0xa5, bytes.length >> 1, (bytes.length >> 1) + 8192);
    writeFileSync(join(folder, libraryFile), bytes);
    const again = await openLibrary(folder);
    const found = again.ok ? again.value.check() : codesOf(again);
    expect(found).not.toEqual([]);
    if (again.ok) await again.value.close();
  });

  test("a file that another program holds is said to be locked", async () => {
    const folder = ownFolder();
    mkdirSync(folder);
    const other = new DatabaseSync(join(folder, libraryFile));
    other.exec("begin exclusive");
    other.exec("create table held (x)");
    try {
      expect(codesOf(await openLibrary(folder, { patience: 10 }))).toEqual(["library-locked"]);
    } finally {
      other.close();
    }
  });

  test("a folder that can't be made is named", async () => {
    const file = join(root, "a-file");
    writeFileSync(file, "");
    const refused = await openLibrary(join(file, "inside"));
    expect(codesOf(refused)).toEqual(["library-not-opened"]);
    expect(refused.ok ? "" : refused.problems[0]?.message).toContain("a-file");
  });

  test("a library of a newer program is refused and left alone", async () => {
    const folder = ownFolder();
    await good(await openLibrary(folder)).close();
    const file = new DatabaseSync(join(folder, libraryFile));
    file.exec(`update fact set value = '${librarySteps.length + 1}' where key = 'version'`);
    file.close();
    expect(codesOf(await openLibrary(folder))).toEqual(["newer-library"]);
  });
});

describe("an archive that is not one", () => {
  test.each([
    ["no ZIP", new Uint8Array([1, 2, 3]), "not-a-zip"],
    ["a ZIP without a manifest", zipOf(new Map([["a.txt", bytesOfText("x")]])), "no-manifest"],
    ["a manifest that is no JSON", zipOf(new Map([["manifest.json", bytesOfText("{")]])), "bad-manifest"],
    ["a manifest of something else", zipOf(new Map([["manifest.json", bytesOfText("{}")]])), "bad-manifest"],
  ])("%s is refused and nothing is taken over", async (_name, zip, code) => {
    const library = good(await openLibrary(ownFolder()));
    expect(codesOf(await importArchive(library, zip))).toContain(code);
    await library.close();
  });

  test("files that are missing or changed are named, all of them, and nothing is taken over", async () => {
    const library = good(await openLibrary(ownFolder()));
    const state = (number: number, file: string) => ({
      number,
      parent: null,
      saved: 1,
      says: "",
      name: null,
      file,
      sha256: "0".repeat(64),
    });
    const project = {
      id: "p",
      title: "t",
      head: 1,
      created: 1,
      saved: 1,
      removed: null,
      states: [state(1, "a"), state(2, "b")],
      records: [],
    };
    const manifest = { format: "glassdrum-archive", version: 1, projects: [project] };
    const zip = zipOf(
      new Map([
        ["manifest.json", bytesOfText(JSON.stringify(manifest))],
        ["a", bytesOfText("x")],
      ]),
    );
    expect(codesOf(await importArchive(library, zip))).toEqual(["archive-file-damaged", "archive-file-missing"]);
    expect(codesOf(await readProject(library, "p"))).toEqual(["no-such-project"]);
    await library.close();
  });
});

test("each platform keeps data in its usual place", () => {
  expect(dataFolder("linux", {}, "/home/mia")).toBe("/home/mia/.local/share/glassdrum");
  expect(dataFolder("linux", { XDG_DATA_HOME: "/data" }, "/home/mia")).toBe("/data/glassdrum");
  expect(dataFolder("linux", { XDG_DATA_HOME: "relative" }, "/home/mia")).toBe("/home/mia/.local/share/glassdrum");
  expect(dataFolder("darwin", {}, "/Users/mia")).toBe("/Users/mia/Library/Application Support/Glassdrum");
  expect(dataFolder("win32", { APPDATA: "C:/Users/mia/AppData/Roaming" }, "C:/Users/mia")).toContain("Glassdrum");
});
