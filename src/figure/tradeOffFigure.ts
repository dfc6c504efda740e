/** What designs of a search pay for each other: sensitivity against the upper end of the band, with the noise of those that are proposed. */
import type { Choices } from "../core/tasks/choose/choose.ts";
import type { Measures } from "../core/tasks/predict/judge.ts";
import { measureText } from "../words/en/measures.ts";
import { frequencyText, logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Marker } from "./curveInput.ts";
import { displayUnit } from "./displayUnit.ts";
import type { FigureRoom } from "./responseFigures.ts";

export interface TradeOffWords {
  readonly description: string;
  readonly band: string;
  readonly sensitivity: string;
  readonly required: string;
  readonly now: string;
}

/** What stands beside the search's designs; null: not known, or not asked. */
export interface TradeOffPlace {
  readonly now: Pick<Measures, "sensitivity" | "bandTo" | "noise"> | null;
  /** [rad/Pa], [Hz] */
  readonly asked: { readonly sensitivity: number | null; readonly bandTo: number | null };
}

export function tradeOffFigure(
  { tradeOff, designs }: Choices,
  { now, asked }: TradeOffPlace,
  words: TradeOffWords,
  room: FigureRoom,
): Figure {
  const placed = ({ sensitivity, bandTo, noise }: Pick<Measures, "sensitivity" | "bandTo" | "noise">, text: string) =>
    sensitivity === null || bandTo === null
      ? []
      : [
          {
            x: bandTo,
            y: sensitivity,
            text: noise === null || text === "" ? text : `${text}: ${measureText("noise", noise)}`,
          },
        ];
  const front: readonly Marker[] = tradeOff
    .flatMap(({ measures }) => placed(measures, ""))
    .map((one) => ({ ...one, quiet: true }));
  const proposed: readonly Marker[] = [
    ...designs.flatMap(({ measures }, i) => placed(measures, String(i + 1))),
    ...(now === null ? [] : placed(now, words.now)),
  ];
  const all = [...front, ...proposed];
  const reach = (values: readonly number[]): [number, number] => [
    0.85 * Math.min(...values),
    1.2 * Math.max(...values),
  ];
  const x = reach([...all.map((one) => one.x), ...(asked.bandTo === null ? [] : [asked.bandTo])]);
  const y = reach([...all.map((one) => one.y), ...(asked.sensitivity === null ? [] : [asked.sensitivity])]);
  const { per, name } = displayUnit("phaseSensitivity", y[1]);
  return curveFigure({
    ...room,
    description: words.description,
    x: logAxis(words.band, x, { length: room.width - 60, text: frequencyText }),
    y: logAxis(`${words.sensitivity} (${name})`, y, { length: room.height - 70, per }),
    curves: [],
    markers: [...front, ...proposed],
    region:
      asked.sensitivity === null && asked.bandTo === null
        ? null
        : { x: [asked.bandTo ?? x[0], x[1]], y: [asked.sensitivity ?? y[0], y[1]], text: words.required },
  });
}
