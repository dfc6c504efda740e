import { describe, expect, test } from "vitest";
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import { lumpedShare, type PoleWithResidue, ringDown, stepAnswer, timeModel } from "../response/timeAnswers.ts";
import { type ClosePoles, withoutClosePoles } from "./closePoles.ts";

const rate = 2 * Math.PI * 6e3;

/** 1 / (1 + 2 i zeta omega / rate - (omega / rate)^2), its stiffness times 1 + i eta. */
const oscillator =
  (zeta: number, eta = 0) =>
  (omega: Complex): Complex => {
    const x = scale(omega, 1 / rate);
    const damped = add(complex(1, eta), multiply(complex(0, 2 * zeta), x));
    return divide(complex(1), add(damped, scale(multiply(x, x), -1)));
  };

/** R of the pole i zeta + root of sqrt(1 - zeta^2 + i eta): S = -rate^2 / ((omega - p) (omega - q)). */
function poleOf(zeta: number, eta: number): PoleWithResidue {
  const size = Math.hypot(1 - zeta ** 2, eta);
  const turns = Math.sqrt((size + 1 - zeta ** 2) / 2);
  const root = complex(turns, eta / (2 * turns));
  const omega = scale(add(complex(0, zeta), root), rate);
  return { omega, residue: divide(complex(-(rate ** 2)), scale(root, 2 * rate)) };
}

const given = (zeta: number, lossFactor = 0): ClosePoles => ({
  lossFactor,
  lossless: oscillator(zeta),
  singular: Number.POSITIVE_INFINITY,
});

const times = Array.from({ length: 40 }, (_, i) => (0.2 * i) / rate);
/** Step of a critically damped oscillator. Source: handbooks of vibration (closed form). */
const critical = times.map((time) => 1 - (1 + rate * time) * Math.exp(-rate * time));

const worst = (values: readonly number[], expected: readonly number[]) =>
  Math.max(...values.map((value, i) => Math.abs(value - expected[i]!)));

describe("two poles about to meet on the axis of decay", () => {
  test.each([0, 1e-3, 1e-2])(
    "step as one critically damped pair does, whatever a loss factor of %f makes of them",
    (eta) => {
      const zeta = 1 - 1e-6;
      const [pole] = [poleOf(zeta, eta)];
      const settled = withoutClosePoles([pole], given(zeta, eta));
      expect(worst(stepAnswer(timeModel(settled, 1, 1e9), times), critical)).toBeLessThan(1e-5);
      // The pole and its mirror image alone are no pair any more.
      if (eta > 0) expect(worst(stepAnswer(timeModel([pole], 1, 1e9), times), critical)).toBeGreaterThan(0.1);
    },
  );

  test("are taken together on the axis as well, and others are left alone", () => {
    const other: PoleWithResidue = { omega: complex(4 * rate, 0.1 * rate), residue: complex(0, 0) };
    const pair = [0.97, 1 / 0.97].map(
      (share): PoleWithResidue => ({ omega: complex(0, share * rate), residue: complex(1) }),
    );
    const settled = withoutClosePoles([other, ...pair], given((0.97 + 1 / 0.97) / 2));
    expect(settled).toContain(other);
    expect(settled.some(({ omega }) => omega.re === 0)).toBe(false);
    const [slow, fast] = [0.97 * rate, rate / 0.97];
    const exact = times.map((t) => 1 - (fast * Math.exp(-slow * t) - slow * Math.exp(-fast * t)) / (fast - slow));
    expect(worst(stepAnswer(timeModel(settled, 1, 1e9), times), exact)).toBeLessThan(1e-5);
  });

  test("are left where a hole's singularity lies between", () => {
    const pole = poleOf(1 - 1e-6, 0);
    expect(withoutClosePoles([pole], { ...given(1 - 1e-6), singular: rate })).toEqual([pole]);
  });
});

describe("what a tone leaves behind", () => {
  test("begins where the tone was, and says how much of that belongs to poles that are not listed", () => {
    const zeta = 0.3;
    const pole = poleOf(zeta, 0);
    const tone = { omega: rate, response: oscillator(zeta)(complex(rate)) };
    const whole = timeModel([pole], 1, 1e9);
    expect(lumpedShare(whole, tone)).toBeLessThan(1e-12);
    // At resonance S is imaginary: e^(-zeta w t) (cos wd t + zeta sin wd t / sqrt(1 - zeta^2)). Derived: free oscillation from rest at 1.
    const turns = Math.sqrt(1 - zeta ** 2);
    const free = times.map((time) => {
      const [angle, decay] = [turns * rate * time, Math.exp(-zeta * rate * time)];
      return decay * (Math.cos(angle) + (zeta * Math.sin(angle)) / turns);
    });
    expect(worst(ringDown(whole, tone, times), free)).toBeLessThan(1e-12);
    const half = timeModel([{ ...pole, residue: scale(pole.residue, 0.5) }], 1, 20e3);
    expect(ringDown(half, tone, [0])[0]).toBeCloseTo(1, 12);
    expect(lumpedShare(half, tone)).toBeCloseTo(0.5, 12);
    expect(lumpedShare(timeModel([], 1, 20e3), tone)).toBeCloseTo(1, 12);
  });
});
