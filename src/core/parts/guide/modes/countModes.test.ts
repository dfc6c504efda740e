import { expect, test } from "vitest";
import { seededUniform } from "../../../numerics/random.ts";
import { type CoreProfile, type Profile, sectionOf } from "../profile.ts";
import { countModes, leastHeld } from "./countModes.ts";
import type { CrossSection, Polarization } from "./crossSection.ts";
import { solveModes } from "./solveModes.ts";

const um = 1e-6;

/** A symmetric slab of normalized thickness V = k t sqrt(n1^2 - n2^2). */
function slab(v: number): CrossSection {
  const [high, low] = [1.52, 1.51];
  const thickness = (v * um) / (2 * Math.PI * Math.sqrt(high ** 2 - low ** 2));
  return {
    index: (_x, z) => (z < thickness ? high : low),
    across: [],
    depth: [thickness],
    cover: low,
    cutoff: { TE: low, TM: low },
    highest: { TE: high, TM: high },
    slab: true,
  };
}

test("a symmetric slab holds one mode more for every half turn of V", () => {
  const counted = [1, 3, 3.5, 6, 6.7, 9.2, 9.9].map((v) =>
    countModes(slab(v), { wavelength: um, polarization: "TE", odd: false, degree: 3 }),
  );
  // floor(V / pi) + 1, exact.
  expect(counted).toEqual([1, 1, 2, 2, 3, 3, 4]);
});

test("as many modes are counted as are solved for, of diffused, sharp and layered guides", () => {
  const random = seededUniform(11);
  const between = (from: number, to: number) => from + (to - from) * random();
  const core = (kind: CoreProfile["kind"]): Profile => ({
    kind,
    indexChange: between(0.004, 0.02),
    birefringence: 0.001,
    depth: between(1, 4) * um,
    below: between(0, 3) * um,
    width: between(2, 6) * um,
    edge: kind === "step" ? 0 : between(0.5, 2) * um,
    cover: 1,
  });
  const strip = (): Profile => ({
    kind: "layered",
    cover: 1,
    layers: [{ thickness: between(0.5, 2.5) * um, index: between(1.53, 1.56), width: between(1, 5) * um, beside: 1 }],
  });
  for (const profile of [core("erfc"), core("step"), core("gaussian"), strip(), strip()]) {
    const wavelength = between(0.6, 1.3) * um;
    const section = sectionOf(profile, 1.515, wavelength);
    for (const [polarization, odd] of [
      ["TE", false],
      ["TM", true],
    ] as const) {
      const question = { wavelength, polarization, odd };
      const solved = solveModes(section, { ...question, field: "semivectorial", count: 8, degree: 4 });
      const held = solved.filter(({ index }) => normalized(section, polarization, index) > leastHeld);
      expect(countModes(section, { ...question, degree: 3 }), JSON.stringify({ profile, ...question })).toBe(
        held.length,
      );
    }
  }
});

function normalized(section: CrossSection, polarization: Polarization, index: number): number {
  const low = section.cutoff[polarization] ** 2;
  return (index ** 2 - low) / (section.highest[polarization] ** 2 - low);
}

test("without a higher index nothing is counted", () => {
  const flat = { ...slab(3), highest: { TE: 1.51, TM: 1.51 } };
  expect(countModes(flat, { wavelength: um, polarization: "TM", odd: false, degree: 3 })).toBe(0);
});
