import { expect, test } from "vitest";
import { armBias, biasOf, phaseAtRest } from "./bias.ts";
import type { Guide } from "./guide.ts";

/** Borosilicate crown: p11 and p12 from its printed stress-optic coefficients [bk7-stress]. */
const optics = { index: 1.5151, p11: 0.1168, p12: 0.2263, poissonRatio: 0.206, youngsModulus: 82e9 };
const guide: Guide = {
  at: 0,
  face: "front",
  depth: 3e-6,
  width: null,
  length: 20e-3,
  weight: 1,
  birefringence: 0,
  expansion: 7.1e-6,
  optics: { ...optics, indexPerKelvin: 2.4e-6 },
};
const wavelength = 633e-9;
const turns = (2 * Math.PI) / wavelength;

test("stress moves each mode's arm by its printed coefficient and by the shortening of the guide", () => {
  for (const [arm, coefficient] of [
    ["TE", -0.5e-12],
    ["TM", -3.3e-12],
  ] as const) {
    const shorter = -(0.206 * 1.5151) / 82e9;
    const { perStress } = armBias({ ...guide, arm }, wavelength, 0);
    // 0.01e-12: half the last digit of p11 and p12.
    expect(perStress / (turns * 20e-3) - shorter).toBeCloseTo(coefficient, 13);
  }
});

test("the arm of TM less that of TE is the polarimeter", () => {
  const [te, tm] = (["TE", "TM"] as const).map((arm) => armBias({ ...guide, arm }, wavelength, 0).perStress);
  expect((tm ?? 0) - (te ?? 0)).toBeCloseTo(biasOf(guide, wavelength).perStress, 12);
});

test("of two arms only the difference drifts, with expansion and index; balanced arms stand still", () => {
  const uneven = phaseAtRest({ ...guide, arm: "TE" }, wavelength, 1e-3);
  expect(uneven.perKelvin).toBeCloseTo(turns * 1e-3 * (7.1e-6 + 2.4e-6 / 1.5151), 9);
  expect(phaseAtRest({ ...guide, arm: "TE" }, wavelength, 0)).toMatchObject({ perKelvin: 0, perWavelength: -0 });
});
