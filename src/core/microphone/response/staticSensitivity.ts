/** Phase per unit of static pressure of the plate alone, one guide. */
import type { Diaphragm } from "../../parts/diaphragm/diaphragm.ts";
import { staticPlate } from "../../parts/diaphragm/statics.ts";
import type { Guide } from "../../parts/guide/guide.ts";
import { lateralPoints } from "../../parts/guide/lateral.ts";
import { readingsOf } from "../../parts/guide/readings.ts";

/** Static sensitivity with the guide at `guide.at` [rad/Pa], signed; uniform pressure on the front, no loss. */
export function staticSensitivity(given: {
  readonly diaphragm: Diaphragm;
  readonly guide: Guide;
  readonly wavelength: number;
  readonly functions: number;
}): number {
  const { diaphragm, guide, wavelength, functions } = given;
  return readLine(staticPlate(diaphragm, { functions }), diaphragm, guide, wavelength);
}

/** Averages along the line at x, per pressure: of w_xx and w_yy, and of the neutral plane's strain where a load stretches it. */
export interface StaticLines {
  line(x: number): {
    readonly xx: number;
    readonly yy: number;
    readonly stretchX?: number;
    readonly stretchY?: number;
  };
}

/** The same for a plate already solved, which serves any position. */
export function readLine(plate: StaticLines, diaphragm: Diaphragm, guide: Guide, wavelength: number): number {
  let sum = 0;
  for (const reading of readingsOf({ guide, wavelength, diaphragm })) {
    for (const { x, weight } of lateralPoints({ at: guide.at, width: reading.width }, diaphragm.across)) {
      const { xx, yy, stretchX = 0, stretchY = 0 } = plate.line(x);
      sum += weight * (reading.xx * xx + reading.yy * yy + reading.x * stretchX + reading.y * stretchY);
    }
  }
  return sum;
}
