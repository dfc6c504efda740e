import { expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { atStep, bucklingStep, notBuckled } from "../../microphone/rest/buckling.ts";
import type { Brief } from "../../project/brief.ts";
import { siteRemarks } from "./siteRemarks.ts";

const plain = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
// 5.30363 pi^2 D / a^2 = 359.3 N/m in compression buckles this square; -40 N/m a kelvin does it 8.98 K up.
const held = {
  ...plain,
  diaphragm: { ...plain.diaphragm, tensionPerKelvin: { across: -40, along: -40 } },
};
const site = (from: number, to: number, more: Partial<Brief["site"]> = {}): Pick<Brief, "site" | "loudest"> => ({
  site: {
    temperature: [from, to],
    pressure: null,
    humidity: null,
    staticOverpressure: null,
    rise: null,
    precautions: [],
    ...more,
  },
  loudest: null,
});
const far = { deflection: 4.6e-9, contact: null };

test("a diaphragm that buckles within the site's temperatures is named with the temperature", () => {
  const step = bucklingStep(held.diaphragm, 20) ?? Number.NaN;
  expect(step).toBeCloseTo((5.30363 * Math.PI ** 2 * 1.715870875614604e-4) / 25e-6 / 40, 3);
  expect(notBuckled(atStep(held.diaphragm, 0.999 * step)).ok).toBe(true);
  expect(notBuckled(atStep(held.diaphragm, 1.001 * step)).ok).toBe(false);
  const remarks = siteRemarks(held, site(288.15, 308.15), far);
  expect(remarks.map(({ code }) => code)).toEqual(["buckles-at-site"]);
  expect(remarks[0]?.message).toContain("32.0");
});

test("nothing is said where it stays flat, or where no frame holds it", () => {
  expect(siteRemarks(held, site(288.15, 300.15), far)).toEqual([]);
  expect(siteRemarks(plain, site(200, 400), far)).toEqual([]);
});

const filmed = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 20e-6 });

test("dew is said where the most humid air of the site meets its coldest place, in a device that water can close", () => {
  const damp = site(288.15, 308.15, { humidity: [0.2, 0.8] });
  expect(siteRemarks(filmed, damp, far).map(({ code }) => code)).toEqual(["dew-at-site"]);
  expect(siteRemarks(plain, damp, far)).toEqual([]);
  expect(siteRemarks(filmed, site(288.15, 308.15, { humidity: [0.1, 0.2] }), far)).toEqual([]);
});

test("outdoors dust closes a narrow vent; a wide one is not named", () => {
  const vented = (diameter: number) => ({
    ...filmed,
    back: {
      cavity: { volume: 1e-7, surface: 2e-4 },
      vent: { shape: "round" as const, diameter, length: 3e-3, exposed: false },
      leak: null,
    },
  });
  const outside = site(288, 290, { precautions: ["outdoors"] });
  expect(siteRemarks(vented(0.1e-3), outside, far).map(({ code }) => code)).toEqual(["dust-at-site"]);
  expect(siteRemarks(vented(0.5e-3), outside, far)).toEqual([]);
});

test("the wall is named where the loudest sound or the site's overpressure brings the diaphragm to it", () => {
  const loud = { ...site(288, 290), loudest: { atLeastDb: 150, distortion: 0.03, at: 1000, must: false } };
  expect(siteRemarks(filmed, loud, { ...far, contact: 149 }).map(({ code }) => code)).toEqual(["meets-wall"]);
  expect(siteRemarks(filmed, loud, { ...far, contact: 151 })).toEqual([]);
  // 4.6 nm a pascal: 20 um at 4.3 kPa.
  const pressed = (pascals: number) => siteRemarks(filmed, site(288, 290, { staticOverpressure: pascals }), far);
  expect(pressed(4500).map(({ code }) => code)).toEqual(["meets-wall"]);
  expect(pressed(4200)).toEqual([]);
});
