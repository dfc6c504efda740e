import { expect, test } from "vitest";
import { demo } from "../../../../tests/demoProject.ts";
import { good } from "../../../../tests/outcomes.ts";
import { changeValue } from "../../project/load.ts";
import { contradictions } from "./contradictions.ts";

const asked = (brief: object) => good(contradictions(good(changeValue(demo, "brief", JSON.stringify(brief)))));
const band = (to: string) => ({ from: "20 Hz", to, within: "2 dB" });

test("the demo asks for nothing that contradicts itself", () => {
  expect(good(contradictions(demo))).toEqual([]);
});

test("wide, sensitive and quiet at once is refused with both reasons", () => {
  const found = asked({
    band: band("16 kHz"),
    sensitivity: { atLeast: "1 mrad/Pa" },
    noise: { atMost: "30 dB" },
  });
  expect(found.map(({ requirement }) => requirement)).toEqual(["brief.sensitivity.atLeast", "brief.noise.atMost"]);
  expect(found[0]?.law).toContain("S f1^2 a");
});

// S ~ f1^(-3/2) at one thickness: from S f1^2 a constant and f1 ~ 1 / a^2 (scaling of the plate equation, [leissa-1973]).
test("twice the band leaves 2^(-3/2) of the sensitivity", () => {
  const nearest = (to: string) => asked({ band: band(to), sensitivity: { atLeast: "1 rad/Pa" } })[0]!.nearest;
  expect(nearest("16 kHz") / nearest("8 kHz")).toBeCloseTo(2 ** -1.5, 9);
});

// A plate of mass rho h feels 1 m/s2 as rho h pascal: 2510 kg/m3 * 30 um = 0.0753 Pa, 71.5 dB re 20 uPa.
test("a sheet reads a shaking frame by its mass", () => {
  const [found] = asked({ vibration: { atMost: "60 dB" } });
  expect(found?.nearest).toBeCloseTo(20 * Math.log10((2510 * 30e-6) / 20e-6), 6);
  expect(found?.against).toEqual([]);
});

// Harmonics of sin(m sin t) (Jacobi and Anger): J3(m) / J1(m) = 3 % at m = 0.828, so 5 mrad/Pa stands 0.828 / sqrt(2) / 5e-3 Pa.
test("a sensitive readout is soon too loud, and limits turned round are named", () => {
  const found = asked({
    sensitivity: { atLeast: "5 mrad/Pa" },
    loudest: { atLeast: "150 dB" },
    damping: { atLeast: 0.9, atMost: 0.4 },
  });
  expect(found.map(({ requirement }) => requirement)).toEqual(["brief.damping.atLeast", "brief.loudest.atLeast"]);
  expect(found[1]?.nearest).toBeCloseTo(20 * Math.log10(0.828 / Math.SQRT2 / 5e-3 / 20e-6), 1);
});
