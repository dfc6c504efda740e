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
import { type Polynomials, polynomials, type Side, valuesAt } from "./polynomials.ts";
import type { PlateShape } from "./shape.ts";

export interface Plate {
  readonly shape: PlateShape;
  /** Functions across and along; unknown i * along.count + j belongs to phi_i(xi) psi_j(eta). */
  readonly across: Polynomials;
  readonly along: Polynomials;
  readonly size: number;
  /** Row-major size x size, symmetric. */
  readonly bending: Float64Array;
  /** null where there is no tension. */
  readonly tension: Float64Array | null;
  readonly mass: Float64Array;
  /** Answer of each unknown to a uniform pressure. */
  readonly load: Float64Array;
}

export interface PlateOptions {
  readonly across: Side;
  readonly along: Side;
  /** Functions a direction. */
  readonly functions: number;
}

export function plate(shape: PlateShape, options: PlateOptions): Plate {
  const count = options.functions;
  const across = polynomials({ side: options.across, count, rotates: shape.sides !== Number.POSITIVE_INFINITY });
  const along = polynomials({ side: options.along, count, rotates: shape.ends !== Number.POSITIVE_INFINITY });
  const size = count * count;
  const bending = new Float64Array(size * size);
  const mass = new Float64Array(size * size);
  const stressed = shape.tensionAcross !== 0 || shape.tensionAlong !== 0;
  const tension = stressed ? new Float64Array(size * size) : null;
  const load = new Float64Array(size);
  const alpha = 1 / shape.aspect;
  const sides = shape.sides === Number.POSITIVE_INFINITY ? 0 : shape.sides;
  const ends = shape.ends === Number.POSITIVE_INFINITY ? 0 : shape.ends * alpha ** 3;
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < count; k++) {
      const bendX = i === k ? 1 : 0;
      const slopeX = across.slopeProducts[i * count + k]!;
      const massX = across.products[i * count + k]!;
      const edgeX = sides * across.endSlopes[i]! * across.endSlopes[k]!;
      for (let j = 0; j < count; j++) {
        const row = (i * count + j) * size + k * count;
        for (let l = 0; l < count; l++) {
          const bendY = j === l ? 1 : 0;
          const slopeY = along.slopeProducts[j * count + l]!;
          const massY = along.products[j * count + l]!;
          const edgeY = ends * along.endSlopes[j]! * along.endSlopes[l]!;
          bending[row + l] =
            (bendX + edgeX) * massY +
            2 * shape.mixed * alpha ** 2 * slopeX * slopeY +
            massX * (shape.ratio * alpha ** 4 * bendY + edgeY);
          mass[row + l] = massX * massY;
          if (tension) {
            tension[row + l] =
              (shape.tensionAcross / 4) * slopeX * massY + (shape.tensionAlong / 4) * alpha ** 2 * massX * slopeY;
          }
        }
      }
    }
    for (let j = 0; j < count; j++) load[i * count + j] = across.integrals[i]! * along.integrals[j]!;
  }
  return { shape, across, along, size, bending, tension, mass, load };
}

/** Bending plus tension: the static stiffness. */
export function stiffness({ bending, tension }: Plate): Float64Array {
  return tension ? bending.map((value, i) => value + tension[i]!) : bending;
}

/** How each unknown enters the averages along the line x = a xi / 2: `xx` of w_xixi, `yy` of w_etaeta, dimensionless. */
export function lineAverages(plate: Plate, xi: number): { readonly xx: Float64Array; readonly yy: Float64Array } {
  const { across, along, size } = plate;
  const at = valuesAt(across, xi);
  const xx = new Float64Array(size);
  const yy = new Float64Array(size);
  for (let i = 0; i < across.count; i++) {
    for (let j = 0; j < along.count; j++) {
      xx[i * along.count + j] = (at.curvature[i]! * along.integrals[j]!) / 2;
      // The mean of psi'' is the difference of its end slopes over 2; it vanishes for odd psi.
      yy[i * along.count + j] = along.side === "even" ? at.value[i]! * along.endSlopes[j]! : 0;
    }
  }
  return { xx, yy };
}
