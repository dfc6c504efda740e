/** Cards behind noise, loudest sound and strength. */
import { formatNumber, formatQuantity } from "../../quantity/format.ts";
import type { Card, Prediction } from "./prediction.ts";

export function limitCards({
  noise,
  loudest,
  strength,
}: Pick<Prediction, "noise" | "loudest" | "strength">): Readonly<Record<string, Card>> {
  const decibel = (value: number | null) => (value === null ? "none" : formatQuantity(value, "decibel", { digits: 3 }));
  const strongest = [...noise.bySource].sort((a, b) => b.share - a.share).slice(0, 3);
  return {
    noise: {
      title: "Noise, A-weighted",
      formula: "20 log₁₀(√(∫ S_φ A² df, 20 Hz … 20 kHz) / |S(f_ref)| / 20 µPa)",
      inputs: [
        ...strongest.map(({ source, levelA }) => ({ name: `${source}, alone`, value: decibel(levelA) })),
        ...(noise.detected
          ? [{ name: "power at the detectors", value: formatQuantity(noise.detected.power, "power", { digits: 3 }) }]
          : []),
      ],
      source: "docs/theory/noise.md; weighting [iec-61672-1], heat by fluctuation and dissipation",
    },
    loudest: {
      title: "Loudest sound",
      formula: "level at which √(Σ |o_k|², k ≥ 2) / |o₁| comes to the distortion asked for",
      inputs: [
        { name: "distortion", value: `${formatNumber(100 * loudest.distortion, { digits: 3 })} %` },
        { name: "readout alone", value: decibel(loudest.byCause.readout) },
        { name: "diaphragm alone", value: decibel(loudest.byCause.diaphragm) },
        { name: "film alone", value: decibel(loudest.byCause.film) },
        { name: "the wall is met at", value: decibel(loudest.contact) },
      ],
      source: "docs/theory/loudest.md",
    },
    ...(strength && {
      strength: {
        title: "Strength",
        formula: "(σ that 5 % do not bear − N / h) / bending stress;  P = 1 − exp(−(A/A₀) (t/t₀)^(m/n) (σ/σ₀)^m)",
        inputs: [
          {
            name: "largest bending stress per pressure",
            value: `${formatNumber(strength.largest.stress, { digits: 4 })} Pa/Pa`,
          },
          { name: "tension in the plane", value: formatQuantity(strength.membrane, "modulus", { digits: 3 }) },
          ...(strength.tested
            ? [
                { name: "63 % break at", value: formatQuantity(strength.tested.scale, "modulus", { digits: 3 }) },
                { name: "Weibull modulus", value: formatNumber(strength.tested.modulus, { digits: 3 }) },
                {
                  name: "figures",
                  value: strength.assumed ? `assumed: ${strength.tested.source}` : strength.tested.source,
                },
              ]
            : []),
        ],
        source: "docs/theory/strength.md",
      },
    }),
  };
}
