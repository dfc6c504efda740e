import { describe, expect, test } from "vitest";
import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { type Balance, balanceTone } from "./harmonicBalance.ts";
import { forcesToThird } from "./overtones.ts";

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
});
