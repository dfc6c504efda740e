/** A record, its fit over it, and what is left of it. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { KindName } from "../core/quantity/kinds.ts";
import { type Axis, linearAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom, Points } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

/** What runs along the record. */
export type RecordAxis = "time" | "frequency" | "position" | "bias" | "length" | "temperature" | "other";

const kindOf: Readonly<Record<RecordAxis, KindName>> = {
  time: "time",
  frequency: "frequency",
  position: "length",
  bias: "angle",
  length: "length",
  temperature: "number",
  other: "number",
};
const nameOf: Readonly<Record<RecordAxis, string>> = {
  time: "Time",
  frequency: "Frequency",
  position: "Position",
  bias: "Bias",
  length: "Length",
  temperature: "Temperature (K)",
  other: "Value",
};

export interface NamedPoints extends Points {
  readonly name: string;
}

export interface RecordFigureInput {
  readonly axis: RecordAxis;
  /** Title of the upright axis, with its unit. */
  readonly title: string;
  readonly description: string;
  readonly curves: readonly NamedPoints[];
}

export function recordFigure({ axis, title, description, curves }: RecordFigureInput, room: FigureRoom): Figure {
  const [x, y] = [
    extent(curves.flatMap((curve) => [...curve.x])),
    extent(curves.flatMap((curve) => curve.y.filter((value) => value !== null))),
  ];
  const { per, unit } = scaleOf(y);
  return curveFigure({
    ...room,
    description,
    x: axisAlong(axis, x, room.width),
    y: linearAxis(unit === "" ? title : `${title} × ${unit}`, y, { count: 4, per }),
    curves,
  });
}

function axisAlong(axis: RecordAxis, domain: readonly [number, number], width: number): Axis {
  const kind = kindOf[axis];
  const unit = (
    formatQuantity(Math.max(Math.abs(domain[0]), Math.abs(domain[1])), kind).split("\u202f")[1] ?? ""
  ).trim();
  const per =
    { ns: 1e-9, µs: 1e-6, ms: 1e-3, kHz: 1e3, MHz: 1e6, mm: 1e-3, µm: 1e-6, mHz: 1e-3, nm: 1e-9 }[unit] ??
    (axis === "bias" ? Math.PI / 180 : 1);
  const shown = axis === "bias" ? "°" : unit;
  return linearAxis(shown === "" ? nameOf[axis] : `${nameOf[axis]} (${shown})`, domain, {
    count: Math.max(3, Math.min(8, Math.floor(width / 90))),
    per,
  });
}

/** Small and large values are written as a power of ten beside the axis' title. */
function scaleOf([low, high]: readonly [number, number]): { readonly per: number; readonly unit: string } {
  const size = Math.max(Math.abs(low), Math.abs(high));
  if (size === 0 || (size >= 0.01 && size < 10_000)) return { per: 1, unit: "" };
  const power = 3 * Math.floor(Math.log10(size) / 3);
  return {
    per: 10 ** power,
    unit: `10${String(power)
      .replace("-", "⁻")
      .replace(/\d/g, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(Number(digit)))}`,
  };
}

function extent(values: readonly number[]): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (!(low <= high)) return [0, 1];
  return low === high ? [low - 1, high + 1] : [low, high];
}

export const sayRecord =
  (axis: RecordAxis) =>
  (x: number, y: number | null): string =>
    `${formatQuantity(x, kindOf[axis], { digits: 5 })}: ${formatNumber(y, { digits: 4 })}`;

export function recordTable(axis: RecordAxis, title: string, { x, y }: Points): readonly Column[] {
  return [
    { title: nameOf[axis], values: x, text: (value) => formatQuantity(value, kindOf[axis], { digits: 6 }) },
    { title, values: y, text: (value) => formatNumber(value, { digits: 5 }) },
  ];
}
