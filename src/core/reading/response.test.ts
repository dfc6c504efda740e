import { describe, expect, test } from "vitest";
import { fitResponse } from "./response.ts";
import { simulateResponse } from "./simulateResponse.ts";

const frequency = Float64Array.from({ length: 121 }, (_, i) => 17500 + i * 20);
const section = { frequency: 18650, dampingRatio: 0.0176, gain: 1 };

describe("a frequency response", () => {
  test("gives the pole, and the half-power width beside it", () => {
    const { re, im } = simulateResponse({ sections: [section], frequency, noise: 0.1, seed: 2 });
    const outcome = fitResponse({ frequency, re, im });
    if (!outcome.ok) throw new Error(outcome.problems[0]?.message);
    const { dampingRatio, frequency: found } = outcome.value.values;
    expect(dampingRatio.low! < 0.0176 && 0.0176 < dampingRatio.high!).toBe(true);
    expect(found.value).toBeCloseTo(18650, -1);
    expect(outcome.value.secondOpinion.value).toBeCloseTo(0.0176, 3);
    expect(outcome.remarks).toEqual([]);
  });

  test("a first-order low-pass has no resonance, and is refused", () => {
    const u = Array.from({ length: 60 }, (_, i) => 0.1 * 1.15 ** i);
    const [re, im] = [u.map((x) => 1 / (1 + x * x)), u.map((x) => -x / (1 + x * x))];
    const read = fitResponse({ frequency: u.map((x) => 100 * x), re, im });
    expect(read.ok ? read.value.values : read.problems.map(({ code }) => code)).toEqual(["no-resonance"]);
  });

  test("a second section and a constant are taken in where the data demand them", () => {
    const second = { frequency: 19300, dampingRatio: 0.01, gain: 0.3 };
    const { re, im } = simulateResponse({ sections: [section, second], rest: 3, frequency, noise: 0.05, seed: 3 });
    const outcome = fitResponse({ frequency, re, im });
    expect(outcome.ok && outcome.value.sections.map((one) => Math.round(one.frequency.value / 50))).toEqual([373, 386]);
    expect(outcome.ok && outcome.value.included).toContain("constant");
    expect(outcome.ok && outcome.remarks.map(({ code }) => code)).toContain("second-section");
  });

  test("magnitudes alone do, and the uncertainty of the points is taken where it is given", () => {
    const { re, im } = simulateResponse({ sections: [section], frequency, noise: 0.1, seed: 5 });
    const magnitude = re.map((value, i) => Math.hypot(value, im[i]!));
    const free = fitResponse({ frequency, re: magnitude });
    const told = fitResponse({ frequency, re: magnitude, standard: frequency.map(() => 0.1) });
    expect(
      free.ok &&
        told.ok &&
        told.value.values.dampingRatio.standardUncertainty! / free.value.values.dampingRatio.standardUncertainty!,
    ).toBeCloseTo(1, 0);
  });

  test("a peak at the edge or with too few points says so", () => {
    const { re, im } = simulateResponse({ sections: [section], frequency, noise: 0.01, seed: 6 });
    const left = fitResponse({ frequency, re, im, to: 18500 });
    expect(left.ok && left.remarks.map(({ code }) => code)).toContain("peak-at-edge");
    const coarse = frequency.filter((_, i) => i % 15 === 0);
    const few = fitResponse({
      frequency: coarse,
      re: re.filter((_, i) => i % 15 === 0),
      im: im.filter((_, i) => i % 15 === 0),
    });
    expect(few.ok && few.remarks.map(({ code }) => code)).toContain("peak-sparse");
  });

  test.each([
    ["columns-unequal", { frequency: [1, 2], re: [1] }],
    ["too-few-points", { frequency: [1, 2, 3], re: [1, 2, 1] }],
    ["silent", { frequency: [1, 2, 3, 4, 5, 6, 7], re: [1, 1, 1, 1, 1, 1, 1] }],
  ])("%s is refused", (code, question) => {
    const outcome = fitResponse(question);
    expect(outcome.ok ? [] : outcome.problems.map((problem) => problem.code)).toEqual([code]);
  });
});
