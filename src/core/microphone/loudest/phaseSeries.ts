/** The phase of one guide as a power series of a slow pressure on the plate: bending, stretch, stiffening. */
import { cube } from "../../numerics/power.ts";
import { isBowed } from "../../parts/diaphragm/diaphragm.ts";
import { type LargeDeflection, type LineSeries, largeDeflection } from "../../parts/diaphragm/largeDeflection.ts";
import type { Guide } from "../../parts/guide/guide.ts";
import { readingsOf } from "../../parts/guide/readings.ts";
import type { Microphone } from "../microphone.ts";
import type { StaticLines } from "../response/staticSensitivity.ts";
import { standsFlat } from "../rest/rest.ts";

/** phi = linear p + quadratic p^2 + cubic p^3 [rad/Pa, rad/Pa^2, rad/Pa^3]. */
export interface PhaseSeries {
  readonly linear: number;
  /** The strain of the stretched plane, even in the deflection: second harmonic. */
  readonly quadratic: number;
  /** The stiffening: third harmonic. */
  readonly cubic: number;
}

interface Given {
  readonly guide: Guide;
  readonly wavelength: number;
  readonly diaphragm: Microphone["diaphragm"];
}

/** Derivation: docs/theory/loudest.md. Holds: deflection below the thickness; the guide read as a line at its place. */
export const phaseSeries = (plate: LargeDeflection, given: Given): PhaseSeries =>
  seriesRead(plate.series(given.guide.at), given);

/** The same from what the plate does along the guide's line. */
export function seriesRead({ linear, quadratic, cubic }: LineSeries, given: Given): PhaseSeries {
  const read = readerAt(given);
  return {
    linear: read(linear),
    quadratic: read({ xx: 0, yy: 0, ...quadratic }),
    cubic: read(cubic),
  };
}

/** The phase of what the plate does along one line, by all that the guide's light reads. */
function readerAt(given: Given): (line: ReturnType<StaticLines["line"]>) => number {
  const readings = readingsOf(given);
  return ({ xx, yy, stretchX = 0, stretchY = 0 }) =>
    readings.reduce((sum, by) => sum + by.xx * xx + by.yy * yy + by.x * stretchX + by.y * stretchY, 0);
}

/**
 * The same about the state at rest under a pressure [Pa]: the slope of the phase a little to either side of it, differences of a
 * hundredth of the load that bends the plate by its thickness.
 */
export function phaseSeriesAbout(plate: LargeDeflection, given: Given, load: number): PhaseSeries {
  const step = 1e-2 * plate.stiffening.linear * given.diaphragm.thickness;
  const read = readerAt(given);
  const slope = (pressure: number) => read(plate.at(pressure).slope(given.guide.at));
  const [below, here, above] = [slope(load - step), slope(load), slope(load + step)];
  return {
    linear: here,
    quadratic: (above - below) / (4 * step),
    cubic: (above - 2 * here + below) / (6 * step ** 2),
  };
}

/** What stretching does to a diaphragm: its stiffness, and the phase of each guide. */
export interface Stretch {
  readonly series: readonly PhaseSeries[];
  /** p = x + square x^2 + cube x^3 holds the plate where x would without stretching [1/Pa, 1/Pa^2]. */
  readonly stiffening: { readonly square: number; readonly cube: number };
}

/** Of a plate made ready, about the device's state at rest. */
export function stretchOf(plate: LargeDeflection, microphone: Microphone): Stretch {
  const { guides, light, diaphragm, load } = microphone;
  const given = (guide: Guide): Given => ({ guide, wavelength: light.wavelength, diaphragm });
  const difference = load?.difference ?? 0;
  return {
    series: guides.map((guide) =>
      standsFlat(microphone) ? phaseSeries(plate, given(guide)) : phaseSeriesAbout(plate, given(guide), difference),
    ),
    stiffening: stiffeningAbout(microphone, plate.stiffening),
  };
}

/** What stretching does to a diaphragm without a static load: `Stretch.stiffening.cube`, and each guide's line. */
export interface FlatStretch {
  readonly cube: number;
  readonly lines: readonly LineSeries[];
}

/** The same from what is known of the flat plate; null: nothing, or a load stands on it. */
export function stretchFor(microphone: Microphone, known: FlatStretch | null): Stretch {
  // Five functions see the stretch of the smooth first answer to 1e-4; the curvature is read in twelve.
  if (known === null) return stretchOf(largeDeflection(microphone.diaphragm, { functions: 5, fine: 12 }), microphone);
  const { diaphragm, guides, light } = microphone;
  return {
    series: guides.map((guide, i) => seriesRead(known.lines[i]!, { guide, wavelength: light.wavelength, diaphragm })),
    stiffening: { square: 0, cube: known.cube },
  };
}

/** p = x + s2 x^2 + s3 x^3 about the state at rest, from p = k1 w + k3 w^3 of the flat plate. */
function stiffeningAbout(
  { diaphragm, load }: Microphone,
  { linear, cubic }: LargeDeflection["stiffening"],
): Stretch["stiffening"] {
  // A bow of stressed layers counts as the pressure that would bend the plate as far.
  const bow = isBowed(diaphragm) ? load?.settled?.center : undefined;
  const difference = bow === undefined ? (load?.difference ?? 0) : linear * bow + cubic * cube(bow);
  let w = difference / linear;
  for (let step = 0; step < 60; step++) w -= (linear * w + cubic * cube(w) - difference) / (linear + 3 * cubic * w * w);
  const slope = linear + 3 * cubic * w * w;
  return { square: (3 * cubic * w) / slope ** 2, cube: cubic / cube(slope) };
}
