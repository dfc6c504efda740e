/** Forty devices: as many poles found as counted on the whole system, and the engine has them to 1e-6. */
import { afterAll, describe, expect, test } from "vitest";
import { engineDevices } from "../engine/engineDevices.ts";
import { type JudgedPoles, judgePoles, polesSummary } from "../engine/judgePoles.ts";

describe("the search finds as many poles as the contour counts, and the engine has them to 1e-6", () => {
  const judged: JudgedPoles[] = [];

  afterAll(() => console.log(polesSummary(judged)));

  test.each(engineDevices(40, 11))("$says", ({ microphone }) => {
    const result = judgePoles(microphone);
    judged.push(result);
    expect(result.found).toBe(result.counted);
    for (const off of result.engineOff) expect(off).toBeLessThanOrEqual(1e-6);
  });
});
