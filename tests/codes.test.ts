/** Every code of a problem or a remark is named by a test, so that none is there that nobody saw raised. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../", import.meta.url));

function texts(folder: string, wanted: RegExp): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && wanted.test(entry.name))
    .map((entry) => readFileSync(join(entry.parentPath, entry.name), "utf8"));
}

/** Codes as they are written: `code: "no-film"`, and the first argument of the functions that make a problem of it. */
const written = [
  /\bcode(?:: | = )"([a-z0-9-]+)"/g,
  /\b(?:at|no|note|positive|say|stop|wrong)\(\s*"([a-z]+(?:-[a-z0-9]+)+)",\s/g,
];
const codesIn = (text: string) => written.flatMap((form) => Array.from(text.matchAll(form), ([, code]) => code!));

test("every code in the tree is named by a test", () => {
  const codes = new Set(texts("src", /(?<!\.test)\.tsx?$/).flatMap(codesIn));
  expect(codes.size).toBeGreaterThan(150);
  const tests = [...texts("src", /\.test\.ts$/), ...["truth", "tests"].flatMap((folder) => texts(folder, /\.ts$/))];
  const named = new Set(tests.flatMap((text) => text.match(/[a-z0-9]+(?:-[a-z0-9]+)*/g) ?? []));
  expect([...codes].filter((code) => !named.has(code))).toEqual([]);
});
