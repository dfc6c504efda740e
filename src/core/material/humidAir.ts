/**
 * Humid air at rest from temperature, pressure and humidity: IEC 61094-2:2009 annex F, density constants of CIPM-2007.
 *
 * Source: [iec-61094-2], [cipm-2007], [cramer-1993] in public transcriptions; several hold slips, these are the majority's
 * coefficients, and they reproduce the thermal diffusivity of the standard's table F.1 to its seven digits.
 * Holds: 15 to 27 degC, 60 to 110 kPa, 10 to 90 %; zero frequency; 400 ppm of carbon dioxide.
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { boltzmann } from "../quantity/constants.ts";
import type { Air } from "./air.ts";

export interface AirState {
  /** Temperature T [K]. */
  readonly temperature: number;
  /** Static pressure p [Pa]. */
  readonly pressure: number;
  /** Relative humidity, 0 to 1 [-]. */
  readonly humidity: number;
}

export interface HumidAir {
  /** Density rho [kg/m^3]. */
  readonly density: number;
  /** Speed of sound at zero frequency c0 [m/s]. */
  readonly speedOfSound: number;
  /** Ratio of specific heats gamma [-]. */
  readonly heatRatio: number;
  /** Dynamic viscosity mu [Pa s]. */
  readonly viscosity: number;
  /** Thermal conductivity k [W/(m K)]. */
  readonly conductivity: number;
  /** Specific heat at constant pressure cp [J/(kg K)]. */
  readonly heatCapacity: number;
  /** Thermal diffusivity k / (rho cp) [m^2/s]. */
  readonly diffusivity: number;
  /** Prandtl number mu cp / k [-]. */
  readonly prandtl: number;
  /** Mole fraction of water vapor xw [-]. */
  readonly vapor: number;
}

/** Mole fraction of carbon dioxide xc [-]. */
const carbonDioxide = 0.0004;
/** Calorie of the older sources, 4.1868 J [J]. */
const calorie = 4.1868;
/** Freezing point [K]. */
const freezing = 273.15;

/**
 * Mole fraction of water vapor [-].
 *
 *     xw = H f p_sv / p    p_sv = exp(A T^2 + B T + C + D / T)    f = alpha + beta p + gamma t^2
 *
 * Source: [cipm-2007].
 */
export function vaporFraction({ temperature: T, pressure: p, humidity }: AirState): number {
  const t = T - freezing;
  const saturation = Math.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6343.1645 / T);
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  return (humidity * enhancement * saturation) / p;
}

/** rho = 3.48374e-3 p (1 - 0.3780 xw) / (Z T), Z the compressibility. Source: [cipm-2007]. */
function density(T: number, p: number, xw: number): number {
  const t = T - freezing;
  const first =
    1.58123e-6 -
    2.9331e-8 * t +
    1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * xw +
    (1.9898e-4 - 2.376e-6 * t) * xw * xw;
  const ratio = p / T;
  const Z = 1 - ratio * first + ratio * ratio * (1.83e-11 - 0.765e-8 * xw * xw);
  return ((3.48374 + 1.4446 * (carbonDioxide - 0.0004)) * 1e-3 * p * (1 - 0.378 * xw)) / (Z * T);
}

/** a0 to a15 of the polynomial that sound speed and heat ratio share. Source: [cramer-1993] table III, as in [iec-61094-2]. */
const speedTerms = [
  331.5024, 0.603055, -0.000528, 51.471935, 0.1495874, -0.000782, -1.82e-7, 3.73e-8, -2.93e-10, -85.20931, -0.228525,
  5.91e-5, -2.835149, -2.15e-13, 29.179762, 0.000486,
] as const;
const ratioTerms = [
  1.400822, -1.75e-5, -1.73e-7, -0.0873629, -1.665e-4, -3.26e-6, 2.047e-8, -1.26e-10, 5.939e-14, -0.1199717, -8.693e-4,
  1.979e-6, -0.01104, -3.478e-16, 0.0450616, 1.82e-6,
] as const;

/** a0 + a1 t + a2 t^2 + (a3 + ...) xw + (a6 + ...) p + (a9 + ...) xc + a12 xw^2 + a13 p^2 + a14 xc^2 + a15 xw p xc. */
function cramer(coefficients: readonly number[], T: number, p: number, xw: number): number {
  const t = T - freezing;
  const xc = carbonDioxide;
  const linear = [1, xw, p, xc].flatMap((factor) => [factor, factor * t, factor * t * t]);
  const terms = [...linear, xw * xw, p * p, xc * xc, xw * p * xc];
  return terms.reduce((sum, term, i) => sum + term * (coefficients[i] ?? 0), 0);
}

/** mu = 1e-8 (84.986 + 7 T + (113.157 - T) xw - 3.7501e-3 T^2 - 100.015 xw^2). Source: [iec-61094-2] annex F. */
function viscosity(T: number, xw: number): number {
  return 1e-8 * (84.986 + 7 * T + (113.157 - T) * xw - 3.7501e-3 * T * T - 100.015 * xw * xw);
}

/** k = 4186.8e-8 (60.054 + 1.846 T + 2.06e-6 T^2 + (40 - 1.775e-4 T) xw). Source: [iec-61094-2] annex F. */
function conductivity(T: number, xw: number): number {
  return 1e-5 * calorie * (60.054 + 1.846 * T + 2.06e-6 * T * T + (40 - 1.775e-4 * T) * xw);
}

