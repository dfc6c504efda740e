/** Static sensitivity against the position of the guide. */
import { formatQuantity } from "../core/quantity/format.ts";
import type { Prediction } from "../core/tasks/predict/prediction.ts";
import { linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Marker } from "./curveInput.ts";
import type { Side } from "./labels.ts";
import { type FigureRoom, type Named, presentName } from "./responseFigures.ts";

/** Where the guides of a microphone lie and can lie. */
export interface GuidePlaces {
  /** Positions of the guides that there are [m]. */
  readonly at: readonly number[];
  /** Farthest from the middle that a guide lies wholly on the diaphragm [m]. */
  readonly reach: number;
}

export function scanFigure(
  prediction: Prediction,
  { at, reach }: GuidePlaces,
  room: FigureRoom,
  kept: readonly (Named & { readonly reach: number })[] = [],
): Figure {
  const { scan, best, static: now } = prediction.sensitivity;
  const largest = scan.value.reduce((size, value) => Math.max(size, Math.abs(value)), 0);
  const per = largest >= 1e-3 ? 1e-3 : largest >= 1e-6 ? 1e-6 : 1e-9;
  const unit = per === 1e-3 ? "mrad/Pa" : per === 1e-6 ? "µrad/Pa" : "nrad/Pa";
  const [first = 0, last = 0] = [scan.at[0], scan.at.at(-1)];
  const x = linearAxis("Guide position (mm)", [first, last], {
    count: room.width > 420 ? 8 : 4,
    per: 1e-3,
    tight: true,
  });
  // Some room beyond the best, for its label.
  const others = kept.map((one) => ({ name: one.name, ...scanPoints(one.prediction, one.reach) }));
  const heights = [scan.value, [best.value, 0], ...others.map(({ y }) => y)].flat();
  const lowest = 1.1 * Math.min(...heights);
  const highest = 1.1 * Math.max(...heights);
  const y = linearAxis(`Static sensitivity (${unit})`, [lowest, highest], { count: 8, per });
  const here: Marker[] =
    at.length === 1 && at[0] !== undefined
      ? [{ x: at[0], y: now, text: sensitivityText(now), sides: toward(at[0]) }]
      : [];
  const tops: Marker[] = here.some((marker) => Math.abs(marker.x - best.at) < (last - first) / 200)
    ? []
    : [{ x: best.at, y: best.value, text: `best ${sensitivityText(best.value)}`, sides: toward(best.at, true) }];
  return curveFigure({
    ...room,
    description: `Static sensitivity against guide position; the best is ${sensitivityText(best.value)} at ${formatQuantity(best.at, "length")}.`,
    x,
    y,
    curves: [{ name: presentName(kept), ...scanPoints(prediction, reach) }, ...others],
    markers: [...here, ...tops],
    rules: at.map((position) => ({ x: position, text: at.length === 1 ? "guide" : "", color: room.colors.light })),
  });
}

/** Labels lie toward the middle; the best one, at the end of the curve, under the other one. */
const toward = (at: number, below = false): readonly Side[] => {
  const side = at > 0 ? "left" : "right";
  return below ? [`below-${side}`, side] : [`above-${side}`, side];
};

/**
 * The scan with the best position, which lies between two of it, in its place; on both sides where both sides are alike.
 * Positions beyond `reach`, where part of the guide would hang over the edge, are left out.
 */
export function scanPoints({ sensitivity: { scan, best } }: Prediction, reach = Number.POSITIVE_INFINITY): ScanPoints {
  const points = scan.at.map((at, i) => ({ at, value: scan.value[i] ?? 0 }));
  const alike = points.every(({ at, value }, i) => {
    const other = points[points.length - 1 - i] ?? { at, value };
    return Math.abs(at + other.at) <= 1e-9 && Math.abs(value - other.value) <= 1e-9 * Math.abs(best.value);
  });
  const more = alike ? [best, { at: -best.at, value: best.value }] : [best];
  const farthest = Math.max(reach * (1 + 1e-9), Math.abs(best.at));
  const all = [...points.filter(({ at }) => Math.abs(at) <= farthest), ...more].sort((a, b) => a.at - b.at);
  return { x: all.map(({ at }) => at), y: all.map(({ value }) => value) };
}

export interface ScanPoints {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** "2.1 mm: −412 µrad/Pa" */
export const sayScan = (at: number, value: number | null): string =>
  `${formatQuantity(at, "length", { digits: 4 })}: ${formatQuantity(value, "phaseSensitivity", { digits: 4 })}`;

const sensitivityText = (value: number): string => formatQuantity(value, "phaseSensitivity", { digits: 3 });
