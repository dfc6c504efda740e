/** What a figure of curves is given: curves, marks, regions, rules and areas, on two axes. */
import type { Axis } from "./axis.ts";
import type { Colors } from "./colors.ts";
import type { Side } from "./labels.ts";

export interface Curve {
  /** Written at the end of the curve; empty where there is only one. */
  readonly name: string;
  readonly x: readonly number[];
  /** null: a gap. */
  readonly y: readonly (number | null)[];
}

export interface Marker {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** Written instead where there is no free place for all of it. */
  readonly shorter?: string;
  /** A line down to the axis. */
  readonly dropped?: boolean;
  readonly sides?: readonly Side[];
  /** One of many: a ring in soft ink. */
  readonly quiet?: boolean;
}

/** A requirement: the area where the curve has to stay. */
export interface Region {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly text: string;
  /** Written instead where there is no free place for all of it. */
  readonly shorter?: string;
}

/** What lies between two curves, laid under them all; named at its lower end on the right. */
export interface Area {
  readonly name: string;
  readonly x: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** A line across the figure at one x. */
export interface Rule {
  readonly x: number;
  readonly text: string;
  readonly color: string;
}

/** The part of the axes that is looked at; an axis that is missing shows everything. */
export interface View {
  readonly x?: readonly [number, number];
  readonly y?: readonly [number, number];
}

export interface CurveFigureInput {
  readonly document: Document;
  /** Outer size [px]; texts keep their size whatever it is. */
  readonly width: number;
  readonly height: number;
  readonly colors: Colors;
  readonly view?: View | undefined;
  /** What it shows, in a sentence, for those who can't see it. */
  readonly description: string;
  readonly x: Axis;
  readonly y: Axis;
  /** The first one is the present state and lies on top. */
  readonly curves: readonly Curve[];
  readonly markers?: readonly Marker[];
  readonly region?: Region | null;
  readonly rules?: readonly Rule[];
  readonly areas?: readonly Area[];
}
