/** Distortion of the readout, and of a plate that stretches. */
import { type PhaseSeries, phaseSeries } from "../src/core/microphone/loudest/phaseSeries.ts";
import { largeDeflection } from "../src/core/parts/diaphragm/largeDeflection.ts";
import { totalDistortion } from "../src/core/parts/readout/distortion.ts";
import { workedGuide, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Sine of amplitude m at so many degrees off quadrature. */
const readout = (m: number, degrees = 0) => {
  const rest = ((90 + degrees) * Math.PI) / 180;
  return (
    totalDistortion([
      { weight: 1, amplitude: 1, rest, slope: -Math.sin(rest), phases: [{ re: m, im: 0 }], shift: 0 },
    ]) ?? Number.NaN
  );
};
const bessel = "Bessel functions, evaluated elsewhere";

const sines: readonly (readonly [number, number, number])[] = [
  [0.48625993, 0.01, 1e-7],
  [0.82999016, 0.03, 1e-7],
  [1.4435, 0.1, 1e-4],
  [0.5, 0.01058224, 5e-7],
];
const off: readonly (readonly [number, number, number])[] = [
  [5, 0.371, 0.01],
  [5, 0.757, 0.03],
  [10, 0.222, 0.01],
  [10, 0.586, 0.03],
];

/** Guide at the very face of a clamped square: phi ~ W (1 + r W), W = w0 / h. */
const plate = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
let kept: ReturnType<typeof largeDeflection> | null = null;
function series(at: number): PhaseSeries & { readonly perPascal: number } {
  kept ??= largeDeflection(plate.diaphragm);
  const guide = { ...workedGuide(at * 5e-3), depth: 1e-12 };
  const perPascal = 1 / (kept.stiffening.linear * plate.diaphragm.thickness);
  return { ...phaseSeries(kept, { guide, wavelength: 633e-9, diaphragm: plate.diaphragm }), perPascal };
}

export const rows: readonly TruthRow[] = [
  ...sines.map(
    ([m, expected, within]): TruthRow => ({
      what: `quadrature readout, sine of ${m} rad, total harmonic distortion [-]`,
      got: () => readout(m),
      expected,
      within,
      why: "digits of the amplitude or of the value",
      origin: "independent method",
      source: bessel,
    }),
  ),
  ...off.map(
    ([degrees, m, expected]): TruthRow => ({
      what: `${degrees} degrees off quadrature, sine of ${m} rad, total harmonic distortion [-]`,
      got: () => readout(m, degrees),
      expected,
      within: 2.5e-3,
      why: "half the last digit of the amplitude",
      origin: "independent method",
      source: bessel,
    }),
  ),
  ...(
    [
      [0, -0.365],
      [0.45, 0.164],
      [0.5, 0.1],
    ] as const
  ).map(
    ([at, r]): TruthRow => ({
      what: `clamped square, guide at ${at} a at the face: r of phi ~ W (1 + r W) [-]`,
      got: () => {
        const { linear, quadratic, perPascal } = series(at);
        return quadratic / (linear * perPascal);
      },
      expected: r,
      within: 0.0006 / Math.abs(r),
      why: "half the last digit",
      origin: "independent method",
      source: "spectral code of another hand, von Karman's equations, nu = 0.21",
    }),
  ),
  {
    what: "clamped square, guide at the center at the face, W = 0.16: distortion of the phase, static [-]",
    got: () => {
      const { linear, quadratic, cubic, perPascal } = series(0);
      const p = 0.16 / perPascal;
      const [second, third] = [(quadratic * p ** 2) / 2, (cubic * p ** 3) / 4];
      return Math.hypot(second, third) / Math.abs(linear * p + (3 * cubic * p ** 3) / 4);
    },
    expected: 0.03,
    within: 0.035,
    why: "half the last digit of W",
    origin: "independent method",
    source: "spectral code of another hand, von Karman's equations, nu = 0.21",
  },
];
