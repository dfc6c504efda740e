/** Cards behind the numbers that explain: losses by part, what makes the resonance, what the band hangs on, vibration, field. */
import type { Microphone } from "../../microphone/microphone.ts";
import { formatNumber, formatQuantity } from "../../quantity/format.ts";
import type { Card, Prediction } from "./prediction.ts";

/** Cards `losses`, `parts`, `vibration` and `field`; those of what is there. */
export function aroundCards(
  microphone: Microphone,
  {
    parts,
    vibration,
    field,
    band,
    resonance,
  }: Pick<Prediction, "parts" | "vibration" | "field" | "band" | "resonance">,
): Readonly<Record<string, Card>> {
  const { diaphragm, body, film } = microphone;
  const frequency = (value: number) => formatQuantity(value, "frequency", { digits: 3 });
  const decibel = (value: number) => formatQuantity(value, "decibel", { digits: 3 });
  const shares = (at: string, all: object | null | undefined) =>
    Object.entries(all ?? {})
      .filter(([, share]) => share >= 0.001)
      .sort(([, a], [, b]) => b - a)
      .map(([part, share]) => ({
        name: `${said(part)}, ${at}`,
        value: `${formatNumber(100 * share, { digits: 3 })} %`,
      }));
  const main = parts?.resonances.find((one) => one.frequency === resonance.frequency);
  return {
    ...(parts && {
      losses: {
        title: "Where the power goes",
        formula: "film (µ/2) ∫|dv/dz|² dz + (κ/2T₀) ∫|dT/dz|² dz;  hole (µ/2) ∫|dv/dr|² dV;  structure (ωη/2) wᴴ K_b w",
        inputs: [
          ...shares(`at ${frequency(band.reference)}`, parts.losses.atReference),
          ...shares("at the resonance", parts.losses.atResonance),
        ],
        source: "docs/theory/losses.md; part by part, together what goes in to 1e-8",
      },
      parts: {
        title: "What makes the resonance, and what the band hangs on",
        formula: "energy of each part in the motion at the pole;  level re the reference for a part 10 % larger",
        inputs: [
          ...shares("of the energy", main?.energy),
          ...(["low", "resonance", "top"] as const).flatMap((end) =>
            (parts.limits[end]?.influences ?? []).slice(0, 3).map(({ part, decibels }) => ({
              name: `${said(part)} 10 % larger, level at ${frequency(parts.limits[end]?.frequency ?? 0)}`,
              value: decibel(decibels),
            })),
          ),
          ...(parts.corner === null ? [] : [{ name: "vent corner", value: frequency(parts.corner) }]),
          ...(parts.secondOrder
            ? [{ name: "one resonance is off by at most", value: decibel(parts.secondOrder.decibels) }]
            : []),
        ],
        source: "docs/theory/losses.md",
      },
    }),
    ...(vibration.worst && {
      vibration: {
        title: "Level that reads as 1 m/s²",
        formula: "20 log₁₀(|φ per acceleration| / |S| / 20 µPa);  bare plate: 20 log₁₀(ρ h / 20 µPa)",
        inputs: [
          {
            name: "mass of the diaphragm",
            value: `${formatNumber(diaphragm.density * diaphragm.thickness, { digits: 4 })} kg/m²`,
          },
          ...(film
            ? [{ name: "half the film's air goes with it, gap", value: formatQuantity(film.gap, "length") }]
            : []),
          {
            name: `highest in the band, at ${frequency(vibration.worst.frequency)}`,
            value: decibel(vibration.worst.level),
          },
        ],
        source: "docs/theory/losses.md",
      },
    }),
    ...(field &&
      body && {
        field: {
          title: "Free field and random incidence",
          formula:
            body.shape === "sphere"
              ? "p / p_i = (−i / (ka)²) Σ (2n + 1) iⁿ P_n / h_n′(ka)"
              : "p / p_i = 2 − D e^(−ika), D from a table: approximate",
          inputs: [{ name: `${body.shape}, diameter`, value: formatQuantity(body.diameter, "length") }],
          source:
            body.shape === "sphere"
              ? "docs/theory/acoustics.md; [morse-ingard-1968]"
              : "docs/theory/acoustics.md; own boundary elements, for a long cylinder",
        },
      }),
  };
}

/** "filmFriction" as "film friction". */
const said = (part: string): string => part.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
