import fc from "fast-check";
import { expect, test } from "vitest";
import { nthSmallest } from "./nthSmallest.ts";

test("one value of a list is the one that sorting would put there", () => {
  const lists = fc.array(fc.oneof(fc.double({ noNaN: true }), fc.integer({ min: 0, max: 3 })), { minLength: 1 });
  fc.assert(
    fc.property(lists, fc.nat(), (list, place) => {
      const n = place % list.length;
      // Sorting as numbers, where 0 and -0 stand in any order.
      expect(nthSmallest(Float64Array.from(list), n) + 0).toBe(Float64Array.from(list).sort()[n]! + 0);
    }),
    { seed: 1, numRuns: 500 },
  );
});

test("lists that are sorted, turned about or all alike are no slower cases", () => {
  const count = 200_001;
  for (const value of [(i: number) => i, (i: number) => count - 1 - i, () => 100_000])
    expect(
      nthSmallest(
        Float64Array.from({ length: count }, (_, i) => value(i)),
        100_000,
      ),
    ).toBe(100_000);
});
