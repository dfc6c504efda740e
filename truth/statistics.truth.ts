/** Quantiles, gamma functions, windows and exact tones: mathematics, and tables everyone has. */
import { fourier, realFourier } from "../src/core/numerics/fourier.ts";
import { incompleteGamma, logGamma } from "../src/core/numerics/gammaFunctions.ts";
import {
  chiSquaredQuantile,
  chiSquaredShare,
  fisherQuantile,
  normalQuantile,
  normalShare,
  studentQuantile,
  studentShare,
} from "../src/core/numerics/quantiles.ts";
import { powerSpectrum } from "../src/core/numerics/spectra.ts";
import { coherentGain, noiseBandwidth, scallopingDb, type WindowName, windowOf } from "../src/core/numerics/windows.ts";
import type { TruthRow } from "./row.ts";

const exact = (what: string, got: () => number, expected: number, source: string, within = 1e-11): TruthRow => ({
  what,
  got,
  expected,
  within,
  why: "round-off of a series or a root",
  origin: "exact",
  source,
});

const table = (what: string, got: () => number, expected: number): TruthRow => ({
  what,
  got,
  expected,
  within: 1e-9,
  why: "ten digits of a standard table",
  origin: "published",
  source: "tables of the distribution, as every statistics book has them (from memory)",
});

const given = (what: string, got: () => number, expected: number, within: number): TruthRow => ({
  what,
  got,
  expected,
  within,
  why: "digits given",
  origin: "independent method",
  source: "sums over a long window, computed by another program",
});

/** A tone of amplitude 1.7 V, 12.3 periods in a record of 1000 samples with no power of two in it. */
const tone = (periods: number, count: number) =>
  Float64Array.from({ length: count }, (_, n) => 1.7 * Math.cos((2 * Math.PI * periods * n) / count + 0.4));

function toneHeight(window: WindowName, periods: number, count: number): number {
  const shape = windowOf(window, count);
  const { re, im } = realFourier(tone(periods, count).map((value, n) => value * shape[n]!));
  const k = Math.round(periods);
  return (2 * Math.hypot(re[k]!, im[k]!)) / (count * coherentGain(window));
}

function parseval(count: number): number {
  const x = Float64Array.from({ length: count }, (_, n) => Math.sin(n * n) + 0.3 * Math.cos(7 * n));
  const { re, im } = fourier(x);
  const inTime = x.reduce((sum, value) => sum + value * value, 0);
  return re.reduce((sum, value, k) => sum + value * value + im[k]! ** 2, 0) / count / inTime;
}

/** The transform by its definition, at one bin. */
function byDefinition(count: number, k: number): number {
  const x = Float64Array.from({ length: count }, (_, n) => Math.sin(n * n) + 0.3 * Math.cos(7 * n));
  let [re, im] = [0, 0];
  for (let n = 0; n < count; n++) {
    re += x[n]! * Math.cos((2 * Math.PI * ((k * n) % count)) / count);
    im -= x[n]! * Math.sin((2 * Math.PI * ((k * n) % count)) / count);
  }
  const { re: ours, im: oursIm } = fourier(x);
  return Math.hypot(ours[k]! - re, oursIm[k]! - im) / Math.hypot(re, im);
}

/** Power of the tone from its density: sum of the bins times their width. */
function powerOfDensity(window: WindowName): number {
  const { frequency, density } = powerSpectrum(tone(100, 1000), { sampling: 2000, segment: 1000, window, overlap: 0 });
  return density.reduce((sum, value) => sum + value, 0) * frequency[1]!;
}

