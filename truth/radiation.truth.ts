/** Radiation and diffraction: the load of the air on a plate, the field about a sphere and the end of a cylinder. */
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { findPoles } from "../src/core/microphone/poles/poles.ts";
import { nearFieldCoefficient } from "../src/core/microphone/system/nearField.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { besselValues } from "../src/core/numerics/bessel.ts";
import { absolute, complex, subtract } from "../src/core/numerics/complex.ts";
import { bodyDiffraction, spherePressure, sphereRandom } from "../src/core/parts/acoustics/diffraction.ts";
import {
  pistonFunctions,
  pistonInertance,
  radiationImpedance,
  soundSpeed,
} from "../src/core/parts/acoustics/radiation.ts";
import { at, part } from "./acoustics.ts";
import { workedAir, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const sphere = (ka: number, degrees: number) => absolute(spherePressure({ ka, angle: (degrees * Math.PI) / 180 }));

const randomDb = (ka: number) => 20 * Math.log10(sphereRandom(ka));

const digits = "digits given";

const pistonSource = "1 - 2 J1(x) / x and 2 H1(x) / x, evaluated apart with 40 digits";

const sphereSource = "series of [morse-ingard-1968], evaluated apart with 40 digits";

/** D of p = 2 - D e^{-ika} in the middle of a cylinder's end. */
const rim = (ka: number) =>
  absolute(
    subtract(
      complex(2),
      bodyDiffraction({ body: cylinder, frequency: (343 * ka) / (0.02 * Math.PI), soundSpeed: 343 }).facing,
    ),
  );

const cylinder = { shape: "cylinder", diameter: 0.02, length: null } as const;

export const rows: readonly TruthRow[] = [
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
