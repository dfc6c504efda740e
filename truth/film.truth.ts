/** Air films: closed forms of the squeeze film, limits of the thin-layer model, numbers of an independent code. */
import type { Air } from "../src/core/material/air.ts";
import { filmCoefficients } from "../src/core/parts/film/coefficients.ts";
import { rigidPlatePressure } from "../src/core/parts/film/rigidPlate.ts";
import { effectiveViscosity } from "../src/core/parts/film/slip.ts";
import { workedAir } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const omega = (frequency: number) => ({ re: 2 * Math.PI * frequency, im: 0 });
const open = { sides: "open", ends: "open" } as const;

/** Air so light that inertia is gone and so conductive that it stays isothermal: the Reynolds film. */
const reynoldsAir: Air = { ...workedAir, density: 1e-9, prandtl: 1e-9 };

/** Mean pressure over deflection of a rigid plate times g / P0 at a squeeze number: Blech's numbers are its parts. */
function reynolds(squeeze: number, along: number) {
  const gap = 5e-6;
  const side = 1e-3;
  const w = (squeeze * reynoldsAir.pressure * gap ** 2) / (12 * reynoldsAir.viscosity * side ** 2);
  const { re, im } = rigidPlatePressure({
    film: { gap, edges: open },
    air: reynoldsAir,
    across: side,
    along: along * side,
    omega: { re: w, im: 0 },
    terms: 400,
  });
  return { re: (re * gap) / reynoldsAir.pressure, im: (im * gap) / reynoldsAir.pressure };
}

/** F = beta mu L W^3 v / g^3 at low frequency: beta from mean pressure. */
function lowFrequencyBeta(aspect: number): number {
  const gap = 5e-6;
  const side = 1e-3;
  const { im } = rigidPlatePressure({
    film: { gap, edges: open },
    air: reynoldsAir,
    across: side,
    along: side / aspect,
    omega: { re: 1e-3, im: 0 },
    terms: 400,
  });
  return (im / 1e-3) * (gap ** 3 / (reynoldsAir.viscosity * side ** 2));
}

const rigidCase = { ...workedAir, density: 1.1860848, viscosity: 1.826e-5 };
const rigid = (side: number, gap: number, frequency: number) =>
  rigidPlatePressure({
    film: { gap, edges: open },
    air: rigidCase,
    across: side,
    along: side,
    omega: omega(frequency),
    terms: 400,
  });

/** Re and im of a film coefficient's ratio to its limit. */
const thick = () => filmCoefficients({ gap: 0.2, air: workedAir, omega: omega(20000) });

const recalled = "[blech-1983] (series recalled; numbers by an independent evaluation)";

