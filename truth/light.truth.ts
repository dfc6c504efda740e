/** Bias, harmonics, weights of the two modes, ion exchange. */
import { erfc } from "../src/core/numerics/errorFunction.ts";
import { biasOf } from "../src/core/parts/guide/bias.ts";
import { diffusionAt, diffusionLength, exchangedIndex } from "../src/core/parts/guide/diffusion.ts";
import type { Guide } from "../src/core/parts/guide/guide.ts";
import { readingsOf } from "../src/core/parts/guide/readings.ts";
import { amplitudeAtDistortion, distortionOf, harmonicsOf, stepForSlope } from "../src/core/parts/readout/harmonics.ts";
import type { TruthRow } from "./row.ts";

const degree = Math.PI / 180;
const quadrature = Math.PI / 2;

/** The glass of the worked devices: E 72.9 GPa, nu 0.21, p11 0.121, p12 0.27. */
const optics = { index: 1.5, p11: 0.121, p12: 0.27, poissonRatio: 0.21, youngsModulus: 72.9e9 };
const guide: Guide = {
  at: 0,
  face: "front",
  depth: 3e-6,
  width: null,
  length: 20e-3,
  weight: 1,
  birefringence: 0,
  optics,
};
const wavelength = 633e-9;

/** sigma_x of 1 MPa alone: eps_x = sigma / E, eps_y = -nu sigma / E. */
const pulled = { x: 1e6 / optics.youngsModulus, y: (-0.21 * 1e6) / optics.youngsModulus };
const unstressed = { stress: { across: 1e6, along: 0 }, strainPerKelvin: { x: 0, y: 0 } };

const level = (bias: number, distortion: number) => amplitudeAtDistortion(quadrature + bias * degree, distortion) ?? 0;

const one = { guide: { ...guide, modes: null }, wavelength, diaphragm: { along: 5e-3, thickness: 30e-6 } };
const place = { index: 1.5, depth: 3e-6, width: null };
/** Weight of the strain across in one mode's index, from its phase per curvature [-]. */
const armWeight = (arm: "TE" | "TM") => {
  const [reading] = readingsOf({ ...one, guide: { ...one.guide, arm } });
  return (-2 * (reading?.x ?? 0)) / (((2 * Math.PI) / wavelength) * 5e-3 * optics.index ** 3);
};