/** cp, cubic in T and quadratic in xw. Source: [iec-61094-2] annex F. */
function heatCapacity(T: number, xw: number): number {
  const dry = 0.251625 - 9.2525e-5 * T + 2.1334e-7 * T * T - 1.0043e-10 * T * T * T;
  const linear = 0.12477 - 2.283e-5 * T + 1.267e-7 * T * T;
  const square = 0.01116 + 4.61e-6 * T + 1.74e-8 * T * T;
  return 1000 * calorie * (dry + linear * xw + square * xw * xw);
}

/** Speed of sound in humid air at zero frequency [m/s]. Source: [cramer-1993]; at 1 kHz real air is faster by a few cm/s. */
export function speedOfSound(state: AirState): number {
  return cramer(speedTerms, state.temperature, state.pressure, vaporFraction(state));
}

/** All formulas, unchecked: `airAt` says where they hold. */
export function humidAir(state: AirState): HumidAir {
  const { temperature: T, pressure: p } = state;
  const vapor = vaporFraction(state);
  const rho = density(T, p, vapor);
  const mu = viscosity(T, vapor);
  const k = conductivity(T, vapor);
  const cp = heatCapacity(T, vapor);
  return {
    density: rho,
    speedOfSound: cramer(speedTerms, T, p, vapor),
    heatRatio: cramer(ratioTerms, T, p, vapor),
    viscosity: mu,
    conductivity: k,
    heatCapacity: cp,
    diffusivity: k / (rho * cp),
    prandtl: (mu * cp) / k,
    vapor,
  };
}

/**
 * Mean free path of air [m], hard spheres of sigma = 3.65e-10 m.
 *
 *     lambda = k_B T / (sqrt(2) pi sigma^2 p)
 *
 * Source: [us-atmosphere-1976]; the other usual choice, mu sqrt(pi R T / 2) / p, is 4 % shorter.
 */
export function meanFreePath({ temperature, pressure }: { temperature: number; pressure: number }): number {
  const sigma = 3.65e-10;
  return (boltzmann * temperature) / (Math.SQRT2 * Math.PI * sigma * sigma * pressure);
}

const ranges = [
  {
    key: "temperature",
    low: 15 + freezing,
    high: 27 + freezing,
    says: (v: number) => `${round(v - freezing)} degC`,
    holds: "15 to 27 degC",
  },
  { key: "pressure", low: 60e3, high: 110e3, says: (v: number) => `${round(v / 1000)} kPa`, holds: "60 to 110 kPa" },
  { key: "humidity", low: 0.1, high: 0.9, says: (v: number) => `${round(v * 100)} %`, holds: "10 to 90 %" },
] as const;

const round = (value: number) => Number(value.toPrecision(5));

const number = (value: number) => (Number.isFinite(value) ? round(value) : "not a finite number of");

/** Relative slack at the ends of a range, so that "27 degC" read through kelvin still lies inside. */
const slack = 1e-9;

/**
 * Air at a temperature [K], static pressure [Pa] and relative humidity [0 to 1].
 *
 * Remarks: `air-outside-range`, one for each value outside the range of the formulas, which still compute.
 * Problems: `not-positive` (temperature, pressure), `humidity-out-of-range`, `air-not-computable`, all in one pass.
 */
export function airAt(state: AirState): Outcome<Air> {
  const problems = impossible(state);
  if (problems.length > 0) return refuse(...problems);
  const air = humidAir(state);
  const { density, viscosity, heatRatio, prandtl } = air;
  const path = meanFreePath(state);
  const positive = [density, viscosity, air.conductivity, air.heatCapacity, heatRatio - 1, prandtl, path];
  if (air.vapor >= 1 || !positive.every((value) => Number.isFinite(value) && value > 0))
    return refuse({
      code: "air-not-computable",
      path: [],
      message: `The formulas of humid air ([iec-61094-2]; 15 to 27 degC, 60 to 110 kPa, 10 to 90 %) give no air at ${ranges
        .map((range) => range.says(state[range.key]))
        .join(", ")}. Come nearer to that range, or give density, viscosity, heatRatio, prandtl and meanFreePath.`,
    });
  const remarks = ranges
    .filter(({ key, low, high }) => state[key] < low * (1 - slack) || state[key] > high * (1 + slack))
    .map(({ key, says, holds }) => ({
      code: "air-outside-range",
      path: [key],
      message: `Air is computed at ${says(state[key])}; its formulas hold for ${holds} ([iec-61094-2] annex F).`,
    }));
  return answer({ ...state, density, viscosity, heatRatio, prandtl, meanFreePath: path }, remarks);
}

function impossible(state: AirState): Problem[] {
  const problems: Problem[] = [];
  for (const key of ["temperature", "pressure"] as const)
    if (!(state[key] > 0 && Number.isFinite(state[key])))
      problems.push({
        code: "not-positive",
        path: [key],
        message: `The ${key} of the air is ${number(state[key])} ${key === "temperature" ? "K" : "Pa"}; it must be a number above 0.`,
      });
  if (!(state.humidity >= 0 && state.humidity <= 1))
    problems.push({
      code: "humidity-out-of-range",
      path: ["humidity"],
      message: `The relative humidity is ${number(state.humidity * 100)} %; it must lie between 0 and 100 %.`,
    });
  return problems;
}