export const rows: readonly TruthRow[] = [
  {
    what: "rigid square, Reynolds, squeeze number 10, spring part [-]",
    got: () => reynolds(10, 1).re,
    expected: 0.1358,
    within: 1e-4,
    why: "digits given",
    origin: "published",
    source: recalled,
  },
  {
    what: "rigid square, Reynolds, squeeze number 10, damping part [-]",
    got: () => reynolds(10, 1).im,
    expected: 0.28331,
    within: 1e-4,
    why: "digits given",
    origin: "published",
    source: recalled,
  },
  {
    what: "rigid square, Reynolds, largest damping part over the squeeze number [-]",
    got: () => Math.max(...Array.from({ length: 41 }, (_, i) => reynolds(20 + 0.1 * i, 1).im)),
    expected: 0.36589,
    within: 1e-4,
    why: "digits given",
    origin: "published",
    source: recalled,
  },
  {
    what: "rigid square, Reynolds, cut-off: spring over damping at 21.63490 [-]",
    got: () => reynolds(21.6349, 1).re / reynolds(21.6349, 1).im,
    expected: 1,
    within: 1e-4,
    why: "seven digits given; 400 terms",
    origin: "published",
    source: recalled,
  },
  {
    what: "long strip, cut-off: spring over damping at 10.134175 [-]",
    got: () => reynolds(10.134175, 2e4).re / reynolds(10.134175, 2e4).im,
    expected: 1,
    within: 2e-4,
    why: "a strip of finite length",
    origin: "exact",
    source: "1 - tanh z / z, z = sqrt(i sigma) / 2",
  },
  {
    what: "rigid square, low frequency, beta [-]",
    got: () => lowFrequencyBeta(1),
    expected: 0.421731045,
    within: 1e-6,
    why: "400 terms",
    origin: "exact",
    source: "1 - (192 c / pi^5) sum tanh(n pi / 2c) / n^5",
  },
  {
    what: "rigid rectangle c = 0.5, low frequency, beta [-]",
    got: () => lowFrequencyBeta(0.5),
    expected: 0.686045031,
    within: 1e-6,
    why: "400 terms",
    origin: "exact",
    source: "1 - (192 c / pi^5) sum tanh(n pi / 2c) / n^5",
  },
  {
    what: "rigid 5 mm square, gap 30 um, 1 kHz, mean p / w, real [Pa/m]",
    got: () => rigid(5e-3, 30e-6, 1000).re,
    expected: -8.26069e5,
    within: 1e-4,
    why: "the reactive part is a small difference; digits given",
    origin: "independent method",
    source: "a third code of the thin-layer film",
  },
  {
    what: "rigid 5 mm square, gap 30 um, 1 kHz, mean p / w, imaginary [Pa/m]",
    got: () => rigid(5e-3, 30e-6, 1000).im,
    expected: 4.48418e7,
    within: 1e-5,
    why: "digits given",
    origin: "independent method",
    source: "a third code of the thin-layer film",
  },
  {
    what: "rigid 10 mm square, gap 0.2 mm, 18650 Hz, mean p / w, real [Pa/m]",
    got: () => rigid(10e-3, 0.2e-3, 18650).re,
    expected: -7.95298e8,
    within: 1e-5,
    why: "digits given",
    origin: "independent method",
    source: "a third code of the thin-layer film",
  },
  {
    what: "rigid 10 mm square, gap 0.2 mm, 18650 Hz, mean p / w, imaginary [Pa/m]",
    got: () => rigid(10e-3, 0.2e-3, 18650).im,
    expected: 2.57075e8,
    within: 1e-4,
    why: "digits given; slower part of the sum",
    origin: "independent method",
    source: "a third code of the thin-layer film",
  },
  {
    what: "thin limit, Psi 12 mu / g^3 at 1 um, 1 Hz [-]",
    got: () =>
      (filmCoefficients({ gap: 1e-6, air: workedAir, omega: omega(1) }).psi.re * 12 * workedAir.viscosity) / 1e-18,
    expected: 1,
    within: 1e-9,
    why: "next order in (g / layer)^2",
    origin: "exact",
    source: "Poiseuille flow between plates",
  },
  {
    what: "thin limit, chi P0 / (omega g) at 1 um, 1 Hz: isothermal [-]",
    got: () =>
      (filmCoefficients({ gap: 1e-6, air: workedAir, omega: omega(1) }).chi.im * workedAir.pressure) /
      (2 * Math.PI * 1e-6),
    expected: 1,
    within: 1e-6,
    why: "next order in (g / layer)^2",
    origin: "exact",
    source: "isothermal gas",
  },
  {
    what: "thick limit, Psi omega rho0 / g at 0.2 m, 20 kHz: inertia alone [-]",
    got: () => (-thick().psi.im * 2 * Math.PI * 20000 * workedAir.density) / 0.2,
    expected: 1,
    within: 2e-4,
    why: "boundary layers are 1e-4 of the gap",
    origin: "exact",
    source: "Euler's equation",
  },
  {
    what: "thick limit, chi gamma P0 / (omega g): adiabatic [-]",
    got: () => (thick().chi.im * workedAir.heatRatio * workedAir.pressure) / (2 * Math.PI * 20000 * 0.2),
    expected: 1,
    within: 2e-4,
    why: "boundary layers are 1e-4 of the gap",
    origin: "exact",
    source: "adiabatic gas",
  },
  {
    what: "closed film, 1 uHz: pressure over deflection g / P0, isothermal spring [-]",
    got: () =>
      (rigidPlatePressure({
        film: { gap: 50e-6, edges: { sides: "closed", ends: "closed" } },
        air: workedAir,
        across: 5e-3,
        along: 5e-3,
        omega: { re: 1e-6, im: 0 },
        terms: 8,
      }).re *
        50e-6) /
      workedAir.pressure,
    expected: 1,
    within: 1e-9,
    why: "zero frequency",
    origin: "exact",
    source: "Boyle's law",
  },
  {
    what: "slip, Kn 0.01: mu over effective mu [-]",
    got: () => 1 / effectiveViscosity({ viscosity: 1, meanFreePath: 0.01, gap: 1 }),
    expected: 1.0463,
    within: 5e-5,
    why: "digits given",
    origin: "published",
    source: "[veijola-1995]",
  },
  {
    what: "slip, Kn 1: mu over effective mu [-]",
    got: () => 1 / effectiveViscosity({ viscosity: 1, meanFreePath: 1, gap: 1 }),
    expected: 10.638,
    within: 1e-9,
    why: "exact in the fit",
    origin: "published",
    source: "[veijola-1995]",
  },
];
