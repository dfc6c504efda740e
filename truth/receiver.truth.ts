/** Noise of currents, resistors, light and converters by themselves. */
import { intensityNoiseOfShot, quantizationDensity, shotCurrent } from "../src/core/parts/readout/receiverNoise.ts";
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
];