export const rows: readonly TruthRow[] = [
  exact("ln Gamma(1/2)", () => logGamma(0.5), Math.log(Math.PI) / 2, "Gamma(1/2) = sqrt(pi)", 1e-13),
  exact("ln Gamma(31)", () => logGamma(31), 74.65823634883016, "ln 30!", 1e-14),
  exact("Q(3, 5)", () => incompleteGamma(3, 5).upper, Math.exp(-5) * (1 + 5 + 12.5), "Poisson sum", 1e-13),
  exact(
    "share of the normal distribution below -6",
    () => normalShare(-6),
    9.86587645037698e-10,
    "erfc(6 / sqrt 2) / 2",
    1e-12,
  ),
  table("normal, 0.975", () => normalQuantile(0.975), 1.959963985),
  exact("t, 1 degree, 0.975", () => studentQuantile(0.975, 1), Math.tan(Math.PI * 0.475), "tan(pi (p - 1/2))"),
  exact(
    "t, 2 degrees, 0.995",
    () => studentQuantile(0.995, 2),
    (2 * 0.995 - 1) / Math.sqrt(2 * 0.995 * 0.005),
    "closed form",
  ),
  exact(
    "t, 3 degrees, share below 2",
    () => studentShare(2, 3),
    0.5 + (Math.atan(2 / Math.sqrt(3)) + (2 * Math.sqrt(3)) / 7) / Math.PI,
    "closed form",
  ),
  table("t, 5 degrees, 0.975", () => studentQuantile(0.975, 5), 2.570581836),
  table("t, 10 degrees, 0.975", () => studentQuantile(0.975, 10), 2.228138852),
  table("t, 30 degrees, 0.975", () => studentQuantile(0.975, 30), 2.042272456),
  exact(
    "chi-squared, 2 degrees, 0.95",
    () => chiSquaredQuantile(0.95, 2),
    -2 * Math.log(0.05),
    "exponential distribution",
  ),
  exact(
    "chi-squared, 6 degrees, share below 4",
    () => chiSquaredShare(4, 6),
    1 - Math.exp(-2) * (1 + 2 + 2),
    "Poisson sum",
    1e-13,
  ),
  exact(
    "chi-squared, 1 degree, 0.95",
    () => chiSquaredQuantile(0.95, 1),
    1.959963984540054 ** 2,
    "square of the normal quantile",
  ),
  table("chi-squared, 10 degrees, 0.95", () => chiSquaredQuantile(0.95, 10), 18.30703805),
  exact(
    "F, 2 and 7 degrees, 0.95",
    () => fisherQuantile(0.95, 2, 7),
    3.5 * (0.05 ** (-2 / 7) - 1),
    "closed form for 2 degrees above",
  ),
  exact("F, 1 and 12 degrees, 0.95", () => fisherQuantile(0.95, 1, 12), studentQuantile(0.975, 12) ** 2, "square of t"),
  table("F, 5 and 10 degrees, 0.95", () => fisherQuantile(0.95, 5, 10), 3.32583453),
  exact("noise bandwidth, rectangular [bins]", () => noiseBandwidth("rectangular"), 1, "definition"),
  exact("noise bandwidth, Hann [bins]", () => noiseBandwidth("hann"), 1.5, "definition"),
  given("noise bandwidth, Hamming [bins]", () => noiseBandwidth("hamming"), 1.362826, 4e-7),
  given("noise bandwidth, Blackman [bins]", () => noiseBandwidth("blackman"), 1.726757, 4e-7),
  given("noise bandwidth, flat top [bins]", () => noiseBandwidth("flatTop"), 3.770933, 4e-7),
  given("worst scalloping, rectangular [dB]", () => scallopingDb("rectangular"), -3.9224, 2e-5),
  given("worst scalloping, Hann [dB]", () => scallopingDb("hann"), -1.4236, 4e-5),
  ...(["rectangular", "hann", "hamming", "blackman", "flatTop"] as const).map((window) =>
    exact(
      `height of a 1.7 V tone in the middle of a bin, ${window} [V]`,
      () => toneHeight(window, 37, 999),
      1.7,
      "the tone itself",
      1e-12,
    ),
  ),
  exact(
    "height of a 1.7 V tone between two bins, flat top [V]",
    () => toneHeight("flatTop", 137.5, 1000),
    1.7,
    "flat top: less than 0.1 % lost",
    2e-3,
  ),
  exact(
    "power of a 1.7 V tone from its density, Hann [V^2]",
    () => powerOfDensity("hann"),
    1.7 ** 2 / 2,
    "half the square",
    1e-12,
  ),
  exact("Parseval, 1024 points", () => parseval(1024), 1, "energy in time and frequency", 1e-13),
  exact("Parseval, 997 points (a prime)", () => parseval(997), 1, "energy in time and frequency", 1e-13),
  exact(
    "transform of 997 points against its definition, bin 123",
    () => byDefinition(997, 123),
    0,
    "definition",
    1e-12,
  ),
];
