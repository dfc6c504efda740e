import { expect, test } from "vitest";
import { lowDiscrepancy, mostDimensions } from "./sobolSequence.ts";

test("among the first 2^k points each coordinate falls once into each of 2^k equal parts", () => {
  for (const seed of [1, 2, 77]) {
    const points = lowDiscrepancy({ dimensions: mostDimensions, seed });
    const count = 256;
    const seen = Array.from({ length: mostDimensions }, () => new Set<number>());
    for (let i = 0; i < count; i++)
      points(i).forEach((u, d) => {
        seen[d]?.add(Math.floor(u * count));
      });
    expect(seen.map((parts) => parts.size)).toEqual(seen.map(() => count));
  }
});

test("pairs of neighboring coordinates fill the square more evenly than chance", () => {
  const points = lowDiscrepancy({ dimensions: mostDimensions, seed: 5 });
  const count = 4096;
  const all = Array.from({ length: count }, (_, i) => points(i));
  for (let d = 0; d + 1 < mostDimensions; d++) {
    const cells = new Int32Array(256);
    for (const point of all) {
      const cell = Math.floor((point[d] as number) * 16) * 16 + Math.floor((point[d + 1] as number) * 16);
      cells[cell] = (cells[cell] as number) + 1;
    }
    // Chance would give chi squared 255 with a standard deviation of 22.6.
    const chiSquared = cells.reduce((sum, n) => sum + (n - 16) ** 2 / 16, 0);
    expect([d, chiSquared < 100]).toEqual([d, true]);
  }
});

test("a point depends on its index and the seed alone", () => {
  const points = lowDiscrepancy({ dimensions: 3, seed: 9 });
  const later = lowDiscrepancy({ dimensions: 3, seed: 9 });
  expect(later(1000)).toEqual(points(1000));
  expect(lowDiscrepancy({ dimensions: 3, seed: 10 })(1000)).not.toEqual(points(1000));
});

test("more coordinates than there are direction numbers for is a broken promise", () => {
  expect(() => lowDiscrepancy({ dimensions: mostDimensions + 1, seed: 1 })).toThrow(/at most 21/);
});
