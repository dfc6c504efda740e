/** Damping ratio against the gap of the air film, everything else as it is. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { DampingCurve } from "../core/tasks/predict/dampingAgainstGap.ts";
import type { Verdict } from "../core/tasks/predict/prediction.ts";
import { asGiven } from "../words/asGiven.ts";
import { chartWords, requiredText } from "../words/en/chartPage.ts";
import { logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Region } from "./curveInput.ts";
import { extent, type FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

/** Range of the curve and where the present gap lies on it [m, -]. */
export interface DampingPlace {
  readonly from: number;
  readonly to: number;
  readonly here: { readonly gap: number; readonly dampingRatio: number | null } | null;
}

export function dampingFigure(
  curve: DampingCurve,
  { from, to, here }: DampingPlace,
  verdict: readonly Verdict[],
  room: FigureRoom,
): Figure {
  const known = [...curve.dampingRatio, here?.dampingRatio ?? null].filter((value) => value !== null && value > 0);
  const [low, high] = extent(known.length > 0 ? (known as number[]) : [0.1, 1]);
  const asked = verdict.flatMap((line) => (line.requirement.startsWith("brief.damping.") ? [line.asked] : []));
  const heights: [number, number] = [0.8 * Math.min(low, ...asked), 1.5 * Math.max(high, ...asked)];
  const marker =
    here === null || here.dampingRatio === null
      ? []
      : [{ x: here.gap, y: here.dampingRatio, text: sayDamping(here.gap, here.dampingRatio), dropped: true }];
  return curveFigure({
    ...room,
    description: "Damping ratio of the resonance against the gap of the air film.",
    x: logAxis("Air gap (µm)", [from, to], { length: room.width - 58, per: 1e-6 }),
    y: logAxis("Damping ratio ζ", heights, { length: room.height - 70 }),
    curves: [{ name: "", x: curve.gap, y: curve.dampingRatio }],
    markers: marker,
    region: requirement(verdict, [from, to], heights),
  });
}

/** The damping that was asked for; null where none was. */
function requirement(verdict: readonly Verdict[], x: [number, number], y: [number, number]): Region | null {
  const asked = (name: string) => verdict.find(({ requirement: line }) => line === name)?.asked ?? null;
  const [least, most] = [asked("brief.damping.atLeast"), asked("brief.damping.atMost")];
  if (least === null && most === null) return null;
  const text = requiredText([
    ...(least === null ? [] : [{ most: false, value: asGiven(least, "number") }]),
    ...(most === null ? [] : [{ most: true, value: asGiven(most, "number") }]),
  ]);
  return { x, y: [least ?? y[0], most ?? y[1]], text, shorter: chartWords.required };
}

/** "38 µm: ζ 0.589" */
export const sayDamping = (gap: number, dampingRatio: number | null): string =>
  `${formatQuantity(gap, "length", { digits: 3 })}: ${dampingRatio === null ? "does not ring" : `ζ ${formatNumber(dampingRatio, { digits: 3 })}`}`;

export function dampingTable({ gap, dampingRatio, frequency }: DampingCurve): readonly Column[] {
  const text = (value: number | null) => formatNumber(value, { digits: 5 });
  return [
    { title: "Air gap (µm)", values: gap, text: (value) => text(value === null ? null : value / 1e-6) },
    { title: "Damping ratio", values: dampingRatio, text },
    { title: "Resonance (Hz)", values: frequency, text },
  ];
}
