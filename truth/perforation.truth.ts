/** Perforated walls: published functions of Fok, Skvor and Bao, exact limits. */
import { complex } from "../src/core/numerics/complex.ts";
import {
  baoK,
  cellImpedance,
  fokFunction,
  perforatedWallAdmittance,
  porosity,
  skvorB,
} from "../src/core/parts/acoustics/perforation.ts";
import { at } from "./acoustics.ts";
import { workedAir } from "./devices.ts";
import type { TruthRow } from "./row.ts";

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

const digits = "digits given";

export const rows: readonly TruthRow[] = [
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
];
