/**
 * Pressure functions of the film in one direction on xi = -1 .. 1, and the projection of the plate's polynomials on them.
 *
 *     open:   even cos((m + 1/2) pi xi), odd sin((m + 1) pi xi)         (zero at the edges)
 *     closed: even cos(m pi xi), odd sin((m + 1/2) pi xi)               (no flow through the edges)
 *     integral phi_k cos(c xi) = (2 phi_k'(1) cos c - 2 s_k (-1)^(k/2) j_k(c)) / c^2;   sines likewise
 *
 * Normalized to integral G^2 = 1. Derivation: integrate by parts twice, phi(+-1) = 0, phi'' = s_k P_k.
 */
import { cos, sin } from "../../numerics/sine.ts";
import { sphericalBesselValues } from "../../numerics/sphericalBessel.ts";
import type { Polynomials, Side } from "../diaphragm/polynomials.ts";
import type { FilmEdge } from "./film.ts";

export interface PressureTerms {
  readonly count: number;
  /** Wavenumbers c_m, in units of 1 / half side [-]. */
  readonly wavenumbers: Float64Array;
  /** integral of G_m over -1 .. 1. */
  readonly integrals: Float64Array;
}

export function pressureTerms(edge: FilmEdge, side: Side, count: number): PressureTerms {
  const offset = side === "even" ? (edge === "open" ? 0.5 : 0) : edge === "open" ? 1 : 0.5;
  const wavenumbers = Float64Array.from({ length: count }, (_, m) => (m + offset) * Math.PI);
  const integrals = Float64Array.from(wavenumbers, (c) => {
    if (side === "odd") return 0;
    return c === 0 ? Math.SQRT2 : (2 * sin(c)) / c;
  });
  // As in polynomials.ts: a length is known to be whole.
  return { count: wavenumbers.length, wavenumbers, integrals };
}

/** G_m of every term at xi. */
export function termValues({ wavenumbers }: PressureTerms, side: Side, xi: number): Float64Array {
  return wavenumbers.map((c) => {
    if (side === "odd") return sin(c * xi);
    return c === 0 ? Math.SQRT1_2 : cos(c * xi);
  });
}

/** C: integral of phi_i G_m, row-major, one row a polynomial. */
export function projections(basis: Polynomials, terms: PressureTerms): Float64Array {
  const result = new Float64Array(basis.count * terms.count);
  const highest = (basis.degrees[basis.count - 1] ?? 0) + 1;
  terms.wavenumbers.forEach((c, m) => {
    if (c === 0) {
      basis.integrals.forEach((integral, i) => {
        result[i * terms.count] = integral * Math.SQRT1_2;
      });
      return;
    }
    const bessel = sphericalBesselValues(highest, c);
    const end = basis.side === "even" ? cos(c) : sin(c);
    for (let i = 0; i < basis.count; i++) {
      const k = basis.degrees[i]!;
      const sign = Math.floor(k / 2) % 2 === 0 ? 1 : -1;
      result[i * terms.count + m] = (2 * (basis.endSlopes[i]! * end - sign * basis.factors[i]! * bessel[k]!)) / (c * c);
    }
  });
  return result;
}
