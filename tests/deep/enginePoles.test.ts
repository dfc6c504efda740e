/** Two hundred devices: as many poles found as counted on the whole system, and the engine has all of them to 1e-6 and no others. */
import { describe, expect, test } from "vitest";
import { engineDevices } from "../engine/engineDevices.ts";
import { judgePoles, polesSummary } from "../engine/judgePoles.ts";

// Judged before the tests begin: some devices take longer than a test may.
const judged = engineDevices(200, 11).map(({ microphone, says }) => ({ says, result: judgePoles(microphone) }));
console.log(polesSummary(judged.map(({ result }) => result)));

describe("the search finds as many poles as the contour counts, and the engine has them to 1e-6", () => {
  test.each(judged)("$says", ({ result }) => {
    expect(result.found).toBe(result.counted);
    for (const off of [...result.engineOff, ...result.realOff]) expect(off).toBeLessThanOrEqual(1e-6);
    expect(result.more).toBe(0);
  });
});
