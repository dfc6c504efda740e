/** Worked examples of the Guide to the expression of uncertainty and of its first supplement. */
import { describeSample } from "../src/core/numerics/describeSample.ts";
import { fitLinear } from "../src/core/numerics/linearFit.ts";
import type { Outcome } from "../src/core/problem.ts";
import { combineUncertainty } from "../src/core/reading/budget.ts";
import type { BudgetInput } from "../src/core/reading/budgetQuestion.ts";
import { outputCorrelation } from "../src/core/reading/propagation.ts";
import { good } from "../tests/outcomes.ts";
import type { TruthRow } from "./row.ts";

const row = (
  what: string,
  got: () => number,
  expected: number,
  within: number,
  why: string,
  source: string,
): TruthRow => ({
  what,
  got,
  expected,
  within,
  why,
  origin: "published",
  source,
});

/** H.1, end gauge. Lengths in nm; the length of the standard is 50 000 623 nm. */
const endGauge = (): readonly BudgetInput[] => [
  { name: "standard", value: 50_000_623, standard: 25, degreesOfFreedom: 18 },
  { name: "difference", value: 215, standard: Math.hypot(5.8, 3.9, 6.7), degreesOfFreedom: 25.6 },
  { name: "expansion", value: 11.5e-6, standard: 2e-6 / Math.sqrt(3), shape: "rectangular" },
  { name: "temperature", value: -0.1, standard: 0.41 },
  {
    name: "difference of expansions",
    value: 0,
    standard: 1e-6 / Math.sqrt(3),
    degreesOfFreedom: 50,
    shape: "rectangular",
  },
  {
    name: "difference of temperatures",
    value: 0,
    standard: 0.05 / Math.sqrt(3),
    degreesOfFreedom: 2,
    shape: "rectangular",
  },
];
const gaugeLength = ([ls, d, alpha, theta, dAlpha, dTheta]: readonly number[]) =>
  ls! + d! - ls! * (dAlpha! * theta! + alpha! * dTheta!);
const gauge = () =>
  good(combineUncertainty({ model: gaugeLength, inputs: endGauge(), coverage: 0.99, monteCarlo: null }));
const h1 = "[jcgm-100] H.1, data as in [gum-repos]; the unrounded figure was computed by another program";

/** H.2, resistance, reactance, impedance from five simultaneous readings. */
const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
const milliamperes = [19.663, 19.639, 19.64, 19.685, 19.678];
const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
function correlationOfMeans(a: readonly number[], b: readonly number[]): number {
  const [x, y] = [good(describeSample(a)), good(describeSample(b))];
  const sum = a.reduce((total, value, i) => total + (value - x.mean) * (b[i]! - y.mean), 0);
  return sum / (a.length - 1) / (x.standardDeviation! * y.standardDeviation!);
}
function impedanceInputs() {
  const lists = [volts, milliamperes.map((value) => value / 1000), radians];
  const inputs = lists.map((list, i): BudgetInput => {
    const { mean, standardUncertaintyOfMean } = good(describeSample(list));
    return { name: ["voltage", "current", "phase"][i]!, value: mean, standard: standardUncertaintyOfMean! };
  });
  const correlations = [
    [0, 1],
    [0, 2],
    [1, 2],
  ].map(([a, b]) => ({ between: [a!, b!] as const, value: correlationOfMeans(lists[a!]!, lists[b!]!) }));
  return { inputs, correlations };
}
const resistance = ([v, i, phi]: readonly number[]) => (v! / i!) * Math.cos(phi!);
const reactance = ([v, i, phi]: readonly number[]) => (v! / i!) * Math.sin(phi!);
const impedance = ([v, i]: readonly number[]) => v! / i!;
const combined = (model: (values: readonly number[]) => number) =>
  good(combineUncertainty({ model, ...impedanceInputs(), monteCarlo: null }));
const h2 = "[jcgm-100] H.2, data and results from memory";

/** H.3, calibration of a thermometer. */
const degrees = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
const thermometer = () =>
  good(fitLinear({ columns: [degrees.map(() => 1), degrees.map((t) => t - 20)], y: corrections }));
const thermometerAt30 = (): Outcome<{ readonly value: number; readonly standardUncertainty: number }> => {
  const { values, standardUncertainties, covariance } = thermometer();
  return combineUncertainty({
    model: ([a, b]) => a! + 10 * b!,
    inputs: values.map((value, i) => ({ name: `y${i + 1}`, value, standard: standardUncertainties![i]! })),
    correlations: [
      { between: [0, 1], value: covariance![1]! / (standardUncertainties![0]! * standardUncertainties![1]!) },
    ],
    monteCarlo: null,
  });
};
const h3 =
  "[jcgm-100] H.3, data as in [gum-repos]; result recomputed by another program, agrees with the print as remembered";

