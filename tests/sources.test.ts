import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("../", import.meta.url));

/** A source's key: two or more words joined by hyphens, in brackets. Attribute selectors of pages are not. */
const keyPattern = /\[((?!data-|aria-)[a-z][a-z0-9]+(?:-[a-z0-9.]+)+)\]/g;

function keysIn(text: string): string[] {
  return [...text.matchAll(keyPattern)].map((match) => match[1] ?? "");
}

function filesUnder(folder: string): string[] {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.(ts|tsx|md)$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

/** Keys that the text leads to but docs/sources.md does not list, with one file each. */
function unlisted(used: ReadonlyMap<string, string>, listed: ReadonlySet<string>): string[] {
  return [...used].filter(([key]) => !listed.has(key)).map(([key, file]) => `${key} in ${file}`);
}

const sources = readFileSync(join(root, "docs/sources.md"), "utf8");
const listed = [...sources.matchAll(/^- \*\*\[([^\]]+)\]\*\*/gm)].map((match) => match[1] ?? "");

describe("sources", () => {
  test("every key in src/, truth/ and docs/theory/ leads to an entry of docs/sources.md", () => {
    const used = new Map<string, string>();
    for (const file of ["src", "truth", "docs/theory"].flatMap(filesUnder))
      for (const key of keysIn(readFileSync(file, "utf8"))) used.set(key, file.slice(root.length));
    expect(used.size).toBeGreaterThan(10);
    expect(unlisted(used, new Set(listed))).toEqual([]);
  });

  test("a key without an entry is noticed", () => {
    const used = new Map(keysIn("see [nobody-1900] and [roark-7]").map((key) => [key, "here"]));
    expect(unlisted(used, new Set(["roark-7"]))).toEqual(["nobody-1900 in here"]);
  });

  test("no key stands twice", () => {
    expect(listed.length).toBe(new Set(listed).size);
  });

  test("every entry says whether it was seen or remembered", () => {
    const entries = sources.split("\n").filter((line) => line.startsWith("- **["));
    expect(entries.filter((entry) => !/seen|from memory/i.test(entry))).toEqual([]);
  });
});
