/** The phase of one guide as a power series of a slow pressure on the plate: bending, stretch, stiffening. */
import type { LargeDeflection } from "../parts/diaphragm/largeDeflection.ts";
import type { Guide } from "../parts/guide/guide.ts";
import { bendingPhase, strainPhase } from "../parts/guide/photoelastic.ts";
import type { Microphone } from "./microphone.ts";

/** phi = linear p + quadratic p^2 + cubic p^3 [rad/Pa, rad/Pa^2, rad/Pa^3]. */
export interface PhaseSeries {
  readonly linear: number;
  /** The strain of the stretched plane, even in the deflection: second harmonic. */
  readonly quadratic: number;
  /** The stiffening: third harmonic. */
  readonly cubic: number;
}

/** Derivation: docs/theory/loudest.md. Holds: deflection below the thickness; the guide read as a line at its place. */
export function phaseSeries(
  plate: LargeDeflection,
  given: { readonly guide: Guide; readonly wavelength: number; readonly diaphragm: Microphone["diaphragm"] },
): PhaseSeries {
  const { linear, quadratic, cubic } = plate.series(given.guide.at);
  const bending = bendingPhase(given);
  const strain = strainPhase(given);
  return {
    linear: bending.xx * linear.xx + bending.yy * linear.yy,
    quadratic: strain.x * quadratic.stretchX + strain.y * quadratic.stretchY,
    cubic: bending.xx * cubic.xx + bending.yy * cubic.yy,
  };
}

/**
 * The same about a static load [Pa]: the slope of the phase a little to either side of it, differences of a hundredth of the
 * load that bends the plate by its thickness.
 */
export function phaseSeriesAbout(
  plate: LargeDeflection,
  given: { readonly guide: Guide; readonly wavelength: number; readonly diaphragm: Microphone["diaphragm"] },
  load: number,
): PhaseSeries {
  const step = 1e-2 * plate.stiffening.linear * given.diaphragm.thickness;
  const [bending, strain] = [bendingPhase(given), strainPhase(given)];
  const slope = (pressure: number) => {
    const { xx, yy, stretchX, stretchY } = plate.at(pressure).slope(given.guide.at);
    return bending.xx * xx + bending.yy * yy + strain.x * stretchX + strain.y * stretchY;
  };
  const [below, here, above] = [slope(load - step), slope(load), slope(load + step)];
  return {
    linear: here,
    quadratic: (above - below) / (4 * step),
    cubic: (above - 2 * here + below) / (6 * step ** 2),
  };
}
