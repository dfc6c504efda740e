/** The responses of many specimens as percentile curves. */

import { formatNumber } from "../core/quantity/format.ts";
import type { SpreadSummary } from "../core/tasks/spread/summary.ts";
import { frequencyAxis, linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

const names = ["2.5 %", "16 %", "half", "84 %", "97.5 %"];
/** The middle one lies on top. */
const order = [2, 1, 3, 0, 4];

export function spreadFigure(
  { frequency, levels }: SpreadSummary["band"],
  words: { readonly description: string; readonly level: string; readonly within: number | null },
  room: FigureRoom,
): Figure {
  const known = levels.flat();
  const [low, high] = known.reduce(([a, b], v) => [Math.min(a, v), Math.max(b, v)], [-1, 1]);
  const range: [number, number] = [frequency[0] ?? 20, frequency.at(-1) ?? 20e3];
  const { within } = words;
  return curveFigure({
    ...room,
    description: words.description,
    x: frequencyAxis(range, room.width - 60),
    y: linearAxis(words.level, [Math.max(low, -30), Math.min(high, 30)], { count: 6 }),
    curves: order.map((k) => ({ name: names[k] ?? "", x: frequency, y: levels[k] ?? [] })),
    region:
      within === null
        ? null
        : { x: range, y: [-within, within], text: `required: ± ${formatNumber(within, { digits: 2 })} dB` },
  });
}

export function spreadTable({ frequency, levels }: SpreadSummary["band"]): readonly Column[] {
  const text = (value: number | null) => formatNumber(value, { digits: 4 });
  return [
    { title: "Frequency (Hz)", values: frequency, text },
    ...levels.map((values, k) => ({ title: `${names[k] ?? ""} (dB)`, values, text })),
  ];
}
