import { describe, expect, test } from "vitest";
import { workedAir as air } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { cavityAdmittance } from "./cavity.ts";
import { cavityLoss, holeLoss, slitLoss } from "./lumpedLoss.ts";
import { holeImpedance, slitImpedance } from "./tube.ts";

const frequencies = [0.1, 10, 300, 1e3, 1e4, 1e5];
const sizes = [2e-6, 3e-5, 1e-4, 6e-4, 3e-3];

describe("what the profile loses is what the impedance resists", () => {
  test("in a round hole, to 1e-11", () => {
    for (const frequency of frequencies) {
      for (const diameter of sizes) {
        const omega = 2 * Math.PI * frequency;
        const part = { diameter, length: 7e-4, air };
        const { re } = holeImpedance({ ...part, ends: "piston", omega: complex(omega) });
        expect(Math.abs(holeLoss({ ...part, omega }) / (re / 2) - 1)).toBeLessThan(1e-11);
      }
    }
  });

  test("in a slit, to 1e-12", () => {
    for (const frequency of frequencies) {
      for (const height of sizes) {
        const omega = 2 * Math.PI * frequency;
        const part = { height, width: 2e-3, length: 1e-3, air };
        const { re } = slitImpedance({ ...part, omega: complex(omega) });
        expect(Math.abs(slitLoss({ ...part, omega }) / (re / 2) - 1)).toBeLessThan(1e-12);
      }
    }
  });

  test("at a cavity's wall, to 1e-12 of its whole admittance", () => {
    for (const frequency of frequencies) {
      for (const depth of sizes) {
        const omega = 2 * Math.PI * frequency;
        const part = { volume: 2e-4 * depth, surface: 2e-4, air };
        const { re, im } = cavityAdmittance({ ...part, omega: complex(omega) });
        expect(Math.abs(cavityLoss({ ...part, omega }) - re / 2)).toBeLessThan(1e-12 * Math.hypot(re, im));
      }
    }
  });
});
