import { expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { atStep, bucklingStep, notBuckled } from "../../microphone/buckling.ts";
import type { Brief } from "../../project/brief.ts";
import { siteRemarks } from "./siteRemarks.ts";

const plain = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
// 5.30363 pi^2 D / a^2 = 359.3 N/m in compression buckles this square; -40 N/m a kelvin does it 8.98 K up.
const held = {
  ...plain,
  diaphragm: { ...plain.diaphragm, tensionPerKelvin: { across: -40, along: -40 } },
};
const site = (from: number, to: number) => ({ site: { temperature: [from, to] } }) as unknown as Brief;

test("a diaphragm that buckles within the site's temperatures is named with the temperature", () => {
  const step = bucklingStep(held.diaphragm, 20) ?? Number.NaN;
  expect(step).toBeCloseTo((5.30363 * Math.PI ** 2 * 1.715870875614604e-4) / 25e-6 / 40, 3);
  expect(notBuckled(atStep(held.diaphragm, 0.999 * step)).ok).toBe(true);
  expect(notBuckled(atStep(held.diaphragm, 1.001 * step)).ok).toBe(false);
  const remarks = siteRemarks(held, site(288.15, 308.15));
  expect(remarks.map(({ code }) => code)).toEqual(["buckles-at-site"]);
  expect(remarks[0]?.message).toContain("32.0");
});

test("nothing is said where it stays flat, or where no frame holds it", () => {
  expect(siteRemarks(held, site(288.15, 300.15))).toEqual([]);
  expect(siteRemarks(plain, site(200, 400))).toEqual([]);
});
