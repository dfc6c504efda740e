/** What the diaphragm's static and dynamic shapes depend on, without dimension, and the scales that give them back. */
import { cube, fourth } from "../../numerics/power.ts";
import { type Diaphragm, type Edge, membraneStiffness } from "./diaphragm.ts";

/** Two diaphragms with the same numbers here bend alike, up to scale. */
export interface PlateShape {
  /** b / a, along over across [-]. */
  readonly aspect: number;
  /** (D12 + 2 D66) / D11 and D22 / D11 [-]. */
  readonly mixed: number;
  readonly ratio: number;
  /** Edge stiffness k_r a / D11 at the sides and the ends [-]: 0 supported, Infinity clamped. */
  readonly sides: number;
  readonly ends: number;
  /** N a^2 / D11 across and along [-]. */
  readonly tensionAcross: number;
  readonly tensionAlong: number;
}

/**
 * Bending stiffnesses of a thin plate [N m].
 *
 *     D_ij = Q_ij h^3 / 12        (isotropic: D11 = D22 = E h^3 / (12 (1 - nu^2)))
 *
 * Source: [timoshenko-1959] ch. 1 and 11 (from memory, to be confirmed). Holds: thickness << side; no shear deformation.
 */
export function bendingStiffness({ stiffness, thickness }: Pick<Diaphragm, "stiffness" | "thickness">) {
  const factor = cube(thickness) / 12;
  return {
    d11: stiffness.q11 * factor,
    d12: stiffness.q12 * factor,
    d22: stiffness.q22 * factor,
    d66: stiffness.q66 * factor,
  };
}

export function plateShape(diaphragm: Diaphragm): PlateShape {
  const { d11, d12, d22, d66 } = bendingStiffness(diaphragm);
  const a = diaphragm.across;
  const held = (edge: Edge) => {
    if (edge === "clamped") return Number.POSITIVE_INFINITY;
    if (edge === "supported") return 0;
    return (edge.rotation * a) / d11;
  };
  return {
    aspect: diaphragm.along / a,
    mixed: (d12 + 2 * d66) / d11,
    ratio: d22 / d11,
    sides: held(diaphragm.edges.sides),
    ends: held(diaphragm.edges.ends),
    tensionAcross: (diaphragm.tension.across * a * a) / d11,
    tensionAlong: (diaphragm.tension.along * a * a) / d11,
  };
}

/** Scales between the dimensionless plate and the real one (head of plate.ts). */
export interface PlateScales {
  /** Deflection per pressure, a^4 / (16 D11) [m/Pa]. */
  readonly deflection: number;
  /** Mass per area rho h [kg/m2]. */
  readonly mass: number;
  /** Lambda = omega^2 times this, m a^4 / (16 D11) [s2]. */
  readonly lambda: number;
  /** Curvature across, per pressure: (2 / a)^2 a^4 / (16 D11) [1/(m Pa)]; along: divided by aspect^2. */
  readonly curvature: number;
}

export function plateScales(diaphragm: Diaphragm): PlateScales {
  const { d11 } = bendingStiffness(diaphragm);
  const deflection = fourth(diaphragm.across) / (16 * d11);
  const mass = diaphragm.density * diaphragm.thickness;
  return { deflection, mass, lambda: mass * deflection, curvature: (deflection * 4) / diaphragm.across ** 2 };
}

/**
 * Size of the load that the layers' moment makes on the slopes at the edges, without dimension as `perPressure` times a pressure:
 *
 *     across M_x a^2 / (4 D11 h),   along M_y a^2 alpha^2 / (4 D11 h),   of w_xixi and w_etaeta over the plate
 *
 * Derivation: docs/theory/laminate.md.
 */
export function momentNumbers(diaphragm: Diaphragm): { readonly across: number; readonly along: number } {
  const { across: a, along: b, thickness: h, moment } = diaphragm;
  if (!moment) return { across: 0, along: 0 };
  const per = (a * a) / (4 * bendingStiffness(diaphragm).d11 * h);
  return { across: per * moment.across, along: per * moment.along * (a / b) ** 2 };
}

/**
 * What large deflection depends on beside the shape, without dimension: mu = A11 h^2 / (16 D11) (3/4 for one material),
 * A_ij / A11, and the size of the load per pressure, a^4 / (16 D11 h) [1/Pa].
 */
export function stretchNumbers(diaphragm: Diaphragm) {
  const { across: a, thickness: h } = diaphragm;
  const { a11, a12, a22, a66 } = membraneStiffness(diaphragm);
  const { d11 } = bendingStiffness(diaphragm);
  return {
    mu: (a11 * h * h) / (16 * d11),
    ratios: { c12: a12 / a11, c22: a22 / a11, c66: a66 / a11 },
    perPressure: fourth(a) / (16 * d11 * h),
  };
}
