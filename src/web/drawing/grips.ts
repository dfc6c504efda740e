/** What can be taken hold of: which value moves, how far a pixel takes it, and its steps by key. */
import { niceStep } from "../../figure/axis.ts";
import type { DrawingScale } from "./scales.ts";

export interface Grip {
  /** "microphone.film.gap" */
  readonly path: string;
  /** Value [SI] per pixel to the right and per pixel down. */
  readonly perPixel: { readonly x: number; readonly y: number };
  /** Step by arrow key [SI]; ten times with the page keys. */
  readonly step: number;
  /** What a hand can reach [SI]; typing reaches everything. */
  readonly least: number;
  readonly most: number;
}

const micrometer = 1e-6;

/** A side grows on both sides of the middle. */
export const sideGrip = (path: string, { perMeter }: DrawingScale, axis: "x" | "y", now: number): Grip => ({
  path,
  perPixel: axis === "x" ? { x: 2 / perMeter, y: 0 } : { x: 0, y: -2 / perMeter },
  step: 50 * micrometer,
  least: 0.25 * now,
  most: 4 * now,
});

export const guideGrip = (path: string, { perMeter }: DrawingScale, across: number): Grip => ({
  path,
  perPixel: { x: 1 / perMeter, y: 0 },
  step: 50 * micrometer,
  least: -0.75 * across,
  most: 0.75 * across,
});

export const thicknessGrip = (path: string, { perMeter, raised }: DrawingScale, now: number): Grip => ({
  path,
  perPixel: { x: 0, y: -1 / (perMeter * raised) },
  step: micrometer,
  least: Math.min(5 * micrometer, now),
  most: 4 * now,
});

export const gapGrip = (path: string, { perMeter, raised }: DrawingScale, now: number): Grip => ({
  path,
  perPixel: { x: 0, y: 1 / (perMeter * raised) },
  step: micrometer,
  least: Math.min(2 * micrometer, now),
  most: 6 * now,
});

/** A value as a hand sets it: round, and never finer than a pixel is wide. */
export function rounded(value: number, { perPixel, least, most }: Grip): number {
  const step = niceStep(Math.hypot(perPixel.x, perPixel.y) / 2);
  const near = Math.round(value / step) * step;
  return Number(Math.min(Math.max(near, least), most).toPrecision(9));
}

/** By key: on to the next multiple of the step. */
export function stepped(value: number, steps: number, { step, least, most }: Grip): number {
  const near = Math.round((value + steps * step) / step) * step;
  return Number(Math.min(Math.max(near, least), most).toPrecision(9));
}
