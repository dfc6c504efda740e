/** Holes, slits and round tubes with losses: worked case, exact limits, published functions. */
import type { Air } from "../src/core/material/air.ts";
import { complex, divide, multiply, squareRoot } from "../src/core/numerics/complex.ts";
import { pistonFunctions } from "../src/core/parts/acoustics/radiation.ts";
import { roundTube } from "../src/core/parts/acoustics/roundTube.ts";
import { endCorrections, holeImpedance, slitImpedance } from "../src/core/parts/acoustics/tube.ts";
import { at, back, front, hole, part } from "./acoustics.ts";
import { workedAir } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Air at 23 degC, 101325 Pa, 50 % by the formulas of [iec-61094-2]. */
const humid: Air = {
  ...workedAir,
  density: 1.186085,
  viscosity: 1.826566e-5,
  heatRatio: 1.400757,
  prandtl: 0.72802,
};

/** Series over i omega rho0, shunt over i omega / (gamma P0), and propagation over omega / c, of a tube of that radius. */
function tube(radius: number, frequency: number) {
  const omega = at(frequency);
  const { series, shunt } = roundTube({ diameter: 2 * radius, air: humid, omega });
  const z = divide(series, complex(0, omega.re * humid.density));
  const y = divide(shunt, complex(0, omega.re / (humid.heatRatio * humid.pressure)));
  return { z, y, gamma: multiply(complex(0, 1), squareRoot(multiply(z, y))) };
}

const digits = "digits given";

const worked =
  "worked whole device, spectral and finite-element solutions; digits confirmed with 40-digit Bessel functions";

const tubeSource = "[stinson-1991], evaluated with 40-digit Bessel functions";

