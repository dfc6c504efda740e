/** Deflection and film pressure over the whole diaphragm: limits that the fields must meet, and shapes known in closed form. */

import type { Microphone } from "../src/core/microphone/microphone.ts";
import { type Field, forcedField, modeField } from "../src/core/microphone/response/fields.ts";
import { coupledSystem } from "../src/core/microphone/system/coupled.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { bendingStiffness } from "../src/core/parts/diaphragm/shape.ts";
import { unitPlate, wholeDevice, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const points = 9;
const middle = (points * points - 1) / 2;

const forced = (microphone: Microphone, frequency: number): Field =>
  forcedField(coupledSystem(prepare(microphone), microphone), frequency, points);

/** w D11 / a^4 per pressure at the center. */
function centerDeflection(): number {
  const microphone = workedMicrophone({ across: 5e-3, thickness: 100e-6, gap: null });
  const { d11 } = bendingStiffness(microphone.diaphragm);
  return ((forced(microphone, 1).deflection.re[middle] ?? Number.NaN) * d11) / microphone.diaphragm.across ** 4;
}

/** Largest difference between the film's pressure on its open edges and that of the volume behind [Pa/Pa]. */
function openEdges(): number {
  const { pressure, back } = forced(wholeDevice(0), 3000);
  if (pressure === null) return Number.NaN;
  let worst = 0;
  for (let i = 0; i < points * points; i++) {
    const onEdge = i < points || i >= points * (points - 1) || i % points === 0 || i % points === points - 1;
    if (onEdge) worst = Math.max(worst, Math.hypot(pressure.re[i]! - back.re, pressure.im[i]! - back.im));
  }
  return worst;
}

/** p g / (P0 mean w) of a closed film so slow that its pressure is everywhere the same. */
function closedFilm(): number {
  const gap = 50e-6;
  const microphone = workedMicrophone({ across: 5e-3, thickness: 100e-6, gap, edges: "closed" });
  const { pressure, meanDeflection } = forced(microphone, 1e-3);
  return ((pressure?.re[middle] ?? Number.NaN) * gap) / (microphone.air.pressure * meanDeflection.re);
}

/** Shape of the mode `index` of a supported plate, b = 1.5 a, at x = a / 8, y = b / 4, over its largest value on the grid. */
function supportedShape(index: number): number {
  const diaphragm = unitPlate({ along: 1.5, edges: { sides: "supported", ends: "supported" } });
  const field = modeField(diaphragm, index, points);
  const [i, j] = [5, 6];
  return Math.abs(field?.deflection.re[j * points + i] ?? Number.NaN);
}

export const rows: readonly TruthRow[] = [
  {
    what: "clamped square, forced field at 1 Hz, center w D / (p a^4) [-]",
    got: centerDeflection,
    expected: 0.00126532,
    within: 4e-6,
    why: "half the last digit given; 1 Hz lies far below the first resonance",
    origin: "independent method",
    source: "spectral code of another hand (polynomial Galerkin, converged to the digits shown)",
  },
  {
    what: "open film, whole device at 3 kHz: pressure on its edges less that behind [Pa/Pa]",
    got: openEdges,
    expected: 0,
    within: 1e-12,
    why: "round-off of cosines at their zeros",
    origin: "exact",
    source: "an open edge has the pressure of the volume behind",
  },
  {
    what: "closed film at 1 mHz: p g / (P0 mean w) in the middle [-]",
    got: closedFilm,
    expected: 1,
    within: 1e-6,
    why: "what is left of heat conduction and viscosity at 1 mHz",
    origin: "exact",
    source: "Boyle's law: walls keep a slow film isothermal",
  },
  {
    what: "supported plate, b = 1.5 a, mode 1 at (a/8, b/4) [-]",
    got: () => supportedShape(0),
    expected: Math.cos(Math.PI / 8) * Math.cos(Math.PI / 4),
    within: 1e-6,
    why: "convergence of the polynomials",
    origin: "exact",
    source: "cos(pi x / a) cos(pi y / b)",
  },
  {
    what: "supported plate, b = 1.5 a, mode 2 at (a/8, b/4) [-]",
    got: () => supportedShape(1),
    expected: Math.cos(Math.PI / 8) * Math.sin(Math.PI / 2),
    within: 1e-6,
    why: "convergence of the polynomials",
    origin: "exact",
    source: "cos(pi x / a) sin(2 pi y / b)",
  },
  {
    what: "supported plate, b = 1.5 a, mode 3 at (a/8, b/4) [-]",
    got: () => supportedShape(2),
    expected: Math.sin(Math.PI / 4) * Math.cos(Math.PI / 4),
    within: 1e-6,
    why: "convergence of the polynomials",
    origin: "exact",
    source: "sin(2 pi x / a) cos(pi y / b)",
  },
];
