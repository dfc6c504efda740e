/** The kinds of quantity that a project holds: a table. The units of each are those it is written in, smallest first. */
import type { Dimension } from "./units.ts";

export interface Kind {
  /** In a sentence: "a length". */
  readonly words: string;
  readonly dimension: Dimension;
  /** Units to write it in, smallest first; formatting takes the largest that leaves a number of 1 or more. */
  readonly units: readonly [string, ...string[]];
  /** The unit of the number inside, in which any value can be written. */
  readonly si: string;
  /** What would do, for messages. */
  readonly examples: readonly [string, ...string[]];
  /**
   * "linear": factor only. "point": a temperature, offset counted. "soundLevel": dB re 20 uPa or Pa.
   * "powerPerHertz": 10 log10 of a ratio per hertz. "number": no unit at all; "share": a plain number or "%".
   */
  readonly scale: "linear" | "point" | "soundLevel" | "powerPerHertz" | "number" | "share";
}

const pascal: Dimension = { kg: 1, m: -1, s: -2 };
const volt: Dimension = { kg: 1, m: 2, s: -3, A: -1 };

function kind(
  words: string,
  dimension: Dimension,
  units: Kind["units"],
  si: string,
  ...examples: Kind["examples"]
): Kind {
  return { words, dimension, units, si, examples, scale: "linear" };
}

