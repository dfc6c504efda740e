import { expect, test } from "vitest";
import { withoutPairs } from "./plainPairs.ts";

const written = (text: string) => withoutPairs("some.ts", text);

test("a pair of names and a pair of values become two declarations", () => {
  expect(written("const [a, b] = [1, 2];")).toBe("const a = 1, b = 2;");
  expect(written("let [re, im]= [ f(x), (g, h) ] ;")).toBe("let re = f(x), im = (g, h) ;");
  expect(written("for (let [i, j] = [0, 1]; i < j; i++) {}")).toBe("for (let i = 0, j = 1; i < j; i++) {}");
});

test("pairs stand inside values of pairs too", () => {
  expect(written("const [a, f] = [1, () => { const [c, d] = [2, 3]; return c + d; }], z = 4;")).toBe(
    "const a = 1, f = () => { const c = 2, d = 3; return c + d; }, z = 4;",
  );
});

test("what only looks like it is left alone", () => {
  for (const text of [
    "const [a, b] = list;",
    "const [a, b] = [1];",
    "const [a, ...b] = [1, 2];",
    "const [a = 1, b] = [x, y];",
    "const [[a], b] = [[1], 2];",
    "const [a, b] = [...x, 1];",
    "const [, b] = [f(), 1];",
    "const [a, b]: Pair = [1, 2];",
    "const [a, b] = [1, 2] as const;",
    "[a, b] = [b, a];",
    "const x = '[a, b] = [1, 2]';",
  ])
    expect(written(text)).toBeNull();
});
