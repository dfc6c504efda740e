import { expect, test } from "vitest";
import { problemLines } from "./en/problems.ts";
import { hanging, wrap } from "./wrap.ts";

test("a text breaks at blanks, and only there", () => {
  expect(wrap("one two  three\nfour", 9)).toEqual(["one two", "three", "four"]);
  expect(wrap("immeasurable", 4)).toEqual(["immeasurable"]);
  expect(wrap("", 4)).toEqual([]);
});

test("a number stays with its unit", () => {
  expect(wrap("gap of 38\u202fµm", 8)).toEqual(["gap of", "38\u202fµm"]);
});

test("lines after the first are indented as far as its mark", () => {
  expect(hanging("- ", "one two three", 9)).toEqual(["- one two", "  three"]);
});

test("a problem says where and what; one without a place says what", () => {
  expect(problemLines([{ code: "x", path: ["guide", 0, "at"], message: "Found 3." }])).toEqual([
    "  - guide[0].at: Found 3.",
  ]);
  expect(problemLines([{ code: "x", path: [], message: "Empty." }])).toEqual(["  - Empty."]);
});
