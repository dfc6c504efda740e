import { expect, test } from "vitest";
import { absolute, type Complex, complex, multiply, subtract } from "./complex.ts";
import { fromPowerSums } from "./powerSums.ts";

test.each([
  [[complex(0.3, -0.2)]],
  [[complex(1, 0), complex(-1, 0)]],
  [[complex(0.5, 0.1), complex(0.5, -0.1), complex(-0.2, 0.4)]],
  [[complex(0.9, 0), complex(0.1, 0.2), complex(-0.4, 0), complex(0.3, 0.31)]],
])("numbers %j come back from the sums of their powers", (numbers) => {
  const sums: Complex[] = [];
  let powers: readonly Complex[] = numbers;
  for (let k = 0; k < numbers.length; k++) {
    sums.push(powers.reduce((a, b) => ({ re: a.re + b.re, im: a.im + b.im })));
    powers = powers.map((power, i) => multiply(power, numbers[i]!));
  }
  const found = fromPowerSums(sums);
  expect(found.length).toBe(numbers.length);
  for (const number of numbers) {
    expect(Math.min(...found.map((one) => absolute(subtract(one, number))))).toBeLessThan(1e-8);
  }
});
