/** Designs of a search: sensitivity against the upper end of the band, the noise as the size of the ring. */
import type { Choices } from "../core/tasks/choose/choose.ts";
import { measureText } from "../words/en/measures.ts";
import { frequencyAxis, logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom } from "./responseFigures.ts";

export function tradeOffFigure({ tradeOff, designs }: Choices, description: string, room: FigureRoom): Figure {
  const points = tradeOff.flatMap(({ measures: { sensitivity, bandTo } }) =>
    sensitivity !== null && bandTo !== null ? [{ x: bandTo, y: sensitivity }] : [],
  );
  const all = [
    ...points,
    ...designs.flatMap(({ measures }) =>
      measures.sensitivity !== null && measures.bandTo !== null
        ? [{ x: measures.bandTo, y: measures.sensitivity }]
        : [],
    ),
  ];
  const reach = (values: readonly number[]): [number, number] => [
    0.8 * Math.min(...values),
    1.25 * Math.max(...values),
  ];
  const sorted = [...points].sort((a, b) => a.x - b.x);
  return curveFigure({
    ...room,
    description,
    x: frequencyAxis(reach(all.map(({ x }) => x)), room.width - 60),
    y: logAxis("Sensitivity (mrad/Pa)", reach(all.map(({ y }) => y)), { length: room.height - 70, per: 1e-3 }),
    curves: [{ name: "", x: sorted.map(({ x }) => x), y: sorted.map(({ y }) => y) }],
    markers: designs.flatMap(({ measures: { sensitivity, bandTo, noise } }, i) =>
      sensitivity === null || bandTo === null
        ? []
        : [
            {
              x: bandTo,
              y: sensitivity,
              text: noise === null ? String(i + 1) : `${i + 1}: ${measureText("noise", noise)}`,
            },
          ],
    ),
  });
}
