/** Units: values of one unit in SI, from their definitions and from what instruments print. */
import { type KindName, soundLevelDb } from "../src/core/quantity/kinds.ts";
import { readQuantity } from "../src/core/quantity/read.ts";
import type { TruthRow } from "./row.ts";

function read(text: string, kind: KindName): number {
  const outcome = readQuantity(text, kind, []);
  return outcome.ok ? outcome.value : Number.NaN;
}

const exact = { within: 2e-16, why: "one rounding", origin: "exact" } as const;

export const rows: readonly TruthRow[] = [
  {
    what: "94 dB re 20 uPa [Pa]",
    got: () => read("94 dB", "soundLevel"),
    expected: 1.0023745,
    within: 0.5e-7,
    why: "half the last digit printed",
    origin: "independent method",
    source: "20e-6 * 10^(94/20), worked outside this program",
  },
  {
    what: "1 Pa [dB re 20 uPa]",
    got: () => soundLevelDb(1),
    expected: 93.9794,
    within: 0.00005 / 93.9794,
    why: "half the last digit printed",
    origin: "independent method",
    source: "20 log10(1 / 20e-6), worked outside this program",
  },
  {
    ...exact,
    what: "1 eV [J]",
    got: () => read("1 eV", "energy"),
    expected: 1.602176634e-19,
    source: "the SI since 2019: e is exact",
  },
  {
    ...exact,
    what: "1 atm [Pa]",
    got: () => read("1 atm", "pressure"),
    expected: 101325,
    source: "definition of the standard atmosphere",
  },
  {
    ...exact,
    what: "-40 degF [degC + 273.15 K]",
    got: () => read("-40 degF", "temperature"),
    expected: 233.15,
    source: "definition: both scales meet at -40",
  },
  {
    ...exact,
    what: "0 degC [K]",
    got: () => read("0 degC", "temperature"),
    expected: 273.15,
    source: "definition of the degree Celsius",
  },
  {
    ...exact,
    what: "180 deg [rad]",
    got: () => read("180 deg", "angle"),
    expected: Math.PI,
    source: "definition of the degree",
  },
  {
    what: "1 mmHg [Pa]",
    got: () => read("1 mmHg", "pressure"),
    expected: 133.322,
    within: 0.0005 / 133.322,
    why: "half the last digit printed",
    origin: "published",
    source: "table of units that may be used with the SI (from memory, to be confirmed)",
  },
];
