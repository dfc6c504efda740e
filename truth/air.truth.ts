/** Humid air: IEC 61094-2 annex F with the density constants of CIPM-2007. Coefficients as the majority of public transcriptions. */
import { humidAir, meanFreePath, speedOfSound } from "../src/core/material/humidAir.ts";
import type { TruthRow } from "./row.ts";

interface AirRow {
  readonly celsius: number;
  readonly humidity: number;
  readonly density: number;
  readonly speedOfSound: number;
  readonly heatRatio: number;
  readonly viscosity: number;
  readonly conductivity: number;
  readonly heatCapacity: number;
  readonly diffusivity: number;
  readonly prandtl: number;
}

/** At 101325 Pa. The last state lies outside the formulas' stated range: it checks the arithmetic only. */
const table: readonly AirRow[] = [
  {
    celsius: 23,
    humidity: 0.5,
    density: 1.186085,
    speedOfSound: 345.8665,
    heatRatio: 1.400757,
    viscosity: 1.826566e-5,
    conductivity: 0.0254341,
    heatCapacity: 1013.738,
    diffusivity: 2.115317e-5,
    prandtl: 0.72802,
  },
  {
    celsius: 20,
    humidity: 0,
    density: 1.204557,
    speedOfSound: 343.3595,
    heatRatio: 1.402166,
    viscosity: 1.814764e-5,
    conductivity: 0.0251788,
    heatCapacity: 1006.109,
    diffusivity: 2.077605e-5,
    prandtl: 0.72515,
  },
  {
    celsius: 0,
    humidity: 0,
    density: 1.293049,
    speedOfSound: 331.4477,
    heatRatio: 1.402845,
    viscosity: 1.717238e-5,
    conductivity: 0.0236321,
    heatCapacity: 1005.764,
    diffusivity: 1.817152e-5,
    prandtl: 0.73084,
  },
];

/** Half a unit of the last digit given, relative, with one tenth of it for round-off. */
const halfDigit = (digit: number, value: number) => (0.55 * digit) / value;

function airRows(entry: AirRow): TruthRow[] {
  const state = { temperature: entry.celsius + 273.15, pressure: 101325, humidity: entry.humidity };
  const name = `air ${entry.celsius} degC, 101325 Pa, ${100 * entry.humidity} %`;
  const air = () => humidAir(state);
  const values: readonly (readonly [string, () => number, number, number])[] = [
    ["density [kg/m3]", () => air().density, entry.density, 1e-6],
    ["speed of sound at zero frequency [m/s]", () => speedOfSound(state), entry.speedOfSound, 1e-4],
    ["ratio of specific heats [-]", () => air().heatRatio, entry.heatRatio, 1e-6],
    ["viscosity [Pa s]", () => air().viscosity, entry.viscosity, 1e-11],
    ["thermal conductivity [W/(m K)]", () => air().conductivity, entry.conductivity, 1e-7],
    ["specific heat [J/(kg K)]", () => air().heatCapacity, entry.heatCapacity, 1e-3],
    ["thermal diffusivity [m2/s]", () => air().diffusivity, entry.diffusivity, 1e-11],
    ["Prandtl number [-]", () => air().prandtl, entry.prandtl, 1e-5],
  ];
  return values.map(([what, got, expected, digit]) => ({
    what: `${name}, ${what}`,
    got,
    expected,
    within: halfDigit(digit, expected),
    why: "half the last digit given",
    origin: "independent method",
    source: "[iec-61094-2] annex F and [cipm-2007], evaluated by another hand",
  }));
}

const reference = { temperature: 296.15, pressure: 101325, humidity: 0.5 };

export const rows: readonly TruthRow[] = [
  ...table.flatMap(airRows),
  {
    what: "air 23 degC, 101325 Pa, 50 %, thermal diffusivity as the standard's own table prints it [m2/s]",
    got: () => humidAir(reference).diffusivity,
    expected: 2.115317e-5,
    within: halfDigit(1e-11, 2.115317e-5),
    why: "half the last digit printed",
    origin: "published",
    source: "[iec-61094-2] table F.1, reference row (seen in a public transcription)",
  },
  ...(
    [
      ["density [kg/m3]", () => humidAir(reference).density, 1.186, 1e-3],
      ["ratio of specific heats [-]", () => humidAir(reference).heatRatio, 1.4008, 1e-4],
      ["speed of sound [m/s]", () => speedOfSound(reference), 345.9, 0.1],
    ] as const
  ).map(
    ([what, got, expected, digit]): TruthRow => ({
      what: `air 23 degC, 101325 Pa, 50 %, ${what}, quoted by another standard`,
      got,
      expected,
      within: halfDigit(digit, expected),
      why: "half the last digit printed",
      origin: "published",
      source: "[iso-9053-2] A.3",
    }),
  ),
  {
    what: "mean free path, 288.15 K, 101325 Pa, hard spheres of 3.65e-10 m [m]",
    got: () => meanFreePath({ temperature: 288.15, pressure: 101325 }),
    expected: 6.6334e-8,
    within: halfDigit(1e-12, 6.6334e-8),
    why: "half the last digit given",
    origin: "independent method",
    source: "[us-atmosphere-1976], evaluated by another hand",
  },
  {
    what: "mean free path at half the pressure over that at full pressure [-]",
    got: () =>
      meanFreePath({ temperature: 296.15, pressure: 50000 }) / meanFreePath({ temperature: 296.15, pressure: 100000 }),
    expected: 2,
    within: 1e-14,
    why: "round-off",
    origin: "exact",
    source: "kinetic theory: T / p",
  },
];
