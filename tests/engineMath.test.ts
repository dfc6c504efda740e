import { expect, test } from "vitest";
import { engineMathIn, engineMathInCore } from "./engineMath.ts";

test("core takes nothing from the engine that rounds otherwise in another engine", () => {
  expect(engineMathInCore()).toEqual([]);
});

test("a sine, a power and Math taken apart are noticed; squares, roots and constants are not", () => {
  const planted = [
    "const a = Math.sin(1) + Math.PI + Math.sqrt(2);",
    "const b = 3 ** 2 + 2 ** 0.5;",
    "const { cos } = Math;",
    "let c = Math.pow(2, 3);",
    "c **= 3;",
  ].join("\n");
  expect(engineMathIn("here.ts", planted)).toEqual([
    "Math.sin in here.ts",
    "** in here.ts",
    "Math taken apart in here.ts",
    "Math.pow in here.ts",
    "** in here.ts",
  ]);
});
