/** Every page and picture of docs/ that a text or a comment leads to is there. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** A path into docs/ that names a file: "docs/theory/film.md". A folder, "docs/theory/", counts with its slash. */
const pathPattern = /(?<![\w/.-])docs\/(?:[A-Za-z0-9_-]+\/)*(?:[A-Za-z0-9_-]+(?:\.[a-z0-9-]+)+)?/g;

/** Links of a Markdown page, without those that leave the repository or stay on the page. */
const linkPattern = /\]\((?![a-z]+:|#)([^)#\s]+)/g;

/** A page of the theory called by its name alone: `film.md`. */
const neighborPattern = /`([A-Za-z]+\.md)`/g;

const matches = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map(([all, inner]) => inner ?? all);

function filesUnder(folder: string, ending: RegExp): string[] {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

const pagesAtTop = readdirSync(root)
  .filter((name) => name.endsWith(".md"))
  .map((name) => join(root, name));

/** Everything that a file leads to, as full paths. */
function targets(file: string, text: string): string[] {
  const found = matches(text, pathPattern).map((path) => join(root, path));
  if (!file.endsWith(".md")) return found;
  const beside = (path: string) => resolve(dirname(file), path);
  found.push(...matches(text, linkPattern).map(beside));
  if (file.startsWith(join(root, "docs/theory"))) found.push(...matches(text, neighborPattern).map(beside));
  return found;
}

const missing = (file: string, text: string): string[] =>
  targets(file, text)
    .filter((path) => !existsSync(path))
    .map((path) => `${relative(root, path)}, named in ${relative(root, file)}`);

describe("links into docs/", () => {
  test("every docs/ path in src, truth, tests, bench, examples, scripts, docs and the pages at the top exists", () => {
    const files = [
      ...["src", "truth", "tests", "bench", "examples", "scripts"].flatMap((folder) => filesUnder(folder, /\.tsx?$/)),
      ...filesUnder("docs", /\.md$/),
      ...pagesAtTop,
    ].filter((file) => file !== fileURLToPath(import.meta.url));
    const texts = files.map((file) => [file, readFileSync(file, "utf8")] as const);
    expect(texts.flatMap(([file, text]) => targets(file, text)).length).toBeGreaterThan(20);
    expect(texts.flatMap(([file, text]) => missing(file, text))).toEqual([]);
  });

  test("a comment, a link and a neighbor that lead nowhere are noticed", () => {
    expect(missing(join(root, "src/x.ts"), "// Derivation: docs/theory/nothing.md.")).toEqual([
      "docs/theory/nothing.md, named in src/x.ts",
    ]);
    expect(missing(join(root, "docs/x.md"), "[a](theory/film.md#slip) [b](theory/none.md)")).toEqual([
      "docs/theory/none.md, named in docs/x.md",
    ]);
    expect(missing(join(root, "docs/theory/x.md"), "see `film.md` and `gone.md`")).toEqual([
      "docs/theory/gone.md, named in docs/theory/x.md",
    ]);
  });

  test("addresses on the net and places on the same page are no links into docs/", () => {
    expect(targets(join(root, "README.md"), "[a](https://example.org/docs/none.md) [b](#there)")).toEqual([]);
  });
});
