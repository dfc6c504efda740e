/** The phase of one guide as a power series of a slow pressure on the plate: bending, stretch, stiffening. */
import { type LargeDeflection, type LineSeries, largeDeflection } from "../parts/diaphragm/largeDeflection.ts";
import type { Guide } from "../parts/guide/guide.ts";
import { readingsOf } from "../parts/guide/readings.ts";
import type { Microphone } from "./microphone.ts";
import { standsFlat } from "./rest.ts";
import type { StaticLines } from "./staticSensitivity.ts";

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
 * The same about the state at rest under a pressure [Pa]: the slope of the phase a little to either side of it, differences of a hundredth of the
 * load that bends the plate by its thickness.
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

/** The series of every guide from its line's; null: about a static load, from the plate itself. */
export function phaseSeriesFor(microphone: Microphone, lines: readonly LineSeries[] | null): readonly PhaseSeries[] {
  const { diaphragm, guides, light, load } = microphone;
  const given = (guide: Guide): Given => ({ guide, wavelength: light.wavelength, diaphragm });
  if (lines) return guides.map((guide, i) => seriesRead(lines[i]!, given(guide)));
  const plate = largeDeflection(diaphragm, { functions: 5, fine: 12 });
  return guides.map((guide) =>
    standsFlat(microphone)
      ? phaseSeries(plate, given(guide))
      : phaseSeriesAbout(plate, given(guide), load?.difference ?? 0),
  );
}
