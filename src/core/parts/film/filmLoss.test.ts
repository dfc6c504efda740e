import { describe, expect, test } from "vitest";
import { workedAir } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { filmCoefficients } from "./coefficients.ts";
import { filmLoss } from "./filmLoss.ts";

const air = { ...workedAir, meanFreePath: 67e-9 };

describe("what the profiles across the gap lose is what Psi and chi resist", () => {
  test.each([0.3, 20, 1e3, 1e4, 1e5])("at %s Hz, gaps 1 um to 2 mm", (frequency) => {
    for (const gap of [1e-6, 1e-5, 5e-5, 3e-4, 2e-3]) {
      const omega = 2 * Math.PI * frequency;
      const { psi, chi } = filmCoefficients({ gap, air, omega: complex(omega) });
      const { viscous, thermal } = filmLoss({ gap, air, omega });
      expect(Math.abs(viscous - psi.re / 2)).toBeLessThan(1e-12 * Math.hypot(psi.re, psi.im));
      expect(Math.abs(thermal - chi.re / 2)).toBeLessThan(1e-12 * Math.hypot(chi.re, chi.im));
    }
  });
});
