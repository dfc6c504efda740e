/** Cavities, alone and behind a hole: exact limits, the worked device. */
import type { Air } from "../src/core/material/air.ts";
import { absolute, add, complex, divide, multiply } from "../src/core/numerics/complex.ts";
import type { Hole } from "../src/core/parts/acoustics/acoustics.ts";
import { cavityAdmittance } from "../src/core/parts/acoustics/cavity.ts";
import { helmholtzFrequency } from "../src/core/parts/acoustics/helmholtz.ts";
import { holeImpedance } from "../src/core/parts/acoustics/tube.ts";
import { at, back, front, hole, workedBack, workedHole } from "./acoustics.ts";
import { workedAir } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Air so thin-blooded that walls do not brake or cool it. */
const lossless: Air = { ...workedAir, viscosity: 1e-15 };

/** Frequency at which hole and cavity, both whole, resonate: where Im(Z_h + 1 / Y) changes sign. */
function resonance(given: { diameter: number; length: number; ends: Hole["ends"] }, volume: number): number {
  const reactance = (frequency: number) => {
    const omega = at(frequency);
    const y = cavityAdmittance({ volume, surface: 6 * volume ** (2 / 3), air: lossless, omega });
    return add(holeImpedance({ ...given, air: lossless, omega }), divide(complex(1), y)).im;
  };
  let [low, high] = [1, 1e5];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (reactance(middle) < 0) low = middle;
    else high = middle;
  }
  return low;
}

const omegaOfPole = at(6243.81155965423, 325.277737718783);

export const rows: readonly TruthRow[] = [
  // Cavities.
  {
    what: "cavity, 1 mHz: compliance over V / P0, isothermal [-]",
    got: () => (back(at(1e-3)).im * workedAir.pressure) / (at(1e-3).re * workedBack.volume),
    expected: 1,
    within: 1e-6,
    why: "next order in (depth / layer)^4",
    origin: "exact",
    source: "Boyle's law",
  },
  {
    what: "large cavity, 20 kHz: compliance over V / (gamma P0), adiabatic [-]",
    got: () =>
      (cavityAdmittance({ volume: 1, surface: 6, air: workedAir, omega: at(20000) }).im *
        workedAir.heatRatio *
        workedAir.pressure) /
      at(20000).re,
    expected: 1,
    within: 2e-4,
    why: "thermal layer is 1e-4 of the depth",
    origin: "exact",
    source: "adiabatic gas",
  },
  {
    what: "large cavity, 1 kHz: heat loss over omega (gamma - 1) / (gamma P0) times wall area times half the thermal layer [-]",
    got: () => {
      const omega = at(1000).re;
      const layer = Math.sqrt((2 * workedAir.viscosity) / (workedAir.density * workedAir.prandtl * omega));
      const y = cavityAdmittance({ volume: 1e-3, surface: 0.08, air: workedAir, omega: at(1000) });
      return (
        y.re / ((omega * (workedAir.heatRatio - 1) * 0.08 * layer) / (2 * workedAir.heatRatio * workedAir.pressure))
      );
    },
    expected: 1,
    within: 1e-9,
    why: "a layer alone on its wall; the other wall is e^-100 away",
    origin: "exact",
    source: "Kirchhoff's thermal boundary layer",
  },

  // Hole and cavity together.
  {
    what: "hole 2 mm wide, 1 mm long, 1 cm3, no losses: resonance [Hz]",
    got: () => resonance({ diameter: 2e-3, length: 1e-3, ends: "piston" }, 1e-6),
    expected:
      (Math.sqrt((1.4 * 101325) / 1.186) / (2 * Math.PI)) *
      Math.sqrt((Math.PI * 1e-6) / (1e-6 * (1e-3 + (16 / (3 * Math.PI)) * 1e-3))),
    within: 1e-6,
    why: "layers of 1e-7 m",
    origin: "exact",
    source: "(c / 2 pi) sqrt(S / (V l))",
  },
  {
    what: "the closed form of the worked hole and front cavity [Hz]",
    got: () => helmholtzFrequency({ holes: [workedHole], cavity: { volume: 15e-9 }, air: workedAir }) ?? Number.NaN,
    expected:
      (Math.sqrt((1.4 * 101325) / 1.186) / (2 * Math.PI)) *
      Math.sqrt((Math.PI * 0.25e-3 ** 2) / (15e-9 * (0.5e-3 + (16 / (3 * Math.PI)) * 0.25e-3))),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "(c / 2 pi) sqrt(S / (V l))",
  },
  {
    what: "worked hole and front cavity with losses: |Z_h Y_f + 1| at their complex pole [-]",
    got: () => absolute(add(multiply(hole(omegaOfPole), front(omegaOfPole)), complex(1))),
    expected: 0,
    within: 1e-9,
    why: "digits of the pole given",
    origin: "independent method",
    source: "pole found with 40-digit Bessel functions",
  },
];