export const rows: readonly TruthRow[] = [
  ...(
    [
      [0, 0.01, 0.48625993, 1e-7],
      [0, 0.03, 0.82999016, 1e-7],
      [0, 0.1, 1.4435, 5e-5],
      [5, 0.01, 0.371, 2e-3],
      [5, 0.03, 0.757, 1e-3],
      [10, 0.01, 0.222, 3e-3],
      [10, 0.03, 0.586, 1e-3],
    ] as const
  ).map(
    ([off, distortion, expected, within]): TruthRow => ({
      what: `phase amplitude at ${100 * distortion} % distortion, ${off} degrees off quadrature [rad]`,
      got: () => level(off, distortion),
      expected,
      within,
      why: "digits given",
      origin: "exact",
      source: "Bessel sums J_k(m), evaluated by another hand",
    }),
  ),
  ...(
    [
      [1, 1, 0.4400505857],
      [1, 2, 0.1149034849],
      [1, 3, 0.019563354],
      [2, 1, 0.5767248078],
      [2, 2, 0.3528340286],
      [2, 3, 0.1289432495],
    ] as const
  ).map(
    ([amplitude, order, expected]): TruthRow => ({
      what: `half of harmonic ${order} of a phase of ${amplitude} rad, at quadrature if odd and in the null if even [-]`,
      got: () => Math.abs(harmonicsOf(amplitude, order % 2 === 1 ? quadrature : 0, 3)[order - 1] ?? 0) / 2,
      expected,
      within: 0.6e-10 / expected,
      why: "half the last digit printed",
      origin: "published",
      source: "Abramowitz and Stegun table 9.1 and 9.2, J_k(m) (from memory, to be confirmed)",
    }),
  ),
  ...[3.831706, 7.015587].map(
    (amplitude): TruthRow => ({
      what: `fundamental of a phase of ${amplitude} rad, a zero of J1 [-]`,
      got: () => harmonicsOf(amplitude, quadrature, 1)[0] ?? Number.NaN,
      expected: 0,
      within: 1e-6,
      why: "digits of the zero",
      origin: "published",
      source: "Abramowitz and Stegun table 9.5 (from memory, to be confirmed)",
    }),
  ),
  {
    what: "odd harmonics of a phase of pi / 2 at quadrature, summed at its crest [-]",
    got: () =>
      harmonicsOf(quadrature, quadrature, 15).reduce(
        (sum, value, i) => sum + (i % 2 === 0 ? (i % 4 === 0 ? -value : value) : 0),
        0,
      ),
    expected: 1,
    within: 1e-12,
    why: "round-off; J_17 is 1e-16",
    origin: "exact",
    source: "sin(m sin t) = 2 sum J_(2k+1)(m) sin (2k+1)t at t = pi / 2, m = pi / 2",
  },
  {
    what: "harmonic distortion at quadrature, m = 0.5 [-]",
    got: () => distortionOf(0.5, quadrature),
    expected: 0.01058224,
    within: 1e-6,
    why: "digits given",
    origin: "exact",
    source: "Bessel sums J_k(m), evaluated by another hand",
  },
  {
    what: "step of the bias from quadrature until the slope has fallen by 1 dB [rad]",
    got: () => stepForSlope(quadrature, 1),
    expected: Math.acos(10 ** -0.05),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "sin(pi / 2 + d) = cos d",
  },
  {
    what: "bias per MPa across and mm of guide, n 1.5, glass of the worked devices, 633 nm [rad]",
    got: () => biasOf({ ...guide, length: 1e-3, builtIn: { strain: pulled, ...unstressed } }, wavelength).atRest,
    expected: -0.0414,
    within: 0.00005 / 0.0414,
    why: "three digits given",
    origin: "independent method",
    source: "(2 pi / lambda) C sigma_x L, by hand",
  },
  {
    what: "2e-6/K of mismatch, 10 K, 20 mm, fully held: size of the bias [rad]",
    got: () => {
      const held = { x: 2e-6, y: 2e-6 };
      const builtIn = { strain: { x: 0, y: 0 }, strainPerKelvin: held, stress: { across: 0, along: 0 } };
      return Math.abs(10 * biasOf({ ...guide, builtIn }, wavelength).perKelvin);
    },
    expected: 1.5,
    within: 0.05 / 1.5,
    why: "two digits given",
    origin: "independent method",
    source: "(2 pi / lambda) C sigma L with sigma = E eps / (1 - nu), by hand",
  },
  {
    what: "weight of the strain across in TE's index, A_TE = p11 - p12 nu / (1 - nu) [-]",
    got: () => armWeight("TE"),
    expected: 0.121 - (0.27 * 0.21) / 0.79,
    within: 1e-9,
    why: "round-off",
    origin: "exact",
    source: "dB_i = p_ij eps_j with sigma_z = 0",
  },
  {
    what: "the same in TM's, A_TM = p12 - p11 nu / (1 - nu) [-]",
    got: () => armWeight("TM"),
    expected: 0.27 - (0.121 * 0.21) / 0.79,
    within: 1e-9,
    why: "round-off",
    origin: "exact",
    source: "dB_i = p_ij eps_j with sigma_z = 0",
  },
  {
    what: "TM 4 um and TE 3 um deep in 30 um: phase per curvature against both at 3 um [-]",
    got: () => {
      const read = (te: number, tm: number) =>
        readingsOf({
          ...one,
          guide: { ...guide, modes: { te: { ...place, depth: te }, tm: { ...place, depth: tm } } },
        }).reduce((sum, { xx }) => sum + xx, 0);
      return read(3e-6, 4e-6) / read(3e-6, 3e-6);
    },
    expected: (0.2378354430379747 * 11 - 0.0492278481012658 * 12) / ((0.2378354430379747 - 0.0492278481012658) * 12),
    within: 1e-9,
    why: "round-off",
    origin: "exact",
    source: "phi ~ A_TM d_TM' - A_TE d_TE', d' = h / 2 - d",
  },
  {
    what: "ion exchange: index change at twice the diffusion length under a wide window over that at the face [-]",
    got: () =>
      exchangedIndex({ x: 0, z: 2, length: 1, halfWindow: 50 }) /
      exchangedIndex({ x: 0, z: 0, length: 1, halfWindow: 50 }),
    expected: 0.004677734981047266,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "erfc(2), Abramowitz and Stegun table 7.1 (erf 2 = 0.9953222650)",
  },
  {
    what: "the same at the edge of the window over its middle [-]",
    got: () => exchangedIndex({ x: 50, z: 0.3, length: 1, halfWindow: 50 }) / erfc(0.3),
    expected: 0.5,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "erf(0) = 0",
  },
  {
    what: "silver exchange in soda-lime glass, 0.133 um^2/min, 60 min: 2 sqrt(D t) [m]",
    got: () => diffusionLength(0.133e-12 / 60, 3600),
    expected: 5.6498e-6,
    within: 1e-4,
    why: "D to three digits, length by hand",
    origin: "published",
    source: "[ramaswamy-1988] D of dilute silver; depth ~ sqrt(t)",
  },
  {
    what: "diffusion with 1 eV from 658.15 K to 10 K more, ratio [-]",
    got: () => diffusionAt({ coefficient: 1, at: 658.15, activation: 1.602176634e-19 }, 668.15),
    expected: Math.exp((1.602176634e-19 / 1.380649e-23) * (1 / 658.15 - 1 / 668.15)),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "Arrhenius' law, CODATA 2018 constants",
  },
];
