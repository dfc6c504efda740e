import { describe, expect, test } from "vitest";
import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { sin } from "../../numerics/sine.ts";
import { totalDistortion } from "../../parts/readout/distortion.ts";
import { type Balance, balanceTone } from "./harmonicBalance.ts";
import { firstTerms, forcesToThird, phasesToFifth } from "./overtones.ts";

/** One mode in a film between slow flow and spring, its spring with a square and a cubic term. */
function mixed(count: number): Balance {
  const omega = 0.35;
  const multiples = Array.from({ length: count + 1 }, (_, k) => {
    const moved = divide(complex(1), complex(1 - (k * omega) ** 2, 0.3 * k * omega));
    const film: Complex = multiply(complex(0.1 * k, 0.3 * k * omega), moved);
    const zero = complex(0);
    return {
      moved: { sound: k === 1 ? moved : zero, plate: moved },
      film: { sound: k === 1 ? film : zero, plate: film },
      slow: complex(0.8, -0.1 * k),
    };
  });
  return { multiples, stiffening: { square: 0.7, cube: 0.4 }, closing: 0.5 };
}

describe("first powers of the pressure", () => {
  test("are what the balance comes to under a faint tone, all terms at once", () => {
    const powers = [2, 3, 2, 3];
    const faint = 0.02;
    const at = (p: number) =>
      balanceTone(mixed(6), p, null)!.forces.map((force, k) => scale(force, p ** -(powers[k] ?? 4)));
    const [one, half] = [at(faint), at(faint / 2)];
    forcesToThird(mixed(3)).forEach((kernel, k) => {
      // What the balance adds is of two powers more: a quarter at half the pressure.
      const limit = subtract(scale(half[k]!, 4 / 3), scale(one[k]!, 1 / 3));
      expect(absolute(subtract(kernel, limit)) / absolute(kernel)).toBeLessThan(1e-5);
    });
  });

  test("of two guides, weighed and curved, are what the distortion of a faint tone comes to", () => {
    const balance = mixed(3);
    const plate = balance.multiples.map(({ moved }) => moved.plate);
    const guides = [
      { sound: complex(0.9, -0.3), plate, square: 0.3, cube: -0.2 },
      { sound: complex(-0.2, 0.1), plate, square: -0.1, cube: 0.4 },
    ];
    const curves = [
      { weight: 1, rest: 1.2 },
      { weight: -0.6, rest: -1.9 },
    ];
    const forces = forcesToThird(balance);
    const share = (p: number) =>
      totalDistortion(
        phasesToFifth(balance, guides, forces, p).map((read, g) => {
          const { weight, rest } = curves[g]!;
          return { ...read, weight, rest, amplitude: 0.5, slope: -0.5 * sin(rest) };
        }),
      )!;
    const cotangents = curves.map(({ weight, rest }) => ({ weight, cotangent: 1 / Math.tan(rest) }));
    const { second } = firstTerms(balance, guides, forces, cotangents);
    const faint = 1e-4;
    expect(share(faint) / (second * faint)).toBeCloseTo(1, 5);
    // Where a guide's square leaves no second harmonic the third one is alone.
    const { multiples } = balance;
    const straight = { multiples, stiffening: { square: 0, cube: 0.4 }, closing: 0 };
    const alone = [{ sound: complex(0.9, -0.3), plate, square: 0, cube: -0.2 }];
    const thirdPowers = forcesToThird(straight);
    const only = firstTerms(straight, alone, thirdPowers, [{ weight: 1, cotangent: 0 }]);
    const [read] = phasesToFifth(straight, alone, thirdPowers, 10 * faint);
    const shared = totalDistortion([{ ...read!, weight: 1, rest: Math.PI / 2, amplitude: 0.5, slope: -0.5 }])!;
    expect(only.second).toBe(0);
    expect(shared / (only.third * (10 * faint) ** 2)).toBeCloseTo(1, 5);
  });
});
