/** What rows of holes, cavities and radiation share: frequencies, the worked device around its diaphragm, values with digits given. */
import { type Complex, complex } from "../src/core/numerics/complex.ts";
import { cavityAdmittance } from "../src/core/parts/acoustics/cavity.ts";
import { holeImpedance } from "../src/core/parts/acoustics/tube.ts";
import { workedAir } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** omega [rad/s] at a frequency, which may be complex [Hz]. */
export const at = (frequency: number, imaginary = 0): Complex =>
  complex(2 * Math.PI * frequency, 2 * Math.PI * imaginary);

/** Of the worked whole device: hole [m], cavities [m3], [m2]. */
export const workedHole = { diameter: 0.5e-3, length: 0.5e-3, ends: "piston" } as const;
export const workedFront = { volume: 15e-9, surface: 80e-6 };
export const workedBack = { volume: 400e-9, surface: 350e-6 };

export const hole = (omega: Complex) => holeImpedance({ ...workedHole, air: workedAir, omega });
export const front = (omega: Complex) => cavityAdmittance({ ...workedFront, air: workedAir, omega });
export const back = (omega: Complex) => cavityAdmittance({ ...workedBack, air: workedAir, omega });

/** A value from elsewhere, to within half of its last digit. */
export const part = (what: string, got: () => number, expected: number, half: number, source: string): TruthRow => ({
  what,
  got,
  expected,
  within: half / Math.abs(expected),
  why: "half the last digit given",
  origin: "independent method",
  source,
});
