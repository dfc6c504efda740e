/** The line of a curve as drawn, so that a page can move it without drawing its figure anew. */
import type { Axis } from "./axis.ts";
import type { Trace } from "./labels.ts";

/** From a value to its place [px] and back. */
export interface Scale {
  readonly place: (value: number) => number;
  readonly value: (place: number) => number;
}

/** Maps the axis' range onto pixels, `from` its low end `to` its high end. */
export function scaleOf({ scale, domain }: Axis, from: number, to: number): Scale {
  const bent = scale === "log" ? Math.log : (value: number) => value;
  const straight = scale === "log" ? Math.exp : (value: number) => value;
  const [low, high] = [bent(domain[0]), bent(domain[1])];
  const perUnit = (to - from) / (high - low);
  return {
    place: (value) => from + (bent(value) - low) * perUnit,
    value: (place) => straight(low + (place - from) / perUnit),
  };
}

/** Farther out than this nothing is seen [px]; longer numbers only cost time. */
const farOut = 5000;

/** Points as drawn; null where there is none, or where a logarithmic axis has no place for it. */
export function traceOf(x: readonly number[], y: readonly (number | null)[], xScale: Scale, yScale: Scale): Trace {
  return x.map((value, i) => {
    const height = y[i];
    if (height === null || height === undefined) return null;
    const point = { x: xScale.place(value), y: yScale.place(height) };
    if (!Number.isFinite(point.x) || !Number.isFinite(point.y)) return null;
    return { x: point.x, y: Math.min(Math.max(point.y, -farOut), farOut) };
  });
}

/** SVG path data: a new stroke after each gap. */
export function pathData(trace: Trace): string {
  let data = "";
  let open = false;
  for (const point of trace) {
    if (point === null) {
      open = false;
      continue;
    }
    data += `${open ? "L" : "M"}${point.x.toFixed(2)},${point.y.toFixed(2)}`;
    open = true;
  }
  return data;
}
