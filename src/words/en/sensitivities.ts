/** What a number depends on most, in words: the same on a card of the page and under the command's answer. */
import { formatNumber } from "../../core/quantity/format.ts";
import type { Card } from "../../core/tasks/predict/prediction.ts";

const names: Readonly<Record<string, string>> = {
  "sensitivity.static": "Static sensitivity",
  "sensitivity.magnitude": "Sensitivity",
  "resonance.frequency": "Resonance",
  "resonance.dampingRatio": "Damping ratio",
  "band.from": "Lower band edge",
  "band.to": "Upper band edge",
};

export interface SensitivityText {
  /** "Resonance" */
  readonly number: string;
  /** "+1.3 Thickness", the strongest first. */
  readonly to: readonly { readonly change: string; readonly label: string }[];
}

/** What one reads the changes as. */
export const sensitivityHint = "Percent of change for one percent more of:";

/** Of each number of a card; empty where nobody asked. */
export const sensitivityTexts = ({ mostSensitiveTo = [] }: Card): readonly SensitivityText[] =>
  mostSensitiveTo.map(({ number, to }) => ({
    number: names[number] ?? number,
    to: to.map(({ label, exponent }) => ({ change: signed(exponent), label })),
  }));

/** Lines of the command's answer. */
export const sensitivityLines = (cards: Readonly<Record<string, Card>>): readonly string[] => [
  sensitivityHint,
  ...Object.values(cards)
    .flatMap(sensitivityTexts)
    .flatMap(({ number, to }) => [
      `  ${number}`,
      ...to.map(({ change, label }) => `    ${change.padStart(6)}  ${label}`),
    ]),
];

/** Two digits and always a sign: "+1.3", "−0.25". */
const signed = (value: number): string => `${value > 0 ? "+" : ""}${formatNumber(value, { digits: 2 })}`;
