import { describe, expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { seededUniform } from "../../numerics/random.ts";
import { lineAnswer, lineSystem } from "./lineAnswer.ts";

const device = (at: number, gap: number | null = 40e-6) =>
  workedMicrophone({ across: 5e-3, thickness: 30e-6, gap, at });

describe("the answer to the load that is conjugate to the phase", () => {
  test("a guide at the center moves no odd shape", () => {
    const { even, odd } = lineAnswer(lineSystem(device(0)), complex(2 * Math.PI * 1000));
    expect(Math.hypot(odd.re, odd.im)).toBeLessThan(1e-12 * Math.hypot(even.re, even.im));
  });

  test("a guide off the center moves odd shapes too, and the mirrored guide the same", () => {
    const omega = complex(2 * Math.PI * 3000);
    const right = lineAnswer(lineSystem(device(2.25e-3)), omega);
    const left = lineAnswer(lineSystem(device(-2.25e-3)), omega);
    expect(Math.hypot(right.odd.re, right.odd.im)).toBeGreaterThan(0);
    expect(left.total.re).toBeCloseTo(right.total.re, 12);
    expect(left.odd.im / right.odd.im).toBeCloseTo(1, 9);
  });

  test("the film only takes energy: the imaginary part is never positive", () => {
    const random = seededUniform(4711);
    for (let i = 0; i < 40; i++) {
      const gap = 5e-6 * 100 ** random();
      const omega = complex(2 * Math.PI * 10 * 3000 ** random());
      const { even, odd } = lineAnswer(lineSystem(device(5e-3 * (random() - 0.5), gap)), omega);
      expect(even.im).toBeLessThan(0);
      expect(odd.im).toBeLessThanOrEqual(0);
    }
  });

  test("at rest and without film it falls as 1 / thickness when the depth scales along: z^2 over h^3", () => {
    const scaled = (factor: number) => {
      const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6 * factor, gap: null });
      const guides = microphone.guides.map((guide) => ({ ...guide, depth: 3e-6 * factor })) as [
        (typeof microphone.guides)[0],
      ];
      return lineAnswer(lineSystem({ ...microphone, guides }), complex(1e-3)).total.re;
    };
    expect(scaled(4) / scaled(1)).toBeCloseTo(1 / 4, 9);
  });
});
