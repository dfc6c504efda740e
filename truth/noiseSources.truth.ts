/** Every source of the light's noise in the phase, by hand for 1 mA at quadrature, and sources that guides share. */
import { idealLight, idealReadout } from "../src/core/parts/readout/ideal.ts";
import { type LightSource, lightNoise, type ReadGuide, sourceDensity } from "../src/core/parts/readout/lightNoise.ts";
import { operatingPoint } from "../src/core/parts/readout/operating.ts";
import type { Readout } from "../src/core/parts/readout/readout.ts";
import { transferOf } from "../src/core/parts/readout/transfer.ts";
import type { TruthRow } from "./row.ts";

const receiver = {
  responsivity: 1,
  resistor: 1e3,
  voltageNoise: 5e-9,
  currentNoise: 1e-12,
  bandwidth: 100e3,
  bits: 16,
  fullScale: 1,
  sampling: 96e3,
};

/** Density of a source at a frequency [rad/sqrt(Hz)]: 1 mW for all guides, RIN 1e-14 1/Hz above 1 kHz, 1 MHz of linewidth. */
function phase(
  source: LightSource,
  options: {
    readonly outputs?: Readout["outputs"];
    readonly rejection?: number;
    readonly weights?: readonly number[];
    readonly frequency?: number;
  } = {},
): number {
  const { outputs = "both", rejection = 0, weights = [1], frequency = 1e9 } = options;
  const readout: Readout = { ...idealReadout, outputs, rejection, receiver };
  const point = operatingPoint(transferOf(readout), outputs, Math.PI / 2);
  const noise = lightNoise({
    light: { ...idealLight(633e-9), launched: 1e-3, relativeIntensity: 1e-14, noiseCorner: 1e3, linewidth: 1e6 },
    readout,
    guides: weights.map((weight): ReadGuide => ({ weight, point, pathDifference: 20e-6 })),
    temperature: 300,
  });
  return noise ? Math.sqrt(sourceDensity(noise.sources[source], frequency)) : Number.NaN;
}

const byHand = (what: string, got: () => number, expected: number, source: string): TruthRow => ({
  what: `${what} [rad/sqrt(Hz)]`,
  got,
  expected,
  within: 1e-5,
  why: "five digits were carried; a corner of 1 kHz is read at 1 GHz",
  origin: "own derivation",
  source,
});

const bothPorts = "two ports apart add in power, sqrt(2) i / I at quadrature";

export const rows: readonly TruthRow[] = [
  byHand("1 kohm at 300 K under 1 mA", () => phase("resistor"), (Math.SQRT2 * 4.07035e-9) / 1e3 / 1e-3, bothPorts),
  byHand("5 nV/sqrt(Hz) over 1 kohm", () => phase("voltage"), (Math.SQRT2 * 5e-9) / 1e3 / 1e-3, bothPorts),
  byHand("1 pA/sqrt(Hz)", () => phase("current"), (Math.SQRT2 * 1e-12) / 1e-3, bothPorts),
  byHand(
    "16 bits of 1 V at 96 kHz over 1 kohm, slow",
    () => phase("rounding", { frequency: 1 }),
    (Math.SQRT2 * 2.01052e-8) / 1e3 / 1e-3,
    `${bothPorts}; q / sqrt(12 f_s / 2) = 20.1052 nV/sqrt(Hz), q = 15.2588 uV`,
  ),
  byHand(
    "the same at the receiver's corner of 100 kHz",
    () => phase("rounding", { frequency: 100e3 }),
    (2 * 2.01052e-8) / 1e3 / 1e-3,
    "behind a corner the signal is smaller by sqrt(2) there, the converter's steps are not",
  ),
  byHand(
    "intensity noise of 1e-7 through one port",
    () => phase("intensity", { outputs: "one" }),
    1e-7,
    "the output at rest over its slope is 1 at quadrature",
  ),
  byHand(
    "the same at its corner of 1 kHz",
    () => phase("intensity", { outputs: "one", frequency: 1e3 }),
    Math.SQRT2 * 1e-7,
    "white and 1/f noise are alike at the corner",
  ),
  byHand(
    "the same through two ports that reject 30 dB",
    () => phase("intensity", { rejection: 10 ** (-30 / 20) }),
    3.16228e-9,
    "30 dB of power are 0.0316228 of the amplitude",
  ),
  byHand(
    "a line of 1 MHz through a path difference of 20 um",
    () => phase("wavelength"),
    2.36491e-10,
    "sqrt(1 MHz / pi) = 564.190 Hz/sqrt(Hz) times 2 pi 20 um / c = 4.19169e-13 s",
  ),
  byHand(
    "the same through two guides of weight 1, which share the laser",
    () => phase("wavelength", { weights: [1, 1] }),
    2 * 2.36491e-10,
    "they add in amplitude",
  ),
  {
    ...byHand(
      "the same through two guides of opposite weight",
      () => phase("wavelength", { weights: [1, -1] }),
      0,
      "they cancel",
    ),
    within: 1e-20,
  },
  byHand(
    "amplifier current of two guides with half the light each",
    () => phase("current", { weights: [1, -1] }),
    2 * Math.SQRT2 * Math.SQRT2 * 1e-9,
    "receivers of their own add in power: sqrt(2) times, over half the current",
  ),
];
