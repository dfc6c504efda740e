/** Noise of currents, resistors, light and converters by themselves. */
import { idealLight, idealReadout } from "../src/core/parts/readout/ideal.ts";
import { lightNoise, phasePerFrequency } from "../src/core/parts/readout/lightNoise.ts";
import { operatingPoint } from "../src/core/parts/readout/operating.ts";
import { intensityNoiseOfShot, quantizationDensity, shotCurrent } from "../src/core/parts/readout/receiverNoise.ts";
import { transferOf } from "../src/core/parts/readout/transfer.ts";
import { nyquist } from "../src/core/quantity/nyquist.ts";
import type { TruthRow } from "./row.ts";

const constants = "constants of the SI since 2019";

export const rows: readonly TruthRow[] = [
  {
    what: "shot noise of 1 mA [A/sqrt(Hz)]",
    got: () => Math.sqrt(shotCurrent(1e-3)),
    expected: 1.79007e-11,
    within: 3e-6,
    why: "half the last digit",
    origin: "exact",
    source: `sqrt(2 e I), ${constants}`,
  },
  {
    what: "noise of 1 kohm at 300 K [V/sqrt(Hz)]",
    got: () => Math.sqrt(nyquist(1e3, 300)),
    expected: 4.07035e-9,
    within: 2e-6,
    why: "half the last digit",
    origin: "exact",
    source: `sqrt(4 k T R), ${constants}`,
  },
  {
    what: "relative intensity noise of shot alone, 1 mW at 1310 nm [dB/Hz]",
    got: () => 10 * Math.log10(intensityNoiseOfShot(1e-3, 1310e-9)),
    expected: -155.182,
    within: 4e-6,
    why: "half the last digit",
    origin: "exact",
    source: `2 h nu / P, ${constants}`,
  },
  {
    what: "rounding noise of 16 bits over 1 V, whole band: below the full-scale sine [dB]",
    got: () => {
      const sampling = 96e3;
      const noise = quantizationDensity({ fullScale: 1, bits: 16, sampling }) * (sampling / 2);
      return 10 * Math.log10(1 / 8 / noise);
    },
    expected: 6.0206 * 16 + 1.7609,
    within: 1e-5,
    why: "digits of 6.0206 and 1.7609",
    origin: "exact",
    source: "sine of half the full scale over a step's q^2 / 12 spread to half the sampling rate",
  },
  {
    what: "phase noise of 1e5 Hz/sqrt(Hz) through B = 1e-3 over 20 mm at 633 nm [rad/sqrt(Hz)]",
    got: () => 1e5 * phasePerFrequency(1e-3 * 20e-3),
    expected: (198.5 * 1e5) / (299792458 / 633e-9),
    within: 1e-3,
    why: "198.5 rad of birefringence, printed as 199, over the light's frequency",
    origin: "own derivation",
    source: "phase in proportion to the light's frequency",
  },
  {
    what: "shot noise of 1 mA at quadrature, both ports, in the phase [rad/sqrt(Hz)]",
    got: () => {
      const readout = { ...idealReadout, receiver: { ...idealReadout.receiver, responsivity: 1 } };
      const point = operatingPoint(transferOf(readout), "both", Math.PI / 2);
      const noise = lightNoise({
        light: { ...idealLight(633e-9), launched: 1e-3 },
        readout,
        guides: [{ weight: 1, point, pathDifference: 0 }],
        temperature: 300,
      });
      return Math.sqrt(noise?.sources.shot.white ?? Number.NaN);
    },
    expected: Math.sqrt((2 * 1.602176634e-19) / 1e-3),
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source:
      "2 e / I: the standard quantum limit of an interferometer's phase, 1 / sqrt(N) for N photons a second, one-sided",
  },
];
