/**
 * Deflection of the diaphragm and pressure of the film at every point of a grid, for 1 Pa of sound at one frequency.
 *
 *     w(x, y) = s sum q_ij phi_i psi_j,   q = p_f A^-1 F - p_b A^-1 B,   s = a^4 / (16 D11)
 *     p(x, y) = p_b + sum_mn (i omega s (C^T q)_mn - chi p_b 1_mn) / d_mn G_m(xi) G_n(eta)
 *
 * The film's terms vanish on open edges, where p = p_b. Derivation: docs/theory/coupled.md.
 */
import { type Complex, complex, multiply, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import type { Diaphragm } from "../../parts/diaphragm/diaphragm.ts";
import { type Parity, plateModeShapes } from "../../parts/diaphragm/modes.ts";
import { deflectionOnGrid, gridPlaces } from "../../parts/diaphragm/onGrid.ts";
import type { Plate } from "../../parts/diaphragm/plate.ts";
import { termValues } from "../../parts/film/pressureTerms.ts";
import { type CoupledSystem, type DeviceState, deviceState, filmPressure } from "../system/coupled.ts";
import type { PreparedFilm } from "../system/prepare.ts";

/** All arrays row-major, one row a y, from -along/2 upwards, x from -across/2 to across/2. */
export interface Field {
  /** [Hz] */
  readonly frequency: number;
  /** Points a direction. */
  readonly points: number;
  /** Sides across and along [m]. */
  readonly across: number;
  readonly along: number;
  /** Into the device [m/Pa]; of a mode the shape [-], its largest value 1 and no imaginary part. */
  readonly deflection: ComplexVector;
  /** Mean over the area, in the same unit. */
  readonly meanDeflection: Complex;
  /** Of the film, above the ambient pressure [Pa/Pa]; null without film, and for a mode in vacuum. */
  readonly pressure: ComplexVector | null;
  /** Before the diaphragm and behind the film [Pa/Pa]; 0 for a mode. */
  readonly front: Complex;
  readonly back: Complex;
  /** Symmetry across and along; null for a forced field, which has both. */
  readonly parity: Parity | null;
  /** Share of the highest functions of either direction in the deflection: how well it is resolved [-]. */
  readonly highest: number;
}

/** Field at a frequency [Hz], greater than zero. */
export function forcedField(system: CoupledSystem, frequency: number, points: number): Field {
  const omega = complex(2 * Math.PI * frequency);
  const state = deviceState(system, omega);
  const { prepared, scales, microphone } = system;
  const q = moved(state);
  const places = gridPlaces(points);
  const onGrid = (part: Float64Array) =>
    deflectionOnGrid(prepared.plate, part, places, places).map((value) => scales.deflection * value);
  const mean = (part: Float64Array) => (scales.deflection * dot(part, prepared.plate.load)) / 4;
  return {
    frequency,
    points,
    across: microphone.diaphragm.across,
    along: microphone.diaphragm.along,
    deflection: { re: onGrid(q.re), im: onGrid(q.im) },
    meanDeflection: complex(mean(q.re), mean(q.im)),
    pressure: prepared.film && pressureOnGrid(system, prepared.film, { q, state, places }),
    front: state.front,
    back: state.back,
    parity: null,
    highest: highestShare(q, prepared.plate),
  };
}

/** Shape of a mode in vacuum, without loss: `index` counts all four classes by frequency, from 0; null where there is none. */
export function modeField(diaphragm: Diaphragm, index: number, points: number): Field | null {
  const mode = plateModeShapes(diaphragm, { functions: modeFunctions, count: index + 1 })[index];
  if (mode === undefined) return null;
  const places = gridPlaces(points);
  const shape = deflectionOnGrid(mode.plate, mode.q, places, places);
  const peak = shape.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);
  const flat = { re: mode.q, im: new Float64Array(mode.q.length) };
  return {
    frequency: mode.omega / (2 * Math.PI),
    points,
    across: diaphragm.across,
    along: diaphragm.along,
    deflection: { re: shape.map((value) => value / peak), im: new Float64Array(shape.length) },
    meanDeflection: complex(dot(mode.q, mode.plate.load) / 4 / peak),
    pressure: null,
    front: complex(0),
    back: complex(0),
    parity: mode.parity,
    highest: highestShare(flat, mode.plate),
  };
}

/** Polynomials of a parity a direction: with 9 the twelfth mode of a clamped square is resolved to 1e-6. */
const modeFunctions = 9;

/** q = p_f A^-1 F - p_b A^-1 B. */
function moved({ front, back, onFront, behind }: DeviceState): ComplexVector {
  const size = onFront.re.length;
  const q = { re: new Float64Array(size), im: new Float64Array(size) };
  for (let i = 0; i < size; i++) {
    const byFront = multiply(front, complex(onFront.re[i]!, onFront.im[i]!));
    const byBack = behind ? multiply(back, complex(behind.q.re[i]!, behind.q.im[i]!)) : complex(0);
    const sum = subtract(byFront, byBack);
    q.re[i] = sum.re;
    q.im[i] = sum.im;
  }
  return q;
}

function pressureOnGrid(
  system: CoupledSystem,
  film: PreparedFilm,
  given: { readonly q: ComplexVector; readonly state: DeviceState; readonly places: Float64Array },
): ComplexVector {
  const { q, state, places } = given;
  const terms = filmPressure(system, film, q);
  const { back, behind } = state;
  for (let m = 0; m < (behind?.drop.re.length ?? 0); m++) {
    const drop = multiply(back, complex(behind!.drop.re[m]!, behind!.drop.im[m]!));
    terms.re[m]! -= drop.re;
    terms.im[m]! -= drop.im;
  }
  const side = system.prepared.plate;
  const byX = Array.from(places, (xi) => termValues(film.across, side.across.side, xi));
  const byY = Array.from(places, (eta) => termValues(film.along, side.along.side, eta));
  return {
    re: summed(terms.re, byX, byY).map((value) => value + back.re),
    im: summed(terms.im, byX, byY).map((value) => value + back.im),
  };
}

/** sum_mn terms_mn G_m(xi) G_n(eta) on the grid. */
function summed(terms: Float64Array, byX: readonly Float64Array[], byY: readonly Float64Array[]): Float64Array {
  const [mx, my] = [byX[0]?.length ?? 0, byY[0]?.length ?? 0];
  const result = new Float64Array(byX.length * byY.length);
  byY.forEach((gy, row) => {
    const half = Float64Array.from({ length: mx }, (_, m) => {
      let sum = 0;
      for (let n = 0; n < my; n++) sum += terms[m * my + n]! * gy[n]!;
      return sum;
    });
    byX.forEach((gx, column) => {
      result[row * byX.length + column] = dot(half, gx);
    });
  });
  return result;
}

/** Largest part with the highest function of a direction over the largest of all, each by its mean square over the area. */
function highestShare(q: ComplexVector, { across, along }: Plate): number {
  let [last, most] = [0, 0];
  for (let i = 0; i < across.count; i++) {
    for (let j = 0; j < along.count; j++) {
      const k = i * along.count + j;
      const norm = across.products[i * (across.count + 1)]! * along.products[j * (along.count + 1)]!;
      const size = Math.hypot(q.re[k]!, q.im[k]!) * Math.sqrt(norm);
      most = Math.max(most, size);
      if (i === across.count - 1 || j === along.count - 1) last = Math.max(last, size);
    }
  }
  return last / most;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
