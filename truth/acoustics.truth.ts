/** Holes, cavities, perforated walls, radiation and diffraction: worked case, exact limits, published functions. */
import type { Air } from "../src/core/material/air.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { findPoles } from "../src/core/microphone/poles/poles.ts";
import { nearFieldCoefficient } from "../src/core/microphone/system/nearField.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { besselValues } from "../src/core/numerics/bessel.ts";
import {
  absolute,
  add,
  type Complex,
  complex,
  divide,
  multiply,
  squareRoot,
  subtract,
} from "../src/core/numerics/complex.ts";
import type { Hole } from "../src/core/parts/acoustics/acoustics.ts";
import { cavityAdmittance } from "../src/core/parts/acoustics/cavity.ts";
import { bodyDiffraction, spherePressure, sphereRandom } from "../src/core/parts/acoustics/diffraction.ts";
import { helmholtzFrequency } from "../src/core/parts/acoustics/helmholtz.ts";
import {
  baoK,
  cellImpedance,
  fokFunction,
  perforatedWallAdmittance,
  porosity,
  skvorB,
} from "../src/core/parts/acoustics/perforation.ts";
import {
  pistonFunctions,
  pistonInertance,
  radiationImpedance,
  soundSpeed,
} from "../src/core/parts/acoustics/radiation.ts";
import { roundTube } from "../src/core/parts/acoustics/roundTube.ts";
import { endCorrections, holeImpedance, slitImpedance } from "../src/core/parts/acoustics/tube.ts";
import { workedAir, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const at = (frequency: number, imaginary = 0): Complex => ({
  re: 2 * Math.PI * frequency,
  im: 2 * Math.PI * imaginary,
});

const workedHole = { diameter: 0.5e-3, length: 0.5e-3, ends: "piston" } as const;
const workedFront = { volume: 15e-9, surface: 80e-6 };
const workedBack = { volume: 400e-9, surface: 350e-6 };
const hole = (omega: Complex) => holeImpedance({ ...workedHole, air: workedAir, omega });
const front = (omega: Complex) => cavityAdmittance({ ...workedFront, air: workedAir, omega });
const back = (omega: Complex) => cavityAdmittance({ ...workedBack, air: workedAir, omega });

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

/** Force over 12 pi mu v R^4 / g^3 on a round cell with a hole of share A: the pressure of radial flow summed by Simpson's rule. */
function radialFlow(share: number): number {
  const inner = Math.sqrt(share);
  const pressure = (r: number) => (Math.log(r / inner) - (r * r - share) / 2) / 2;
  const steps = 2000;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const r = inner + ((1 - inner) * i) / steps;
    sum += (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * pressure(r) * 2 * r;
  }
  return (sum * (1 - inner)) / steps / 3;
}

/** Slope of 1 / psi at xi = 0: neighbors in a square array, sum of 1 / distance less its mean = -3.9002649 / pitch. */
const latticeSlope = (2 * 3.9002649) / Math.PI ** 1.5;

const sphere = (ka: number, degrees: number) => absolute(spherePressure({ ka, angle: (degrees * Math.PI) / 180 }));
const randomDb = (ka: number) => 20 * Math.log10(sphereRandom(ka));

const digits = "digits given";
const worked =
  "worked whole device, spectral and finite-element solutions; digits confirmed with 40-digit Bessel functions";
const tubeSource = "[stinson-1991], evaluated with 40-digit Bessel functions";
const pistonSource = "1 - 2 J1(x) / x and 2 H1(x) / x, evaluated apart with 40 digits";
const sphereSource = "series of [morse-ingard-1968], evaluated apart with 40 digits";

function part(what: string, got: () => number, expected: number, half: number, source: string): TruthRow {
  return {
    what,
    got,
    expected,
    within: half / Math.abs(expected),
    why: "half the last digit given",
    origin: "independent method",
    source,
  };
}

/** D of p = 2 - D e^{-ika} in the middle of a cylinder's end. */
const rim = (ka: number) =>
  absolute(
    subtract(
      complex(2),
      bodyDiffraction({ body: cylinder, frequency: (343 * ka) / (0.02 * Math.PI), soundSpeed: 343 }).facing,
    ),
  );
const cylinder = { shape: "cylinder", diameter: 0.02, length: null } as const;

const omegaOfPole = at(6243.81155965423, 325.277737718783);

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

  // Perforated walls.
  {
    what: "Fok function, xi 0.2 [-]",
    got: () => fokFunction(0.2),
    expected: 1.387201,
    within: 4e-7,
    why: digits,
    origin: "published",
    source: "[fok-1941] (coefficients from memory, to be confirmed)",
  },
  {
    what: "Fok function, xi 0.5 [-]",
    got: () => fokFunction(0.5),
    expected: 2.944559,
    within: 2e-7,
    why: digits,
    origin: "published",
    source: "[fok-1941] (coefficients from memory, to be confirmed)",
  },
  {
    what: "Fok function, how fast neighbors help at xi = 0: slope of 1 / psi [-]",
    got: () => (1 - 1 / fokFunction(1e-4)) / 1e-4,
    expected: latticeSlope,
    within: 0.007,
    why: "the printed coefficient lies 0.6 % above the square array with xi = sqrt(porosity), 0.1 % below with xi = 0.88 diameter / pitch",
    origin: "own derivation",
    source: "sum of 1 / distance over a square array less its mean, 4 zeta(1/2) beta(1/2); docs/theory/acoustics.md",
  },
  {
    what: "Skvor B, 5 % holes [-]",
    got: () => skvorB(0.05),
    expected: 0.39862057,
    within: 1.3e-8,
    why: digits,
    origin: "exact",
    source: "[skvor-1967]",
  },
  {
    what: "Skvor B, 20 % holes [-]",
    got: () => skvorB(0.2),
    expected: 0.12235948,
    within: 4e-8,
    why: digits,
    origin: "exact",
    source: "[skvor-1967]",
  },
  {
    what: "radial Reynolds flow to a hole of 20 %, force over 12 pi mu v R^4 / g^3 [-]",
    got: () => {
      const z = cellImpedance({ radius: 1e-3, share: 0.2, psi: complex(20e-6 ** 3 / (12 * 1.83e-5)) });
      return (z.re * Math.PI * 1e-3 ** 2) / ((12 * Math.PI * 1.83e-5 * 1e-3 ** 4) / 20e-6 ** 3);
    },
    expected: radialFlow(0.2),
    within: 1e-9,
    why: "Simpson's rule with 2000 steps",
    origin: "own derivation",
    source: "integral of the pressure of radial flow",
  },
  {
    what: "Bao's K over Skvor's B, hole half the cell's radius [-]",
    got: () => baoK(0.5) / skvorB(0.25),
    expected: 8,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "[bao-2003], [skvor-1967]: one flow, two notations",
  },
  {
    what: "perforated wall of wide thin holes far apart, no film flow: velocity over pressure, inertia of one hole alone [-]",
    got: () => {
      const pitch = 1;
      const given = { diameter: 1e-3, pitch, length: 0, ends: "piston", air: workedAir, omega: at(1000) } as const;
      const y = perforatedWallAdmittance({ ...given, psi: null });
      return -y.im * pitch ** 2 * at(1000).re * workedAir.density;
    },
    expected: (Math.PI * 0.5e-3 ** 2) / (2 * (8 / (3 * Math.PI)) * 0.5e-3),
    within: 2e-3,
    why: "neighbors at a thousand diameters still take 0.12 % off",
    origin: "exact",
    source: "conductance of one hole by Newton's law",
  },
  {
    what: "porosity, holes touching in a square array [-]",
    got: () => porosity({ diameter: 1, pitch: 1 }),
    expected: 0.7853981634,
    within: 1e-10,
    why: digits,
    origin: "exact",
    source: "circle in a square",
  },

  // Radiation.
  part("piston in a baffle, 2 ka = 1, R1 [-]", () => pistonFunctions(1).resistance, 0.119899, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 1, X1 [-]", () => pistonFunctions(1).reactance, 0.396915, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 2, R1 [-]", () => pistonFunctions(2).resistance, 0.423275, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 2, X1 [-]", () => pistonFunctions(2).reactance, 0.646764, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 4, R1 [-]", () => pistonFunctions(4).resistance, 1.033022, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 4, X1 [-]", () => pistonFunctions(4).reactance, 0.534863, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 8, R1 [-]", () => pistonFunctions(8).resistance, 0.941341, 5e-7, pistonSource),
  part("piston in a baffle, 2 ka = 8, X1 [-]", () => pistonFunctions(8).reactance, 0.122029, 5e-7, pistonSource),
  {
    what: "bare plate, low ka: resistance over omega^2 rho0 / (2 pi c) [-]",
    got: () => {
      const inertance = pistonInertance({ area: 25e-6, air: workedAir });
      const z = radiationImpedance({ inertance, air: workedAir, omega: at(100) });
      return z.re / ((at(100).re ** 2 * workedAir.density) / (2 * Math.PI * soundSpeed(workedAir)));
    },
    expected: 1,
    within: 1e-4,
    why: "next order in (ka)^2, ka = 0.005",
    origin: "exact",
    source: "a small source in a baffle radiates omega^2 rho0 / (2 pi c)",
  },
  {
    what: "bare plate 5 mm square, 30 um of glass: mass of the air over the plate's [-]",
    got: () => (pistonInertance({ area: 25e-6, air: workedAir }) * 25e-6) / (30e-6 * 2510),
    expected: 0.04,
    within: 0.1,
    why: "given as about 4 %",
    origin: "common practice",
    source: "model's derivation",
  },

  {
    what: "clamped round plate, water or air on one side: added mass over rho0 a / (rho h) of the plate's, static shape [-]",
    got: () => {
      // (1 - r^2)^2 has the transform 48 J3(k) / k^3; half the side of its square is the radius.
      const transform = (x: number, y: number) => {
        const k = Math.hypot(x, y);
        return k < 1e-3 ? 1 : (48 * besselValues(4, k)[3]!) / k ** 3;
      };
      // M U^2 over rho h integral w^2: U = pi a^2 / 3, integral w^2 = pi a^2 / 5.
      return (nearFieldCoefficient(1, transform) / 2) * ((5 * Math.PI) / 9);
    },
    expected: 0.6689,
    within: 1e-4,
    why: "half the last digit given",
    origin: "published",
    source: "[lamb-1920] (from memory, to be confirmed)",
  },
  {
    what: "even square face: mean of 1 / distance over a unit square [-]",
    got: () => {
      const sinc = (x: number) => (x < 1e-6 ? 1 : Math.sin(x) / x);
      return 2 * Math.PI * nearFieldCoefficient(1, (x, y) => sinc(x) * sinc(y));
    },
    expected: 2.97321,
    within: 2e-3,
    why: "the transform of a face with an edge falls slowly beyond the last wavenumber",
    origin: "exact",
    source: "4 ln(1 + sqrt 2) + 4 (1 - sqrt 2) / 3",
  },
  {
    what: "clamped square glass 5 mm, 30 um, bare: its first frequency with air on one side over that without [-]",
    got: () => {
      const bare: Microphone = {
        ...workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null }),
        body: { shape: "sphere", diameter: 0.02, length: null },
      };
      const free = { ...bare, body: null };
      const lowest = (one: Microphone) => findPoles(prepare(one), one).oscillating[0]?.frequency ?? Number.NaN;
      return lowest(bare) / lowest(free);
    },
    // A circle of the same area, a = side / sqrt(pi): 1 / sqrt(1 + 0.6689 rho0 a / (rho h)).
    expected: 1 / Math.sqrt(1 + (0.6689 * 1.186 * 5e-3) / Math.sqrt(Math.PI) / (2510 * 30e-6)),
    within: 3e-3,
    why: "square against circle of its area, static shape against first mode: some per cent of 5 % of mass",
    origin: "published",
    source: "[lamb-1920] (from memory, to be confirmed)",
  },

  // A rigid sphere.
  part("sphere, ka 1, facing: pressure over incident [-]", () => sphere(1, 0), 1.4184, 5e-6, sphereSource),
  part("sphere, ka 1, side [-]", () => sphere(1, 90), 0.9733, 5e-6, sphereSource),
  part("sphere, ka 1, rear [-]", () => sphere(1, 180), 1.06812, 5e-6, sphereSource),
  part("sphere, ka 3, facing [-]", () => sphere(3, 0), 1.77435, 5e-6, sphereSource),
  part("sphere, ka 3, side [-]", () => sphere(3, 90), 1.17836, 5e-6, sphereSource),
  part("sphere, ka 3, rear [-]", () => sphere(3, 180), 1.15129, 5e-6, sphereSource),
  part("sphere, ka 1, random incidence [dB]", () => randomDb(1), 0.637, 5e-5, sphereSource),
  part("sphere, ka 3, random incidence [dB]", () => randomDb(3), 1.9789, 5e-5, sphereSource),
  {
    what: "sphere, ka 0.01, facing: 1 + (3 / 2) i ka, imaginary part [-]",
    got: () => spherePressure({ ka: 0.01, angle: 0 }).im,
    expected: 0.015,
    within: 1e-4,
    why: "next order in (ka)^2",
    origin: "exact",
    source: "flow of a fluid past a sphere: 3/2 at its pole",
  },
  {
    what: "sphere, ka 300, facing: pressure doubles [-]",
    got: () => sphere(300, 0),
    expected: 2,
    within: 2e-3,
    why: "next order 1 / ka",
    origin: "exact",
    source: "reflection at a wall",
  },
  {
    what: "body of 20 mm, sphere, at ka = 1: facing as the series [-]",
    got: () =>
      absolute(
        subtract(
          bodyDiffraction({
            body: { shape: "sphere", diameter: 0.02, length: null },
            frequency: 343 / (0.02 * Math.PI),
            soundSpeed: 343,
          }).facing,
          complex(0.320617270724, 1.3816840271),
        ),
      ),
    expected: 0,
    within: 1e-11,
    why: digits,
    origin: "independent method",
    source: sphereSource,
  },
  {
    what: "end of a long cylinder, facing, low ka: no change [-]",
    got: () => rim(1e-3),
    expected: 1,
    within: 1e-3,
    why: "ka = 0.001",
    origin: "exact",
    source: "a small body leaves the pressure as it is",
  },
  {
    what: "end of a long cylinder, facing: what the rim sends back, mean over ka 5 to 10 [-]",
    got: () => Array.from({ length: 21 }, (_, i) => rim(5 + 0.25 * i)).reduce((sum, d) => sum + d, 0) / 21,
    expected: 2 / Math.sqrt(3),
    within: 0.03,
    why: "waves that cross the end between its rims come and go with ka and are not in the limit",
    origin: "exact",
    source: "diffraction by a right-angled edge, high ka; docs/theory/acoustics.md",
  },
  {
    what: "end of a long cylinder, random incidence, mean over ka 5 to 12 [dB]",
    got: () => {
      const level = (ka: number) =>
        20 *
        Math.log10(
          bodyDiffraction({ body: cylinder, frequency: (343 * ka) / (0.02 * Math.PI), soundSpeed: 343 }).random,
        );
      return Array.from({ length: 29 }, (_, i) => level(5 + 0.25 * i)).reduce((sum, d) => sum + d, 0) / 29;
    },
    expected: 3.0103,
    within: 0.05,
    why: "0.15 dB: waves that cross the end come and go with ka",
    origin: "exact",
    source: "a wall doubles the pressure for half of all directions",
  },
];
