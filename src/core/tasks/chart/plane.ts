/** A chart as data: the lattice that is asked for, pass by pass, and the plane of what has come back. */

import type { ValuePath } from "../../project/paths.ts";
import { type Measure, type Measures, measures } from "../predict/judge.ts";

export interface ChartAxis {
  readonly path: string;
  /** Ends [SI], both > 0: the axes are logarithmic. */
  readonly from: number;
  readonly to: number;
}

export interface LaidAxis extends ChartAxis {
  readonly label: string;
  readonly kind: ValuePath["kind"];
  readonly values: readonly number[];
}

/** What is known of a plane before any of its points is. */
export interface ChartFrame {
  readonly x: LaidAxis;
  readonly y: LaidAxis;
  /** Values that follow an axis in proportion: guides, and the other side. */
  readonly tied: readonly string[];
  /** Where the design is [SI]. */
  readonly here: { readonly x: number | null; readonly y: number | null };
  /** Coarse first; together every point once. */
  readonly passes: readonly ChartPass[];
}

export interface ChartPass {
  /** Its plane has every `stride`-th point, and the last of each axis. */
  readonly stride: number;
  /** Points that no earlier pass has, tile by tile: row-major places in the whole plane. */
  readonly points: readonly (readonly number[])[];
}

/** One point. */
export interface ChartPoint {
  /** null: no such microphone (buckled, guide outside ...). */
  readonly measures: Measures | null;
  readonly reserves: Readonly<Record<string, number | null>>;
  readonly least: number | null;
  /** Estimate of the response's relative error [-]. */
  readonly estimate: number;
  /** Answered by a span, alone because the span did not reach it, or alone because there is none. */
  readonly route: "spanned" | "fallBack" | "alone";
}

export interface ChartPlane extends Omit<ChartFrame, "passes"> {
  /** Row-major, one row a value of y; null: not there, or not computed yet. */
  readonly measures: Readonly<Record<Measure, readonly (number | null)[]>>;
  /** Reserve of each requirement that is computed (of the ends of a band what is left of the room below the level and, as "… rising", above it [dB]), and the least of all (judge.ts); row-major as above. */
  readonly reserves: Readonly<Record<string, readonly (number | null)[]>>;
  readonly least: readonly (number | null)[];
  /** 1 computed, 2 no such microphone (buckled, guide outside ...), 0 not asked yet; row-major. */
  readonly state: readonly (0 | 1 | 2)[];
  /** Largest estimate of a response's relative error [-]. */
  readonly worstEstimate: number;
  /** Points answered by what spans many of them, and those that it did not reach; the others were answered alone. */
  readonly route: { readonly spanned: number; readonly fallBack: number };
}

/**
 * A band ends where the level falls out of its room or rises out of it. Its end jumps from one to the other; what is left of the
 * room below and above does not, and each is a limit of its own.
 */
export const rising = " rising";
/** Strides of the passes, each a multiple of the next: the first picture has four points a side, or five. */
const stridesFor = (count: number): readonly number[] => [
  ...new Set([4 * Math.max(1, Math.round((count - 1) / 12)), 4, 2, 1]),
];

/** Whether a row or column belongs to the plane of a pass. */
const isOn = (k: number, count: number, stride: number): boolean => k % stride === 0 || k === count - 1;

/** The passes of a plane of so many points a side, whose points lie in so many tiles. */
export function passesOf(count: number, tiles: number, tileOf: (i: number, j: number) => number): readonly ChartPass[] {
  const strides = stridesFor(count);
  return strides.map((stride, pass) => {
    const points: number[][] = Array.from({ length: tiles }, () => []);
    const isIn = (i: number, j: number, of: number) => isOn(i, count, of) && isOn(j, count, of);
    for (let j = 0; j < count; j++) {
      for (let i = 0; i < count; i++) {
        if (!isIn(i, j, stride) || (pass > 0 && isIn(i, j, strides[pass - 1]!))) continue;
        points[tileOf(i, j)]!.push(j * count + i);
      }
    }
    return { stride, points };
  });
}

/** One list a measure. */
const byMeasure = <T>(make: (measure: Measure) => T) =>
  Object.fromEntries(measures.map((measure) => [measure, make(measure)])) as Record<Measure, T>;

/** The plane of the points that are there, row-major; of those of a pass alone where a stride is given. */
export function planeOf(frame: ChartFrame, points: readonly (ChartPoint | null)[], stride = 1): ChartPlane {
  const { passes: _, x, y, ...rest } = frame;
  const count = x.values.length;
  const kept = Array.from({ length: count }, (_, k) => k).filter((k) => isOn(k, count, stride));
  const axis = (one: LaidAxis): LaidAxis => ({ ...one, values: kept.map((k) => one.values[k]!) });
  const shown = kept.flatMap((j) => kept.map((i) => points[j * count + i] ?? null));
  const requirements = new Set(shown.flatMap((point) => (point === null ? [] : Object.keys(point.reserves))));
  const routes = (route: ChartPoint["route"]) => points.filter((point) => point?.route === route).length;
  return {
    ...rest,
    x: axis(x),
    y: axis(y),
    measures: byMeasure((measure) => shown.map((point) => point?.measures?.[measure] ?? null)),
    reserves: Object.fromEntries(
      [...requirements].map((name) => [name, shown.map((point) => point?.reserves[name] ?? null)]),
    ),
    least: shown.map((point) => point?.least ?? null),
    state: shown.map((point) => (point === null ? 0 : point.measures === null ? 2 : 1)),
    worstEstimate: points.reduce((most, point) => Math.max(most, point?.estimate ?? 0), 0),
    route: { spanned: routes("spanned"), fallBack: routes("fallBack") },
  };
}
