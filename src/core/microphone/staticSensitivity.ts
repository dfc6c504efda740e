/** Phase per unit of static pressure of the plate alone, one guide. */
import type { Diaphragm } from "../parts/diaphragm/diaphragm.ts";
import { type StaticPlate, staticPlate } from "../parts/diaphragm/statics.ts";
import type { Guide } from "../parts/guide/guide.ts";
import { lateralPoints } from "../parts/guide/lateral.ts";
import { bendingPhase } from "../parts/guide/photoelastic.ts";

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

/** The same for a plate already solved, which serves any position. */
export function readLine(plate: StaticPlate, diaphragm: Diaphragm, guide: Guide, wavelength: number): number {
  const phase = bendingPhase({ guide, wavelength, diaphragm });
  let sum = 0;
  for (const { x, weight } of lateralPoints(guide, diaphragm.across)) {
    const { xx, yy } = plate.line(x);
    sum += weight * (phase.xx * xx + phase.yy * yy);
  }
  return sum;
}
