/**
 * The plate's matrices in one class of symmetry, without dimension.
 *
 * Coordinates xi = 2 x / a, eta = 2 y / b; deflection w = (p a^4 / 16 D11) sum q_ij phi_i(xi) psi_j(eta). From the energy
 *
 *     D11 w_xxxx + 2 (D12 + 2 D66) w_xxyy + D22 w_yyyy - N_x w_xx - N_y w_yy - omega^2 m w = p
 *
 * with w = 0 on straight edges (then D12 and D66 enter only as D12 + 2 D66) follows, with alpha = a / b,
 *
 *     bending = B x M + 2 mixed alpha^2 S x S + ratio alpha^4 M x B + edges
 *     tension = (N_x a^2 / 4 D11) S x M + (N_y a^2 / 4 D11) alpha^2 M x S
 *     mass    = M x M,   load = integral x integral,   Lambda = omega^2 m a^4 / (16 D11)
 *
 * B, S, M: integrals of phi'' phi'', phi' phi', phi phi; x: Kronecker product. Elastic edges add k_r / 2 times the integral
 * of w_n^2 along the edge to the energy. Derivation: docs/theory/diaphragm.md.
 */

import type { KroneckerSum } from "../../numerics/kronecker.ts";
import { cube, fourth } from "../../numerics/power.ts";
import { type Polynomials, polynomials, type Side, valuesAt } from "./polynomials.ts";
import type { PlateShape } from "./shape.ts";

export interface Plate {
  readonly shape: PlateShape;
  /** Functions across and along; unknown i * along.count + j belongs to phi_i(xi) psi_j(eta). */
  readonly across: Polynomials;
  readonly along: Polynomials;
  readonly size: number;
  readonly bending: KroneckerSum;
  /** null where there is no tension. */
  readonly tension: KroneckerSum | null;
  readonly mass: KroneckerSum;
  /** Answer of each unknown to a uniform pressure. */
  readonly load: Float64Array;
}

export interface PlateOptions {
  readonly across: Side;
  readonly along: Side;
  /** Functions a direction, or for each direction. */
  readonly functions: number | { readonly across: number; readonly along: number };
}

export function plate(shape: PlateShape, options: PlateOptions): Plate {
  const { functions } = options;
  const counts = typeof functions === "number" ? { across: functions, along: functions } : functions;
  const across = polynomials({
    side: options.across,
    count: counts.across,
    rotates: shape.sides !== Number.POSITIVE_INFINITY,
  });
  const along = polynomials({
    side: options.along,
    count: counts.along,
    rotates: shape.ends !== Number.POSITIVE_INFINITY,
  });
  const [nx, ny] = [across.count, along.count];
  const terms = plateTerms(across, along);
  const factors = termFactors(shape);
  const stressed = shape.tensionAcross !== 0 || shape.tensionAlong !== 0;
  const load = new Float64Array(nx * ny);
  for (let i = 0; i < nx; i++) {
    for (let j = 0; j < ny; j++) load[i * ny + j] = across.integrals[i]! * along.integrals[j]!;
  }
  return {
    shape,
    across,
    along,
    size: nx * ny,
    bending: weighted(terms.bending, factors.bending),
    tension: stressed ? weighted(terms.tension, factors.tension) : null,
    mass: { nx, ny, terms: [{ x: across.products, y: along.products }] },
    load,
  };
}

/**
 * What moments of built-in stress along the edges load each unknown with: `across` times the integral of w_xixi over the plate,
 * `along` times that of w_etaeta. Odd shapes turn both ends alike and take nothing.
 */
export function edgeMoments(
  { across, along }: Pick<Plate, "across" | "along">,
  moments: { readonly across: number; readonly along: number },
): Float64Array {
  const turn = ({ side, endSlopes }: Polynomials) => endSlopes.map((slope) => (side === "even" ? 2 * slope : 0));
  const [turnX, turnY] = [turn(across), turn(along)];
  const result = new Float64Array(across.count * along.count);
  for (let i = 0; i < across.count; i++) {
    for (let j = 0; j < along.count; j++) {
      result[i * along.count + j] =
        moments.across * turnX[i]! * along.integrals[j]! + moments.along * across.integrals[i]! * turnY[j]!;
    }
  }
  return result;
}

