import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readJson } from "./jsonReader.ts";
import { nodeAt, placeOf, plainValue } from "./text.ts";

const codes = (text: string) => readJson(text).problems.map(({ code }) => code);

describe("reading JSON with places", () => {
  it("reads what JSON.parse reads, for any value", () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const { root, problems } = readJson(text);
        expect(problems).toEqual([]);
        expect(root && plainValue(root)).toEqual(JSON.parse(text));
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });

  it("reads escapes, surrogates and odd spaces as JSON.parse does", () => {
    const text =
      '\t{ "a\\u00b5\\n\\"\\\\\\/" :\r\n [ -1.5E-3 , true,false , null,"\u007f\u0085\u2028\ud83d\ude00" ] }\n';
    const { root } = readJson(text);
    expect(root && plainValue(root)).toEqual(JSON.parse(text));
  });

  it("refuses whatever JSON.parse refuses, and never throws", () => {
    fc.assert(
      fc.property(fc.json(), fc.nat(), fc.string({ unit: "grapheme-ascii", maxLength: 2 }), (json, at, garbage) => {
        const place = at % (json.length + 1);
        const text = json.slice(0, place) + garbage + json.slice(place + (at % 3));
        let valid = true;
        try {
          JSON.parse(text);
        } catch {
          valid = false;
        }
        const { root, problems } = readJson(text);
        if (!valid) expect(problems.length).toBeGreaterThan(0);
        else expect(problems.every(({ code }) => code === "repeated-key" || code === "not-finite")).toBe(true);
        expect(root !== null || problems.length > 0).toBe(true);
      }),
      { seed: 20261125, numRuns: 1000 },
    );
  });

  it("keeps the place of every value", () => {
    const text = '{ "film": { "gap": "38 um" }, "list": [1, 22] }';
    const { root } = readJson(text);
    if (root === null) throw new Error("not read");
    const gap = nodeAt(root, ["film", "gap"]);
    const second = nodeAt(root, ["list", 1]);
    expect(gap && text.slice(gap.start, gap.end)).toBe('"38 um"');
    expect(second && text.slice(second.start, second.end)).toBe("22");
    expect(nodeAt(root, ["film", "edges"])).toBeNull();
    expect(nodeAt(root, ["list", 2])).toBeNull();
    expect(nodeAt(root, ["list", "x"])).toBeNull();
  });

  it.each([
    ["", "empty-file"],
    [" \n", "empty-file"],
    ["hello", "not-json"],
    ["{", "not-json"],
    ['{ "a": }', "not-json"],
    ['{ "a" 1 }', "not-json"],
    ['{ "a": 1 "b": 2 }', "not-json"],
    ["{ a: 1 }", "not-json"],
    ["{ 'a': 1 }", "not-json"],
    ['{ "a": 38 um }', "not-json"],
    ['{ "a": 1,5 }', "not-json"],
    ['{ "a": 01 }', "not-json"],
    ['{ "a": +1 }', "not-json"],
    ['{ "a": .5 }', "not-json"],
    ['{ "a": "never ends }', "not-json"],
    ['{ "a": "over\nthe line" }', "not-json"],
    ['{ "a": "\\x" }', "not-json"],
    ['{ "a": "\\u12" }', "not-json"],
    ["{} {}", "not-json"],
    ["[1, 2", "not-json"],
    ['{ "a": 1, }', "trailing-comma"],
    ["[1, 2,]", "trailing-comma"],
    ['{ "a": 1, "a": 2 }', "repeated-key"],
    ['{ "a": NaN }', "not-finite"],
    ['{ "a": -Infinity }', "not-finite"],
    ['{ "a": 1e999 }', "not-finite"],
    ['{ "a": 1 // one\n }', "comment"],
    ['{ /* one */ "a": 1 }', "comment"],
    [`${"[".repeat(300)}${"]".repeat(300)}`, "too-deep"],
  ])("%j is a problem: %s", (text, code) => expect(codes(text)).toEqual([code]));

  it("goes on after what it can read past, and names all of it with path, line and column", () => {
    const text = '{\n  "film": { "gap": NaN, },\n  "film": 1, // why\n}';
    expect(
      readJson(text).problems.map(({ code, path, message }) => [code, path, /line \d+, column \d+/.exec(message)?.[0]]),
    ).toEqual([
      ["not-finite", ["film", "gap"], "line 2, column 20"],
      ["trailing-comma", ["film"], "line 2, column 23"],
      ["repeated-key", ["film"], "line 3, column 3"],
      ["comment", [], "line 3, column 14"],
      ["trailing-comma", [], "line 3, column 12"],
    ]);
  });

  it("keeps __proto__ as a key like any other", () => {
    const { root } = readJson('{ "__proto__": { "a": 1 } }');
    const value = root && plainValue(root);
    expect(Object.keys(value as object)).toEqual(["__proto__"]);
    expect(Object.getPrototypeOf(value)).toBe(Object.prototype);
  });

  it("counts lines however they end", () => {
    expect(placeOf("a\r\nb\rc\nd", 7)).toBe("line 4, column 1");
    expect(placeOf("ab", 1)).toBe("line 1, column 2");
  });
});
