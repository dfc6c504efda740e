/** The 95 % intervals hold what they promise: 1,000 simulated records, damping ratios from 0.002 to 0.5. */
import { expect, test } from "vitest";
import { responseCoverage, ringDownCoverage } from "../coverage.ts";

const kinds = { "ring-downs": ringDownCoverage, responses: responseCoverage } as const;

test.each(["ring-downs", "responses"] as const)(
  "intervals of 500 %s hold the truth in 93 to 97 of 100 records",
  (kind) => {
    const { dampingRatio, frequency, refused } = kinds[kind](1, 500);
    expect(refused).toBe(0);
    for (const share of [dampingRatio, frequency]) {
      expect(share).toBeGreaterThanOrEqual(0.93);
      expect(share).toBeLessThanOrEqual(0.97);
    }
  },
);