export const kinds = {
  length: kind("a length", { m: 1 }, ["nm", "um", "mm", "m"], "m", "0.22 mm", "38 um"),
  area: kind("an area", { m: 2 }, ["um^2", "mm^2", "m^2"], "m^2", "76.8 mm^2", "1 cm^2"),
  volume: kind("a volume", { m: 3 }, ["mm^3"], "m^3", "7.2 mm^3", "1.5 cm^3"),
  density: kind("a density", { kg: 1, m: -3 }, ["kg/m^3"], "kg/m^3", "2510 kg/m^3", "2.51 g/cm^3"),
  pressure: kind("a pressure", pascal, ["uPa", "mPa", "Pa", "kPa", "MPa", "GPa"], "Pa", "101.325 kPa", "900 hPa"),
  modulus: kind("an elastic modulus", pascal, ["Pa", "kPa", "MPa", "GPa"], "Pa", "72.9 GPa", "45 MPa"),
  perPascal: kind("a value per pascal", { kg: -1, m: 1, s: 2 }, ["1/Pa"], "1/Pa", "3.5e-12 1/Pa"),
  viscosity: kind(
    "a viscosity",
    { kg: 1, m: -1, s: -1 },
    ["uPa s", "mPa s", "Pa s"],
    "Pa s",
    "1.83e-5 Pa s",
    "18.3 uPa s",
  ),
  temperature: { ...kind("a temperature", { K: 1 }, ["degC"], "K", "23 degC", "296.15 K"), scale: "point" },
  temperatureDifference: kind("a temperature difference", { K: 1 }, ["mK", "K"], "K", "2 K", "0.5 degC"),
  perKelvin: kind("a value per kelvin", { K: -1 }, ["1/K"], "1/K", "2e-6 1/K"),
  expansion: kind("a thermal expansion", { K: -1 }, ["um/(m K)"], "1/K", "7.2 um/(m K)", "7.2e-6 1/K"),
  tension: kind("a tension", { kg: 1, s: -2 }, ["mN/m", "N/m", "kN/m"], "N/m", "120 N/m"),
  rotationStiffness: kind(
    "an edge stiffness (moment per radian and meter of edge)",
    { kg: 1, m: 1, s: -2 },
    ["mN", "N", "kN"],
    "N",
    "0.35 N",
  ),
  admittance: kind("a velocity per pressure", { kg: -1, m: 2, s: 1 }, ["m/(Pa s)"], "m/(Pa s)", "2.5e-5 m/(Pa s)"),
  soundLevel: {
    ...kind("a sound pressure", pascal, ["dB"], "Pa", "94 dB", "1 Pa"),
    scale: "soundLevel",
  },
  decibel: kind("a ratio in decibels", { dB: 1 }, ["dB"], "dB", "2 dB"),
  intensityNoise: {
    ...kind("a relative intensity noise", { dB: 1, s: 1 }, ["dB/Hz"], "1/Hz", "-140 dB/Hz", "1e-14 1/Hz"),
    scale: "powerPerHertz",
  },
  power: kind("a power", { kg: 1, m: 2, s: -3 }, ["nW", "uW", "mW", "W"], "W", "5 mW"),
  angle: kind("an angle", { rad: 1 }, ["deg"], "rad", "90 deg", "1.57 rad"),
  phase: kind("a phase", { rad: 1 }, ["urad", "mrad", "rad"], "rad", "0.5 rad", "3 mrad"),
  phaseSensitivity: kind(
    "a phase per pressure",
    { rad: 1, kg: -1, m: 1, s: 2 },
    ["nrad/Pa", "urad/Pa", "mrad/Pa", "rad/Pa"],
    "rad/Pa",
    "0.65 mrad/Pa",
  ),
  frequency: kind("a frequency", { s: -1 }, ["mHz", "Hz", "kHz", "MHz", "GHz"], "Hz", "1 kHz", "50 Hz"),
  time: kind("a time", { s: 1 }, ["ns", "us", "ms", "s"], "s", "9 ms", "10 s"),
  resistance: kind("a resistance", { kg: 1, m: 2, s: -3, A: -2 }, ["ohm", "kohm", "Mohm"], "ohm", "20 kohm"),
  voltage: kind("a voltage", volt, ["uV", "mV", "V"], "V", "2 V", "10 mV"),
  voltageNoise: kind(
    "a voltage noise",
    { ...volt, s: -2.5 },
    ["nV/sqrt(Hz)", "uV/sqrt(Hz)", "V/sqrt(Hz)"],
    "V/sqrt(Hz)",
    "5 nV/sqrt(Hz)",
  ),
  currentNoise: kind(
    "a current noise",
    { A: 1, s: 0.5 },
    ["fA/sqrt(Hz)", "pA/sqrt(Hz)", "nA/sqrt(Hz)", "A/sqrt(Hz)"],
    "A/sqrt(Hz)",
    "10 fA/sqrt(Hz)",
  ),
  responsivity: kind("a responsivity", { A: 1, kg: -1, m: -2, s: 3 }, ["A/W"], "A/W", "0.45 A/W"),
  diffusion: kind("a diffusion coefficient", { m: 2, s: -1 }, ["m^2/s"], "m^2/s", "5e-16 m^2/s", "0.133 um^2/min"),
  energy: kind("an energy", { kg: 1, m: 2, s: -2 }, ["eV"], "J", "1.1 eV"),
  fraction: { ...kind("a share", {}, ["%"], "1", "50 %", "0.5"), scale: "share" },
  ratio: { ...kind("a plain number", {}, ["1"], "1", "0.001", "2 %"), scale: "share" },
  number: { ...kind("a plain number", {}, ["1"], "1", "0.121"), scale: "number" },
} as const satisfies Readonly<Record<string, Kind>>;

export type KindName = keyof typeof kinds;

export const kindOf = (name: KindName): Kind => kinds[name];

/** The kind of a difference or standard uncertainty of that kind: degC becomes K, a sound level stays dB. */
export function differenceKind(name: KindName): KindName {
  if (name === "temperature") return "temperatureDifference";
  if (name === "soundLevel") return "decibel";
  return name;
}

/** Reference of a sound pressure level [Pa]. Source: [iec-61672-1]. */
export const referencePressure = 20e-6;

/** Level of a sound pressure, dB re 20 uPa. */
export const soundLevelDb = (pressure: number): number => 20 * Math.log10(pressure / referencePressure);
