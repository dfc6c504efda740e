import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Path } from "../problem.ts";
import { readJson } from "./jsonReader.ts";
import { type Json, type JsonNode, plainValue } from "./text.ts";
import { removeAt, writeAt } from "./textChange.ts";

function rootOf(text: string): JsonNode {
  const { root } = readJson(text);
  if (root === null) throw new Error("not read");
  return root;
}

function written(text: string, path: Path, value: string): string {
  const outcome = writeAt(text, rootOf(text), path, value);
  return outcome.ok ? outcome.value : (outcome.problems[0]?.code ?? "");
}

const removed = (text: string, path: Path) => removeAt(text, rootOf(text), path);

/** Paths of all values below the root. */
function pathsOf(value: Json, path: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [path];
  const inner = Array.isArray(value)
    ? value.flatMap((item, i) => pathsOf(item, [...path, i]))
    : Object.entries(value).flatMap(([key, item]) => pathsOf(item, [...path, key]));
  return [path, ...inner];
}

describe("changing one value of a text", () => {
  it("replaces that value's text and no other character", () => {
    expect(written('{ "a" : 1,\n\t"b":[ 2,3 ] }', ["b", 1], '"x"')).toBe('{ "a" : 1,\n\t"b":[ 2,"x" ] }');
  });

  it("keeps all other bytes, wherever the value stands", () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 4 }), fc.nat({ max: 2 }), fc.nat(), (json, spaces, pick) => {
        const text = spaces === 0 ? json : JSON.stringify(JSON.parse(json), null, spaces);
        const root = rootOf(text);
        const paths = pathsOf(plainValue(root));
        const path = paths[pick % paths.length] ?? [];
        const outcome = writeAt(text, root, path, '"changed"');
        if (!outcome.ok) throw new Error("refused");
        const [before, after] = around(outcome.value);
        expect(JSON.parse(outcome.value)).toEqual(replaced(JSON.parse(text), path));
        expect(text.startsWith(before) && text.endsWith(after)).toBe(true);
        expect(before.length + after.length).toBeLessThanOrEqual(text.length);
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });

  it("adds a key in the layout of its neighbors", () => {
    expect(written('{ "a": 1 }', ["b"], "2")).toBe('{ "a": 1, "b": 2 }');
    expect(written('{\n  "a": 1\n}', ["b"], "2")).toBe('{\n  "a": 1,\n  "b": 2\n}');
    expect(written('{"a":1}', ["b"], "2")).toBe('{"a":1,"b":2}');
    expect(written("{}", ["b"], "2")).toBe('{ "b": 2 }');
    expect(written('{ "a": [1] }', ["a", 1], "2")).toBe('{ "a": [1,2] }');
  });

  it("makes the groups on the way, in place of null too", () => {
    expect(written('{ "a": 1 }', ["film", "gap"], '"1 um"')).toBe('{ "a": 1, "film": { "gap": "1 um" } }');
    expect(written('{ "film": null }', ["film", "gap"], '"1 um"')).toBe('{ "film": { "gap": "1 um" } }');
  });

  it("refuses a path through a plain value or past the end of a list", () => {
    expect(written('{ "a": 1 }', ["a", "b"], "2")).toBe("not-a-group");
    expect(written('{ "a": [1] }', ["a", 3], "2")).toBe("no-such-item");
    expect(written('{ "a": [1] }', ["a", "b"], "2")).toBe("no-such-item");
  });

  it("removes a key with its comma", () => {
    expect(removed('{ "a": 1, "b": 2, "c": 3 }', ["b"])).toBe('{ "a": 1, "c": 3 }');
    expect(removed('{ "a": 1, "b": 2 }', ["b"])).toBe('{ "a": 1 }');
    expect(removed('{ "a": 1, "b": 2 }', ["a"])).toBe('{ "b": 2 }');
    expect(removed('{ "a": { "b": 2 } }', ["a", "b"])).toBe('{ "a": {} }');
    expect(removed('{ "a": [1, 2] }', ["a", 1])).toBe('{ "a": [1] }');
    expect(removed('{ "a": 1 }', ["x"])).toBe('{ "a": 1 }');
  });

  it("what was added can be removed again, byte for byte", () => {
    for (const text of ['{ "a": 1 }', '{\n  "a": 1\n}', '{"a":1}'])
      expect(removed(written(text, ["b"], "2"), ["b"])).toBe(text);
  });
});

/** What stands before and after the new value. */
function around(changed: string): [string, string] {
  const at = changed.indexOf('"changed"');
  return [changed.slice(0, at), changed.slice(at + '"changed"'.length)];
}

function replaced(value: Json, path: Path): Json {
  const [step, ...rest] = path;
  if (step === undefined) return "changed";
  if (Array.isArray(value)) return value.map((item, i) => (i === step ? replaced(item, rest) : item));
  const group = value as { readonly [key: string]: Json };
  return { ...group, [step]: replaced(group[step] ?? null, rest) };
}