const fourRectangles = (monteCarlo: { readonly count: number; readonly seed: number } | null) =>
  good(
    combineUncertainty({
      model: (values) => values.reduce((sum, value) => sum + value, 0),
      inputs: [1, 2, 3, 4].map((i) => ({ name: `${i}`, value: 0, standard: 1, shape: "rectangular" as const })),
      monteCarlo,
    }),
  );

export const rows: readonly TruthRow[] = [
  row("end gauge, length [nm]", () => gauge().value, 50_000_838, 1e-12, "exact sum", h1),
  row("end gauge, standard uncertainty [nm]", () => gauge().standardUncertainty, 31.664, 2e-5, "digits given", h1),
  row("end gauge, effective degrees of freedom", () => gauge().degreesOfFreedom, 16.75, 1e-3, "digits given", h1),
  row(
    "end gauge, expanded uncertainty at 99 % [nm]",
    () => gauge().expanded,
    92.49,
    3e-4,
    "2.921 x 31.664; the print rounds both and says 93",
    h1,
  ),
  row(
    "end gauge, with terms of the second order [nm]",
    () => gauge().withSecondOrder,
    34,
    0.5 / 34,
    "half the last digit printed",
    h1,
  ),
  row("impedance: resistance [ohm]", () => combined(resistance).value, 127.732, 5e-6, "digits printed", h2),
  row(
    "impedance: uncertainty of the resistance [ohm]",
    () => combined(resistance).standardUncertainty,
    0.071,
    8e-3,
    "digits printed",
    h2,
  ),
  row("impedance: reactance [ohm]", () => combined(reactance).value, 219.847, 3e-6, "digits printed", h2),
  row(
    "impedance: uncertainty of the reactance [ohm]",
    () => combined(reactance).standardUncertainty,
    0.295,
    2e-3,
    "digits printed",
    h2,
  ),
  row("impedance: modulus [ohm]", () => combined(impedance).value, 254.26, 3e-6, "digits printed", h2),
  row(
    "impedance: uncertainty of the modulus [ohm]",
    () => combined(impedance).standardUncertainty,
    0.236,
    3e-3,
    "digits printed",
    h2,
  ),
  row(
    "impedance: correlation of resistance and reactance",
    () => outputCorrelation(resistance, reactance, impedanceInputs()),
    -0.588,
    1e-3,
    "digits printed",
    h2,
  ),
  row(
    "impedance: correlation of resistance and modulus",
    () => outputCorrelation(resistance, impedance, impedanceInputs()),
    -0.485,
    2e-3,
    "digits printed",
    h2,
  ),
  row(
    "impedance: correlation of reactance and modulus",
    () => outputCorrelation(reactance, impedance, impedanceInputs()),
    0.993,
    6e-4,
    "digits printed",
    h2,
  ),
  row("thermometer, intercept [degC]", () => thermometer().values[0]!, -0.1712, 3e-5, "digits given", h3),
  row("thermometer, slope", () => thermometer().values[1]!, 0.002183, 3e-4, "digits given", h3),
  row(
    "thermometer, uncertainty of the intercept [degC]",
    () => thermometer().standardUncertainties![0]!,
    0.00288,
    2e-3,
    "digits given",
    h3,
  ),
  row(
    "thermometer, uncertainty of the slope",
    () => thermometer().standardUncertainties![1]!,
    0.000668,
    1e-3,
    "digits given",
    h3,
  ),
  row(
    "thermometer, residual standard deviation [degC]",
    () => thermometer().residualStandardDeviation!,
    0.003498,
    2e-4,
    "digits given",
    h3,
  ),
  row(
    "thermometer, correction at 30 degC [degC]",
    () => good(thermometerAt30()).value,
    -0.14938,
    4e-5,
    "digits given",
    h3,
  ),
  row(
    "thermometer, its uncertainty at 30 degC [degC]",
    () => good(thermometerAt30()).standardUncertainty,
    0.00414,
    2e-3,
    "digits given",
    h3,
  ),
  {
    ...row(
      "four rectangular quantities, half the 95 % interval by Monte Carlo",
      () => {
        const { low, high } = fourRectangles({ count: 400_000, seed: 1 }).monteCarlo!;
        return (high - low) / 2;
      },
      3.87941,
      5e-3,
      "2.5 standard errors of a quantile from 400 000 draws",
      "[jcgm-101] 9.2.3; Irwin-Hall distribution, computed by another program",
    ),
    origin: "exact",
  },
  {
    ...row(
      "four rectangular quantities, half the 95 % interval by the linear picture",
      () => fourRectangles(null).expanded,
      3.92,
      1e-3,
      "digits printed",
      "[jcgm-101] 9.2.3",
    ),
  },
];
