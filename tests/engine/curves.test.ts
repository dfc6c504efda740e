/** A rational function through few frequencies against responses in closed form; thousands of them in tests/deep. */
import { describe, expect, test } from "vitest";
import { bandAround } from "../../src/core/microphone/response/band.ts";
import { sampleCurve } from "../../src/core/microphone/response/curve.ts";
import { flatnessLeft } from "../../src/core/microphone/response/flatness.ts";
import { anyResponse, curveError } from "./anyResponse.ts";

describe("a curve", () => {
  test("of narrow peaks, nulls, a vent and a lossy layer is within its tolerance where it was not asked", () => {
    let samples = 0;
    for (let seed = 1; seed <= 80; seed++) {
      const given = anyResponse(seed);
      const curve = sampleCurve(given.respond, { ...given, tolerance: 1e-4 });
      samples += curve.samples;
      expect(curve.converged, `seed ${seed}`).toBe(true);
      expect(curveError(curve, given), `seed ${seed}`).toBeLessThan(1e-4);
    }
    expect(samples / 80).toBeLessThan(28);
  });

  test("of one resonance is that resonance, with as few as it begins with and two tests", () => {
    const respond = (f: number) => {
      const [a, b] = [1 - f * f * 1e-6, f * 2e-5];
      return { re: a / (a * a + b * b), im: -b / (a * a + b * b) };
    };
    const curve = sampleCurve(respond, { from: 10, to: 5000, floor: 1e-3, tolerance: 1e-6 });
    expect(curve.samples).toBeLessThanOrEqual(15);
    expect(
      curveError(curve, { respond, floor: 1e-3, places: Float64Array.of(11, 990, 1000, 1010, 4999) }),
    ).toBeLessThan(1e-9);
  });

  test("of nothing, of one frequency, and of what is no smooth function ends", () => {
    const nothing = sampleCurve(() => ({ re: 0, im: 0 }), {
      from: 10,
      to: 1e4,
      floor: Number.MIN_VALUE,
      tolerance: 1e-4,
    });
    expect(nothing).toMatchObject({ converged: true, error: 0 });
    const one = sampleCurve(() => ({ re: 2, im: 1 }), { from: 100, to: 100, floor: 1e-3, tolerance: 1e-4 });
    expect(curveError(one, { respond: () => ({ re: 2, im: 1 }), floor: 1e-3, places: Float64Array.of(100) })).toBe(0);
    const rough = (f: number) => ({ re: 1 + ((f * 7919) % 1), im: 0 });
    const torn = sampleCurve(rough, { from: 10, to: 1e4, floor: 1e-3, tolerance: 1e-4, most: 41 });
    expect(torn.converged).toBe(false);
    expect(torn.samples).toBeLessThan(48);
    const noNumber = sampleCurve(() => ({ re: Number.NaN, im: 0 }), {
      from: 10,
      to: 1e4,
      floor: 1e-3,
      tolerance: 1e-4,
      most: 41,
    });
    expect(noNumber.converged).toBe(false);
  });

  test("stops where digits end: noise of 1e-9 under a tolerance of 3e-8", () => {
    const smooth = anyResponse(3);
    const rough = (f: number) => {
      const { re, im } = smooth.respond(f);
      return { re: re * (1 + 1e-9 * (((f * 7919) % 1) - 0.5)), im };
    };
    const curve = sampleCurve(rough, { ...smooth, tolerance: 3e-8 });
    expect(curve.converged).toBe(true);
    expect(curve.samples).toBeLessThan(80);
  });
});

/** |S|^2 = 1 / ((1 - r^2)^2 + (2 zeta r)^2), which rises by 2 dB and falls by 2 dB where a quadratic in r^2 says. */
const damping = 0.3;
const resonator = (f: number) => {
  const r = f / 1000;
  const [a, b] = [1 - r * r, 2 * damping * r];
  return { re: a / (a * a + b * b), im: -b / (a * a + b * b) };
};
const leaves = (squared: number) => {
  const b = 2 * damping * damping - 1;
  return [-1, 1].map((sign) => 1000 * Math.sqrt(-b + sign * Math.sqrt(b * b - 1 + 1 / squared)));
};

describe("where a response stays level", () => {
  const curve = sampleCurve(resonator, { from: 1, to: 3000, floor: 1e-3, tolerance: 1e-8 });
  // From 1 Hz, where |S| is 1 to a millionth and known: its level there.
  const level = resonator(1).re ** 2 + resonator(1).im ** 2;

  test("ends where the closed form does", () => {
    const [rises] = leaves(level * 10 ** 0.2);
    const found = bandAround(curve, { reference: 1, within: 2, points: 240 });
    expect(found.from).toBeNull();
    expect(found.to! / rises!).toBeCloseTo(1, 7);
  });

  test("is looked at downwards too, and a peak beside the places is seen where it is named", () => {
    const [, falls] = leaves(0.25);
    const down = bandAround(curve, { reference: falls!, within: 2, points: 240 });
    const [, back] = leaves(0.25 * 10 ** 0.2);
    expect(down.from! / back!).toBeCloseTo(1, 7);
    const narrow = (f: number) => {
      const r = f / 1234.5;
      const [a, b] = [1 - r * r, 2e-6 * r];
      return { re: 1 + (1e-5 * a) / (a * a + b * b), im: (-1e-5 * b) / (a * a + b * b) };
    };
    const peaked = sampleCurve(narrow, { from: 10, to: 5000, floor: 1e-3, tolerance: 1e-8 });
    const asked = { reference: 100, within: 2, points: 240 };
    expect(bandAround(peaked, asked).to).toBeNull();
    expect(bandAround(peaked, { ...asked, besides: [1234.5] }).to).toBeCloseTo(1234.5, 0);
  });

  test("what is left of the room is that of the highest and the lowest place", () => {
    const [rises] = leaves(level * 10 ** 0.2);
    const left = flatnessLeft(curve, { reference: 1, end: rises!, within: 2, besides: [] });
    expect(left.above).toBeCloseTo(0, 5);
    expect(left.below).toBeCloseTo(2, 9);
    // The top of the peak: 1 / (2 zeta sqrt(1 - zeta^2)) over 1, at sqrt(1 - 2 zeta^2).
    const top = 20 * Math.log10(1 / (2 * damping * Math.sqrt(1 - damping ** 2) * Math.sqrt(level)));
    const beyond = flatnessLeft(curve, {
      reference: 1,
      end: 1100,
      within: 2,
      besides: [1000 * Math.sqrt(1 - 2 * damping ** 2)],
    });
    expect(beyond.above).toBeCloseTo(2 - top, 6);
  });
});
