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

  // Closed forms: 1 / f of a low-pass far above its corner, 1 / f^2 of a mass alone, f of a sound card's coupling capacitor, 1 / sqrt f.
  test.each([
    ["1 / f", (u: number) => 1 / u],
    ["1 / f^2", (u: number) => u ** -2],
    ["f", (u: number) => u],
    ["1 / sqrt f", (u: number) => u ** -0.5],
  ])("a slope, %s, is no resonance however narrow the band, and is refused with what was found and where", (_, of) => {
    for (const [to, count] of [
      [1200, 60],
      [2000, 20],
      [4000, 60],
    ] as const) {
      const places = Array.from({ length: count }, (__, i) => 1000 + ((to - 1000) * i) / (count - 1));
      for (const noise of [0, 1e-3]) {
        const re = places.map((f, i) => of(f / 1000) * (1 + noise * Math.sin(i * i)));
        const read = fitResponse({ frequency: places, re });
        expect(read.ok ? read.value.values : read.problems).toMatchObject([
          {
            code: "no-resonance",
            path: ["frequency"],
            message: expect.stringMatching(/points from 1.*Hz.*[Nn]eeded: /),
          },
        ]);
      }
    }
  });

  test("a damped resonance without a peak is still read", () => {
    // |1 / (1 - u^2 + 2 i zeta u)| with zeta 1.2 falls all the way.
    const u = Array.from({ length: 80 }, (_, i) => 0.1 * 1.06 ** i);
    const damped = fitResponse({
      frequency: u.map((x) => 3000 * x),
      re: u.map((x, i) => (1 + 1e-3 * Math.sin(i * i)) / Math.hypot(1 - x * x, 2.4 * x)),
    });
    expect(damped.ok && damped.value.values).toMatchObject({ dampingRatio: { value: expect.closeTo(1.2, 1) } });
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
