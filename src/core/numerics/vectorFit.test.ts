import { expect, test } from "vitest";
import { add, type Complex, complex, divide, subtract } from "./complex.ts";
import { vectorFit } from "./vectorFit.ts";

test("poles, residues and constants of two responses are found again from far starts", () => {
  const poles: Complex[] = [complex(-3), complex(-400), { re: -20, im: 900 }];
  const residues: Complex[][] = [
    [complex(2), complex(-50), { re: 10, im: -400 }],
    [complex(-1), complex(800), { re: 0, im: 70 }],
  ];
  const constants = [0, 0.25];
  const omega = Array.from({ length: 60 }, (_, i) => 0.1 * 10 ** (i / 12));
  const at = (which: number, w: number): Complex =>
    poles.reduce((sum, pole, k) => {
      const r = residues[which]![k]!;
      const one = add(sum, divide(r, subtract(complex(0, w), pole)));
      return pole.im === 0
        ? one
        : add(one, divide({ re: r.re, im: -r.im }, subtract(complex(0, w), { re: pole.re, im: -pole.im })));
    }, complex(constants[which]!));
  const fit = vectorFit(
    omega,
    [0, 1].map((which) => ({ values: omega.map((w) => at(which, w)), constant: which === 1, floor: 1e-6 })),
    { start: [complex(-1), complex(-1000), { re: -50, im: 500 }], unit: 1000, rounds: 20, within: 1e-12 },
  );
  expect(Math.max(...fit.errors)).toBeLessThan(1e-9);
  const order = fit.poles
    .map((pole, k) => ({ pole, k }))
    .sort((a, b) => Math.hypot(a.pole.re, a.pole.im) - Math.hypot(b.pole.re, b.pole.im));
  order.forEach(({ pole, k }, i) => {
    expect(pole.re / poles[i]!.re).toBeCloseTo(1, 7);
    expect(pole.im).toBeCloseTo(poles[i]!.im, 5);
    fit.terms.forEach(({ residues: found }, which) => {
      expect(found[k]!.re).toBeCloseTo(residues[which]![i]!.re, 5);
      expect(found[k]!.im).toBeCloseTo(residues[which]![i]!.im, 5);
    });
  });
  expect(fit.terms[1]!.constant).toBeCloseTo(0.25, 9);
});