/** The matrices that the stiffness of every shape is a sum of, with factors of its own: `termFactors`. */
export function plateTerms(across: Polynomials, along: Polynomials) {
  const sum = (x: Float64Array, y: Float64Array): KroneckerSum => ({
    nx: across.count,
    ny: along.count,
    terms: [{ x, y }],
  });
  return {
    bending: [
      sum(unit(across), along.products),
      sum(turned(across), along.products),
      sum(across.slopeProducts, along.slopeProducts),
      sum(across.products, unit(along)),
      sum(across.products, turned(along)),
    ],
    tension: [sum(across.slopeProducts, along.products), sum(across.products, along.slopeProducts)],
  } as const;
}

/** Factors of `plateTerms` for a shape; an edge that can't turn has no slope to resist, so its factor is 0. */
export function termFactors(shape: PlateShape) {
  const alpha = 1 / shape.aspect;
  const edge = (stiffness: number) => (Number.isFinite(stiffness) ? stiffness : 0);
  return {
    bending: [
      1,
      edge(shape.sides),
      2 * shape.mixed * alpha ** 2,
      shape.ratio * fourth(alpha),
      edge(shape.ends) * cube(alpha),
    ],
    tension: [shape.tensionAcross / 4, (shape.tensionAlong / 4) * alpha ** 2],
  } as const;
}

/** Sum of terms with their factors; those of factor 0 are left out. */
function weighted(terms: readonly KroneckerSum[], factors: readonly number[]): KroneckerSum {
  const { nx, ny } = terms[0]!;
  return {
    nx,
    ny,
    terms: terms.flatMap(({ terms: [term] }, i) =>
      factors[i] === 0 ? [] : [{ x: term!.x.map((value) => value * factors[i]!), y: term!.y }],
    ),
  };
}

/** integral phi'' phi'': the unit matrix. */
function unit({ count }: Polynomials): Float64Array {
  const result = new Float64Array(count * count);
  for (let i = 0; i < count; i++) result[i * count + i] = 1;
  return result;
}

/** phi'(1) phi'(1). */
function turned({ count, endSlopes }: Polynomials): Float64Array {
  const result = new Float64Array(count * count);
  for (let i = 0; i < count; i++) for (let k = 0; k < count; k++) result[i * count + k] = endSlopes[i]! * endSlopes[k]!;
  return result;
}

/** Bending plus tension: the static stiffness. */
export function stiffness({ bending, tension }: Plate): KroneckerSum {
  return tension ? { ...bending, terms: [...bending.terms, ...tension.terms] } : bending;
}

/** How each unknown enters the averages along the line x = a xi / 2: `xx` of w_xixi, `yy` of w_etaeta, dimensionless. */
export function lineAverages(plate: Plate, xi: number): { readonly xx: Float64Array; readonly yy: Float64Array } {
  const at = valuesAt(plate.across, xi);
  const none = new Float64Array(plate.across.count);
  return { xx: overLine(plate, at.curvature, none), yy: overLine(plate, none, at.value) };
}

/** How each unknown enters a sum over lines along: of its w_xixi by `curvature`, of its w_etaeta by `value` of phi_i; averaged along. */
export function overLine({ across, along, size }: Plate, curvature: Float64Array, value: Float64Array): Float64Array {
  const result = new Float64Array(size);
  for (let i = 0; i < across.count; i++) {
    for (let j = 0; j < along.count; j++) {
      // The mean of psi'' is the difference of its end slopes over 2; it vanishes for odd psi.
      const curved = along.side === "even" ? value[i]! * along.endSlopes[j]! : 0;
      result[i * along.count + j] = (curvature[i]! * along.integrals[j]!) / 2 + curved;
    }
  }
  return result;
}
