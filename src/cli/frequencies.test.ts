import { describe, expect, test } from "vitest";
import { mostFrequencies, readFrequencies } from "./frequencies.ts";

const codes = (text: string) => {
  const outcome = readFrequencies(text);
  return outcome.ok ? [] : outcome.problems.map((problem) => `${problem.code} ${problem.path.join(" ")}`);
};
const values = (text: string) => {
  const outcome = readFrequencies(text);
  return outcome.ok ? outcome.value : null;
};

describe("the list of --at", () => {
  test("is kept in the order asked, repeated ones included", () => {
    expect(values("1 kHz,100Hz, 1 kHz")).toEqual([1000, 100, 1000]);
  });

  test("takes decimal commas where semicolons part it, and says how where commas do", () => {
    expect(values("1,5 kHz; 2 kHz")).toEqual([1500, 2000]);
    expect(codes("1,5 kHz")).toEqual(["no-unit --at 0"]);
    const outcome = readFrequencies("1,5 kHz");
    expect(outcome.ok ? "" : outcome.problems[0]?.message).toContain("semicolons");
  });

  test("is refused when empty, with every wrong entry named in one pass", () => {
    expect(codes("")).toEqual(["at-empty --at"]);
    expect(codes(" , ")).toEqual(["at-empty --at"]);
    expect(codes("100 Hz,,0 Hz,-1 Hz,5 mm,7,NaN Hz,2 GHz")).toEqual([
      "at-empty --at 1",
      "at-out-of-range --at 2",
      "at-out-of-range --at 3",
      "wrong-unit --at 4",
      "no-unit --at 5",
      "not-finite --at 6",
      "at-out-of-range --at 7",
    ]);
  });

  test("is refused when it is longer than one call answers", () => {
    expect(values(new Array(mostFrequencies).fill("1 Hz").join())).toHaveLength(mostFrequencies);
    expect(codes(new Array(mostFrequencies + 1).fill("1 Hz").join())).toEqual(["at-too-many --at"]);
  });
});
