/** The responses of many specimens as percentile curves. */

import { formatNumber } from "../core/quantity/format.ts";
import type { SpreadSummary } from "../core/tasks/spread/summary.ts";
import { chartWords } from "../words/en/chartPage.ts";
import { frequencyAxis, linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

const names = ["2.5 %", "16 %", "half", "84 %", "97.5 %"];

/** A response beside the spread: level re that at the reference [dB] over frequency [Hz]. */
export interface BesideSpread {
  readonly name: string;
  readonly frequency: readonly number[];
  readonly level: readonly (number | null)[];
}

export interface SpreadFigureWords {
  readonly description: string;
  readonly level: string;
  readonly half: string;
  readonly twoThirds: string;
  readonly most: string;
  /** What the response may leave the reference by [dB]; null: nothing is asked. */
  readonly within: number | null;
  /** Ends of the band that was asked for [Hz]; null: none. */
  readonly band: readonly [number | null, number | null];
}

/** The median of many specimens, where two thirds and where 95 of a hundred lie; kept designs as they are drawn, dashed. */
export function spreadFigure(
  { frequency, levels }: SpreadSummary["band"],
  words: SpreadFigureWords,
  room: FigureRoom,
  beside: readonly BesideSpread[] = [],
): Figure {
  const known = levels.flat();
  const [low, high] = known.reduce(([a, b], v) => [Math.min(a, v), Math.max(b, v)], [-1, 1]);
  const range: [number, number] = [frequency[0] ?? 20, frequency.at(-1) ?? 20e3];
  const { within, band } = words;
  const at = (k: number) => levels[k] ?? [];
  return curveFigure({
    ...room,
    description: words.description,
    x: frequencyAxis(range, room.width - 60),
    y: linearAxis(words.level, [Math.max(low, -30), Math.min(high, 30)], { count: 6 }),
    curves: [
      { name: words.half, x: frequency, y: at(2) },
      ...beside.map(({ name, frequency: x, level: y }) => ({ name, x, y })),
    ],
    areas: [
      { name: words.most, x: frequency, low: at(0), high: at(4) },
      { name: words.twoThirds, x: frequency, low: at(1), high: at(3) },
    ],
    region:
      within === null
        ? null
        : {
            x: [band[0] ?? range[0], band[1] ?? range[1]],
            y: [-within, within],
            text: `required: ± ${formatNumber(within, { digits: 2 })} dB`,
            shorter: chartWords.required,
          },
  });
}

export function spreadTable({ frequency, levels }: SpreadSummary["band"]): readonly Column[] {
  const text = (value: number | null) => formatNumber(value, { digits: 4 });
  return [
    { title: "Frequency (Hz)", values: frequency, text },
    ...levels.map((values, k) => ({ title: `${names[k] ?? ""} (dB)`, values, text })),
  ];
}
