/** The phase against the pressure across the diaphragm, and the straight line that it leaves. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Prediction } from "../core/tasks/predict/prediction.ts";
import { linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Marker } from "./curveInput.ts";
import type { FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

export type Straight = NonNullable<Prediction["straightness"]>;

export function straightFigure({ curve, leavesLine, distorted, reach }: Straight, room: FigureRoom): Figure {
  const heights = [...curve.phase, ...curve.line];
  const largest = heights.reduce((size, value) => Math.max(size, Math.abs(value)), 0);
  const [per, unit] = largest >= 1 ? [1, "rad"] : largest >= 1e-3 ? [1e-3, "mrad"] : [1e-6, "µrad"];
  const [perPressure, pressureUnit] = reach >= 2000 ? [1000, "kPa"] : [1, "Pa"];
  const marked = (at: number | null, text: string): Marker[] =>
    at === null ? [] : [{ x: at, y: phaseAt(curve, at), text, dropped: true }];
  const loud = distorted.at(-1);
  return curveFigure({
    ...room,
    description: "Phase of the light against the pressure across the diaphragm, with the straight line through rest.",
    x: linearAxis(`Pressure across the diaphragm (${pressureUnit})`, [-reach, reach], {
      count: room.width > 420 ? 8 : 4,
      per: perPressure,
      tight: true,
    }),
    y: linearAxis(`Phase (${unit})`, [Math.min(...heights), Math.max(...heights)], { count: 6, per }),
    curves: [
      { name: "phase", x: curve.pressure, y: curve.phase },
      { name: "line", x: curve.pressure, y: curve.line },
    ],
    // The longer label first: the short one finds room beside it and its leader.
    markers: [
      ...(loud ? marked(loud.pressure, `${formatNumber(100 * loud.share, { digits: 1 })} % distortion`) : []),
      ...marked(leavesLine, "1 % off"),
    ],
  });
}

/** Between the points drawn, straight. */
function phaseAt({ pressure, phase }: Straight["curve"], at: number): number {
  const next = Math.max(
    1,
    pressure.findIndex((p) => p >= at),
  );
  const [from = 0, to = 1] = [pressure[next - 1], pressure[next]];
  const share = (at - from) / (to - from);
  return (1 - share) * (phase[next - 1] ?? 0) + share * (phase[next] ?? 0);
}

/** "300 Pa: 97.9 mrad" */
export const sayStraight = (pressure: number, phase: number | null): string =>
  `${formatQuantity(pressure, "pressure", { digits: 3 })}: ${phase === null ? "–" : formatQuantity(phase, "phase", { digits: 3 })}`;

export function straightTable({ curve }: Straight): readonly Column[] {
  const text = (value: number | null) => formatNumber(value, { digits: 5 });
  return [
    { title: "Pressure (Pa)", values: curve.pressure, text },
    { title: "Phase (rad)", values: curve.phase, text },
    { title: "Straight line (rad)", values: curve.line, text },
  ];
}
