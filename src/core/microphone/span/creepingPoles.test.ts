import { describe, expect, it } from "vitest";
import { type Creeping, creepingPoles, settled, settledApart, slowPoles } from "./creepingPoles.ts";

/** S of poles that are known, given by rate and share: an exact sum. */
const shares = (...poles: readonly (readonly [rate: number, share: number])[]) => ({
  poles: poles.map(([rate, share]): Creeping => ({ rate, weight: -share * rate })),
  response: (rate: number) => poles.reduce((sum, [own, share]) => sum + share / (1 - rate / own), 0),
});

function expectPole(found: Creeping | null | undefined, expected: Creeping | undefined) {
  expect(found!.rate / expected!.rate).toBeCloseTo(1, 6);
  // The slope of a chord, between the last two steps.
  expect(Math.abs(found!.weight / expected!.weight - 1)).toBeLessThan(0.02);
}

describe("creepingPoles", () => {
  it("a start that is known to a thousandth settles in two or three steps, on its pole and its weight", () => {
    const { poles, response } = shares([300, 0.8], [9000, 0.2]);
    let asked = 0;
    const counted = (rate: number) => {
      asked++;
      return response(rate);
    };
    expectPole(settled(counted, { rate: 300.3, weight: -0.81 * 300 }, []), poles[0]);
    expect(asked).toBeLessThanOrEqual(3);
  });

  it("one that was found before is not found again", () => {
    const { poles, response } = shares([300, 0.5], [330, 0.4]);
    expectPole(settled(response, { rate: 315, weight: -0.4 * 330 }, [poles[0]!]), poles[1]);
  });

  it("a start far from any pole leads nowhere, and says so", () => {
    const { response } = shares([300, 0.5], [9000, 0.5]);
    expect(settled(response, { rate: 1500, weight: -0.5 * 1500 }, [])).toBeNull();
  });

  it("two that look like one from afar are told apart", () => {
    const { poles, response } = shares([556.754, 0.385], [578.99, 0.441], [8000, 0.2]);
    const lump = { rate: 568.7, weight: -0.826 * 568.7 };
    const found: Creeping[] = [];
    for (let k = 0; k < 2; k++) found.push(settledApart(response, lump.rate, { shown: [lump], found })!);
    found.sort((a, b) => a.rate - b.rate);
    found.forEach((one, k) => {
      expectPole(one, poles[k]);
    });
  });

  it("what is slower than the range is found from the other side of the axis, the strongest alone or with what is left", () => {
    const { poles, response } = shares([2, 0.6], [32, 0.1], [9000, 0.3]);
    const asked = { rest: 1, fast: 0.3, before: 60, heard: 0.2 };
    const strongest = slowPoles(response, { ...asked, strongest: 0.3 });
    expect(strongest).toHaveLength(1);
    expectPole(strongest![0], poles[0]);
    const all = slowPoles(response, { ...asked, strongest: 0.3, heard: 0.1 });
    expect(all).toHaveLength(2);
    expectPole(all![1], poles[1]);
  });

  it("nothing slower than the range is looked for where the response at rest lacks nothing", () => {
    const { response } = shares([9000, 1]);
    expect(slowPoles(response, { rest: 1, fast: 1, before: 60, strongest: 1, heard: 0.2 })).toEqual([]);
  });

  it("the search along the axis finds each pole that is alone within a step, and none where S is zero", () => {
    const { poles, response } = shares([20, 0.6], [300, 0.3], [9000, 0.1]);
    const found = creepingPoles(response, [1, 1000]);
    expect(found).toHaveLength(2);
    found.forEach((one, k) => {
      expectPole(one, poles[k]);
    });
  });
});
