/** Deflection along a cut across the guide, at one moment, between the bounds of all moments. */
import type { Field } from "../core/microphone/response/fields.ts";
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import { linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom, Points } from "./responseFigures.ts";

/** The row of the grid at one phase [rad]. */
export function cutPoints(field: Field, row: number, phase: number): Points {
  const { points, across, deflection } = field;
  const [cosine, sine] = [Math.cos(phase), Math.sin(phase)];
  const x = Array.from({ length: points }, (_, i) => (i / (points - 1) - 0.5) * across);
  const y = x.map((_, i) => {
    const at = row * points + i;
    return deflection.re[at]! * cosine - deflection.im[at]! * sine;
  });
  return { x, y };
}

/** Drawn at a phase [rad]; moved on by `cutPoints` at others. */
export function cutFigure(
  field: Field,
  at: { readonly row: number; readonly phase: number },
  room: FigureRoom,
): Figure {
  const { row, phase } = at;
  const { points, across, deflection, parity } = field;
  const sizes = Array.from(deflection.re, (re, at) => Math.hypot(re, deflection.im[at]!));
  const largest = Math.max(...sizes) || 1;
  const per = parity !== null ? 1 : largest >= 1e-7 ? 1e-6 : largest >= 1e-10 ? 1e-9 : 1e-12;
  const unit = per === 1e-6 ? "µm/Pa" : per === 1e-9 ? "nm/Pa" : "pm/Pa";
  const atRow = sizes.slice(row * points, (row + 1) * points);
  const x = linearAxis("Across the guide (mm)", [-across / 2, across / 2], {
    count: room.width > 420 ? 8 : 4,
    per: 1e-3,
    tight: true,
  });
  const y = linearAxis(parity !== null ? "Shape" : `Deflection (${unit})`, [-1.05 * largest, 1.05 * largest], {
    count: 4,
    per,
  });
  const { x: places, y: now } = cutPoints(field, row, phase);
  return curveFigure({
    ...room,
    description: `Deflection across the guide, with its bounds over a period; largest ${parity !== null ? formatNumber(largest, { digits: 3 }) : `${formatQuantity(largest, "length", { digits: 3 })} per Pa`}.`,
    x,
    y,
    curves: [
      { name: "now", x: places, y: now },
      // Both bounds in one, with a gap between them.
      {
        name: "bounds",
        x: [...places, across / 2, ...places],
        y: [...atRow.map((size) => -size), null, ...atRow],
      },
    ],
  });
}

/** "1.1 mm: 12.3 nm/Pa" */
export const sayCut = (x: number, y: number | null, shape: boolean): string =>
  `${formatQuantity(x, "length", { digits: 3 })}: ${shape ? formatNumber(y, { digits: 3 }) : `${formatQuantity(y, "length", { digits: 3 })}/Pa`}`;