export const rows: readonly TruthRow[] = [
  // Worked case: hole 0.5 mm wide, 0.5 mm long, both ends as pistons; cavities 15 mm3 with 80 mm2, 400 mm3 with 350 mm2.
  part("worked hole, 1 kHz, resistance [Pa s/m3]", () => hole(at(1000)).re, 7.931e6, 500, worked),
  part("worked hole, 1 kHz, reactance [Pa s/m3]", () => hole(at(1000)).im, 39.872e6, 500, worked),
  part("worked front cavity, 1 kHz, conductance [m3/(Pa s)]", () => front(at(1000)).re, 0.605e-10, 5e-14, worked),
  part("worked front cavity, 1 kHz, susceptance [m3/(Pa s)]", () => front(at(1000)).im, 7.223e-10, 5e-14, worked),
  part("worked back cavity, 1 kHz, conductance [m3/(Pa s)]", () => back(at(1000)).re, 0.258e-9, 5e-13, worked),
  part("worked back cavity, 1 kHz, susceptance [m3/(Pa s)]", () => back(at(1000)).im, 17.975e-9, 5e-13, worked),

  // Round tubes with losses.
  part("tube, radius 25 um, 1 kHz: Re Z / (i omega rho)", () => tube(25e-6, 1000).z.re, 1.333318, 5e-7, tubeSource),
  part("tube, radius 25 um, 1 kHz: Im Z / (i omega rho)", () => tube(25e-6, 1000).z.im, -31.374309, 5e-7, tubeSource),
  part("tube, radius 100 um, 10 kHz: Re Z / (i omega rho)", () => tube(100e-6, 10000).z.re, 1.20888, 5e-7, tubeSource),
  part(
    "tube, radius 100 um, 10 kHz: Im Z / (i omega rho)",
    () => tube(100e-6, 10000).z.im,
    -0.304951,
    5e-7,
    tubeSource,
  ),
  part("tube, radius 100 um, 10 kHz: Re Y / Y adiabatic", () => tube(100e-6, 10000).y.re, 1.104452, 5e-7, tubeSource),
  part("tube, radius 100 um, 10 kHz: Im Y / Y adiabatic", () => tube(100e-6, 10000).y.im, -0.090025, 5e-7, tubeSource),
  part(
    "tube, radius 100 um, 10 kHz: Re Gamma c / omega",
    () => tube(100e-6, 10000).gamma.re,
    0.192153,
    5e-7,
    tubeSource,
  ),
  part(
    "tube, radius 100 um, 10 kHz: Im Gamma c / omega",
    () => tube(100e-6, 10000).gamma.im,
    1.159577,
    5e-7,
    tubeSource,
  ),
  part(
    "worked hole at the complex frequency 6000 + 2500 i Hz, real part [Pa s/m3]",
    () => hole(at(6000, 2500)).re,
    -74719071.04847,
    1e-3,
    "40-digit Bessel functions",
  ),
  part(
    "worked hole at the complex frequency 6000 + 2500 i Hz, imaginary part [Pa s/m3]",
    () => hole(at(6000, 2500)).im,
    226261850.4352,
    1e-2,
    "40-digit Bessel functions",
  ),
  part(
    "worked hole in decaying motion, 3000 i Hz: a negative real impedance [Pa s/m3]",
    () => hole(at(0, 3000)).re,
    -63709825.69076,
    1e-3,
    "40-digit Bessel functions",
  ),
  {
    what: "narrow hole, 0 Hz: resistance pi r^4 / (8 mu l) [-]",
    got: () =>
      (holeImpedance({ diameter: 20e-6, length: 1e-3, ends: "piston", air: workedAir, omega: complex(0) }).re *
        Math.PI *
        10e-6 ** 4) /
      (8 * workedAir.viscosity * 1e-3),
    expected: 1,
    within: 1e-14,
    why: "round-off",
    origin: "exact",
    source: "Poiseuille's law",
  },
  {
    what: "narrow hole, 10 Hz, no ends: reactance over omega rho0 l / S [-]",
    got: () =>
      (holeImpedance({ diameter: 20e-6, length: 1e-3, ends: "none", air: workedAir, omega: at(10) }).im *
        Math.PI *
        10e-6 ** 2) /
      (at(10).re * workedAir.density * 1e-3),
    expected: 4 / 3,
    within: 1e-6,
    why: "next order in (r / layer)^4",
    origin: "exact",
    source: "kinetic energy of parabolic flow in a tube",
  },
  {
    what: "wide hole, 20 kHz, no ends: reactance over omega rho0 l / S [-]",
    got: () =>
      (holeImpedance({ diameter: 0.2, length: 1e-3, ends: "none", air: workedAir, omega: at(20000) }).im *
        Math.PI *
        0.1 ** 2) /
      (at(20000).re * workedAir.density * 1e-3),
    expected: 1,
    within: 2e-4,
    why: "boundary layer is 1e-4 of the radius",
    origin: "exact",
    source: "Newton's law",
  },
  {
    what: "slit, 0 Hz: resistance b g^3 / (12 mu l) [-]",
    got: () =>
      (slitImpedance({ height: 10e-6, width: 3e-3, length: 1e-3, air: workedAir, omega: complex(0) }).re *
        3e-3 *
        10e-6 ** 3) /
      (12 * workedAir.viscosity * 1e-3),
    expected: 1,
    within: 1e-14,
    why: "round-off",
    origin: "exact",
    source: "Poiseuille flow between plates",
  },
  {
    what: "slit, 10 Hz: reactance over omega rho0 l / (b g) [-]",
    got: () =>
      (slitImpedance({ height: 10e-6, width: 3e-3, length: 1e-3, air: workedAir, omega: at(10) }).im * 3e-3 * 10e-6) /
      (at(10).re * workedAir.density * 1e-3),
    expected: 6 / 5,
    within: 1e-6,
    why: "next order in (g / layer)^4",
    origin: "exact",
    source: "kinetic energy of parabolic flow between plates",
  },
  {
    what: "end correction of even flow in a wide flange over the radius [-]",
    got: () => endCorrections.piston,
    expected: 0.848826,
    within: 6e-7,
    why: digits,
    origin: "exact",
    source: "8 / (3 pi)",
  },
  {
    what: "even flow in a wide flange: end correction is the low limit of X1 / ka [-]",
    got: () => pistonFunctions(2e-4).reactance / 1e-4,
    expected: 0.8488264,
    within: 1e-7,
    why: digits,
    origin: "exact",
    source: "H1(x) -> 2 x^2 / (3 pi)",
  },
  {
    what: "end correction, flanged, as mass at one end of a hole of no length [-]",
    got: () =>
      (holeImpedance({ diameter: 2e-3, length: 0, ends: "flanged", air: workedAir, omega: at(100) }).im *
        Math.PI *
        1e-6) /
      (at(100).re * workedAir.density * 2e-3),
    expected: 0.8216,
    within: 1e-9,
    why: "round-off",
    origin: "published",
    source: "exact flow in a flange (from memory, to be confirmed)",
  },
  {
    what: "end correction, free, as mass at one end of a hole of no length [-]",
    got: () =>
      (holeImpedance({ diameter: 2e-3, length: 0, ends: "free", air: workedAir, omega: at(100) }).im * Math.PI * 1e-6) /
      (at(100).re * workedAir.density * 2e-3),
    expected: 0.6133,
    within: 1e-9,
    why: "round-off",
    origin: "published",
    source: "[levine-1948] (from memory, to be confirmed)",
  },
];
