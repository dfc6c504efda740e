/** Readout: Malus, crossed polarizers, Senarmont's compensator, contrast of unequal modes and of leaking polarizers. */
import { idealReadout } from "../src/core/parts/readout/ideal.ts";
import { operatingPoint, phasePerRelativePower } from "../src/core/parts/readout/operating.ts";
import type { Readout } from "../src/core/parts/readout/readout.ts";
import { portPower, transferOf } from "../src/core/parts/readout/transfer.ts";
import type { TruthRow } from "./row.ts";

const degree = Math.PI / 180;
const changed = (change: Partial<Readout>): Readout => ({ ...idealReadout, ...change });
const firstAt = (readout: Readout, phase: number) => portPower(transferOf(readout).first, phase);
const at = (angle: number, leak = 0) => ({ angle: angle * degree, leak });

const exact = (what: string, got: () => number, expected: number, source: string): TruthRow => ({
  what,
  got,
  expected,
  within: 1e-12,
  why: "round-off",
  origin: "exact",
  source,
});

const quarterPlate = { retardation: Math.PI / 2, angle: 45 * degree };
const leaking = changed({ polarizer: at(45, 1e-3), analyzer: at(-45, 1e-2) });

export const rows: readonly TruthRow[] = [
  ...[0, 20, 45, 60].map((angle) =>
    exact(
      `Malus: light along x, analyzer at ${angle} degrees, share passed [-]`,
      () => firstAt(changed({ polarizer: at(0), analyzer: at(angle) }), 1.1),
      Math.cos(angle * degree) ** 2,
      "Malus' law, cos^2",
    ),
  ),
  ...[0.2, 1, 2.5].map((phase) =>
    exact(
      `crossed polarizers at 45 degrees, retardation ${phase}, share passed [-]`,
      () => firstAt(idealReadout, phase),
      Math.sin(phase / 2) ** 2,
      "sin^2(phi / 2)",
    ),
  ),
  ...[0.3, 1.7].map((phase) =>
    exact(
      `Senarmont: quarter-wave plate along the polarizer turns retardation ${phase} into an angle of half of it; analyzer at 10 degrees [-]`,
      () => firstAt(changed({ wavePlate: quarterPlate, analyzer: at(10) }), phase),
      Math.cos(10 * degree - 45 * degree - phase / 2) ** 2,
      "e^{-i phi/2} (cos phi/2, sin phi/2) along the plate's axes",
    ),
  ),
  exact(
    "a half-wave plate along z is half a turn of the bias: crossed polarizers pass all [-]",
    () => firstAt(changed({ wavePlate: { retardation: Math.PI, angle: Math.PI / 2 } }), 0),
    1,
    "retardations along one axis add",
  ),
  exact(
    "both ports of leaking polarizers at a phase of 0.7, sum [-]",
    () => portPower(transferOf(leaking).first, 0.7) + portPower(transferOf(leaking).second, 0.7),
    1,
    "conservation of power",
  ),
  exact(
    "contrast of leaks 1e-3 and 1e-2 [-]",
    () => operatingPoint(transferOf(leaking), "one", 1).visibility,
    (0.999 / 1.001) * (0.99 / 1.01),
    "(1 - e) / (1 + e) each",
  ),
  {
    what: "contrast of modes with a power ratio of 3 dB [-]",
    got: () => operatingPoint(transferOf(changed({ powerRatio: 10 ** 0.3 })), "both", 1).visibility,
    expected: 0.943,
    within: 0.0005 / 0.943,
    why: "three digits given",
    origin: "exact",
    source: "2 sqrt(r) / (1 + r)",
  },
  exact(
    "slope of both ports at quadrature, contrast 0.95 [1/rad]",
    () => operatingPoint(transferOf(changed({ visibility: 0.95 })), "both", Math.PI / 2).slope,
    0.95,
    "d/dphi of -V cos phi: more retardation, more light through crossed polarizers",
  ),
  exact(
    "one port at quadrature: phase imitated by a relative change of power [rad]",
    () =>
      phasePerRelativePower(
        operatingPoint(transferOf(idealReadout), "one", Math.PI / 2),
        changed({ outputs: "one" }),
      ) ?? 0,
    1,
    "P = (1 + sin phi) / 2: dP / P = dphi at phi = 0",
  ),
];
