/** Readout: Malus, crossed polarizers, Senarmont's compensator, contrast of unequal modes and of leaking polarizers. */
import { idealReadout } from "../src/core/parts/readout/ideal.ts";
import { operatingPoint, phasePerRelativePower } from "../src/core/parts/readout/operating.ts";
import type { Readout } from "../src/core/parts/readout/readout.ts";
import { portPower, retarder, transferOf } from "../src/core/parts/readout/transfer.ts";
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

/** Share of a field along `from` that comes through the plate along `to`: |<to| W |from>|^2. */
function passed(plate: ReturnType<typeof retarder>, from: number, to: number): number {
  const [[xx, xz], [zx, zz]] = plate;
  const [c, s, d, t] = [Math.cos(from), Math.sin(from), Math.cos(to), Math.sin(to)];
  const sum = (part: "re" | "im") => d * (xx[part] * c + xz[part] * s) + t * (zx[part] * c + zz[part] * s);
  return sum("re") ** 2 + sum("im") ** 2;
}
const odd = retarder({ retardation: 0.83, angle: 0.37 });

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
    "a wave plate is unitary: field along 0.2, all that leaves it [-]",
    () => passed(odd, 0.2, 0.9) + passed(odd, 0.2, 0.9 + Math.PI / 2),
    1,
    "W W* = 1",
  ),
  exact(
    "a wave plate read backward passes the same share [-]",
    () => passed(odd, 0.2, 0.9) / passed(odd, 0.9, 0.2),
    1,
    "reciprocity: W is symmetric",
  ),
  exact(
    "a half-wave plate at 20 degrees turns a field from 5 to 35 degrees [-]",
    () => passed(retarder({ retardation: Math.PI, angle: 20 * degree }), 5 * degree, 35 * degree),
    1,
    "2 theta - angle",
  ),
  exact(
    "a quarter-wave plate at 45 degrees to the field: the same share along any axis [-]",
    () => passed(retarder({ retardation: Math.PI / 2, angle: 45 * degree }), 0, 0.6),
    0.5,
    "circular light",
  ),
  exact(
    "a plate's share passed crossed, at 30 degrees to the field with a retardation of 1 [-]",
    () => passed(retarder({ retardation: 1, angle: 30 * degree }), 0, Math.PI / 2),
    Math.sin(60 * degree) ** 2 * Math.sin(0.5) ** 2,
    "sin^2(2 theta) sin^2(delta / 2)",
  ),
  exact(
    "both ports behind a wave plate with unequal modes, leaks and contrast 0.9, sum [-]",
    () => {
      const { first, second } = transferOf(
        changed({
          polarizer: at(38, 1e-2),
          analyzer: at(-20, 1e-3),
          powerRatio: 1.7,
          visibility: 0.9,
          wavePlate: { retardation: 0.83, angle: 0.37 },
        }),
      );
      return portPower(first, 2.1) + portPower(second, 2.1);
    },
    1,
    "conservation of power",
  ),
  exact(
    "an interferometer's both ports with arms of 1 to 4, sum; and its contrast [-]",
    () => {
      const { first, second } = transferOf(changed({ kind: "interferometric", powerRatio: 4 }));
      return portPower(first, 0.4) + portPower(second, 0.4) - 1 + 2 * first.amplitude;
    },
    0.8,
    "conservation; 2 sqrt(r) / (1 + r)",
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
