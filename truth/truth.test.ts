import { describe, expect, test } from "vitest";
import { collectRows, judge } from "./collect.ts";

const files = await collectRows();

test("there are rows from outside, and every file of them can be read", () => {
  expect(files.filter((file) => file.broken !== null)).toEqual([]);
  expect(files.length).toBeGreaterThan(0);
});

for (const file of files.filter((candidate) => candidate.rows.length > 0))
  describe(file.name, () => {
    for (const [i, row] of file.rows.entries())
      test(`${i + 1}. ${row.what}`, () => {
        const { got, error, thrown } = judge(row);
        expect(thrown, "our number").toBeNull();
        expect(
          error,
          `got ${got}, expected ${row.expected} within ${row.within} (${row.why}); ${row.source}`,
        ).toBeLessThanOrEqual(row.within);
      });
  });

describe("the gate itself", () => {
  const row = {
    what: "one",
    got: () => 1,
    expected: 1,
    within: 1e-9,
    why: "exact",
    origin: "exact",
    source: "counting",
  } as const;

  test("passes a number that agrees, relative or absolute where zero is expected", () => {
    expect(judge(row).passed).toBe(true);
    expect(judge({ ...row, got: () => 1e-10, expected: 0 }).passed).toBe(true);
  });

  test("fails a number that is off, not finite or thrown away", () => {
    expect(judge({ ...row, got: () => 1.1 }).passed).toBe(false);
    expect(judge({ ...row, got: () => Number.NaN })).toMatchObject({ passed: false, got: null, error: null });
    expect(judge({ ...row, got: () => Number.POSITIVE_INFINITY }).passed).toBe(false);
    const broken = () => {
      throw new Error("no convergence");
    };
    expect(judge({ ...row, got: broken })).toMatchObject({ passed: false, thrown: "no convergence" });
  });
});
