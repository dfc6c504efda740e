/**
 * What a structural loss factor makes noisy: c^T K^-1 c of light that has a width.
 *
 *     c^T K^-1 c (w) = c^T K^-1 c (W) + (integral of I_w^2 - integral of I_W^2) / (b D11),   I = sum weight k_xx intensity(x)
 *
 * For a line without width it grows without limit, so light narrower than the plate is thick is taken as wide as that. A narrow
 * light is beyond the polynomials, so they solve wider ones, W and 2 W, the local term does most of the rest, and what its ends
 * add goes as log W, which the two tell. Derivation: docs/theory/noise.md. Holds to some 3 %; what widening would put over the
 * frame stays on the diaphragm.
 */
import { bandSolve } from "../../numerics/kronecker.ts";
import { gaussLegendre } from "../../numerics/legendre.ts";
import type { Plate } from "../../parts/diaphragm/plate.ts";
import { valuesAt } from "../../parts/diaphragm/polynomials.ts";
import { bendingStiffness, plateScales } from "../../parts/diaphragm/shape.ts";
import type { Guide } from "../../parts/guide/guide.ts";
import { guideBending } from "../../parts/guide/readings.ts";
import type { Microphone } from "../microphone.ts";
import type { Prepared } from "../system/prepare.ts";
import type { LineSystem } from "./lineAnswer.ts";

/** c^T K^-1 c [rad^2/(N m)]. */
export function structuralCompliance({ even, odd }: LineSystem): number {
  const { microphone, prepared } = even.system;
  const { diaphragm, guides } = microphone;
  const narrow = guides.map((guide) => seenWidth(guide, diaphragm.thickness));
  // Four spacings of the functions, even and odd together.
  const resolved = (4 * diaphragm.across) / prepared.fine.across.count;
  const widened = (least: number) => {
    const widths = narrow.map((width) => Math.max(width, least));
    const smooth = [even, odd].reduce((sum, { system }) => sum + solved(system.prepared, microphone, widths), 0);
    const local = sumOfSquares(microphone, narrow) - sumOfSquares(microphone, widths);
    return smooth + local / (diaphragm.along * bendingStiffness(diaphragm).d11);
  };
  const narrowest = Math.min(...narrow);
  if (narrowest >= resolved) return widened(0);
  const [once, twice] = [widened(resolved), widened(2 * resolved)];
  return once - (twice - once) * Math.log2(resolved / narrowest);
}

/** The local term alone: some per cent to a third too much, without solving anything [rad^2/(N m)]. */
export function structuralEstimate(microphone: Microphone): number {
  const { diaphragm, guides } = microphone;
  const widths = guides.map((guide) => seenWidth(guide, diaphragm.thickness));
  return sumOfSquares(microphone, widths) / (diaphragm.along * bendingStiffness(diaphragm).d11);
}

/** Width of the light that structural noise counts [m]: never less than the thickness, where plate theory ends. */
export const seenWidth = ({ width }: Pick<Guide, "width">, thickness: number): number =>
  Math.max(width ?? 0, thickness);

const { nodes, weights } = gaussLegendre(16);

interface Spot {
  readonly x: number;
  readonly weight: number;
}

/** Points across the light, four pieces of 16; their weights sum to 1 on the diaphragm alone. */
function spots({ at }: Guide, width: number, across: number): readonly Spot[] {
  const radius = width / 2;
  const [from, to] = [Math.max(-across / 2, at - 3 * radius), Math.min(across / 2, at + 3 * radius)];
  const points: Spot[] = [];
  for (let piece = 0; piece < 4; piece++) {
    for (let i = 0; i < nodes.length; i++) {
      const x = from + ((to - from) * (piece + (1 + nodes[i]!) / 2)) / 4;
      points.push({ x, weight: ((weights[i]! * (to - from)) / 8) * Math.exp(-2 * ((x - at) / radius) ** 2) });
    }
  }
  const sum = points.reduce((total, { weight }) => total + weight, 0);
  return points.map(({ x, weight }) => ({ x, weight: weight / sum }));
}

const phaseOf = (guide: Guide, { diaphragm, light }: Microphone) =>
  guideBending({ guide, wavelength: light.wavelength, diaphragm });

/** c^T K^-1 c of one class in the larger basis [rad^2/(N m)]. */
function solved({ fine, fineFactor }: Prepared, microphone: Microphone, widths: readonly number[]): number {
  const { diaphragm, guides } = microphone;
  const c = new Float64Array(fine.size);
  for (const [i, guide] of guides.entries()) {
    addGuide(c, fine, guide, spots(guide, widths[i]!, diaphragm.across), microphone);
  }
  const g = bandSolve(fineFactor, c);
  let sum = 0;
  for (let k = 0; k < c.length; k++) sum += c[k]! * g[k]!;
  return (sum * plateScales(diaphragm).deflection) / ((diaphragm.across * diaphragm.along) / 4);
}

function addGuide(c: Float64Array, fine: Plate, guide: Guide, points: readonly Spot[], microphone: Microphone): void {
  const { diaphragm } = microphone;
  const { across, along } = fine;
  const phase = phaseOf(guide, microphone);
  const toXx = (guide.weight * phase.xx * (2 / diaphragm.across) ** 2) / 2;
  const toYy = guide.weight * phase.yy * (2 / diaphragm.along) ** 2;
  const [curvature, value] = [new Float64Array(across.count), new Float64Array(across.count)];
  for (const { x, weight } of points) {
    const there = valuesAt(across, (2 * x) / diaphragm.across);
    for (let i = 0; i < across.count; i++) {
      curvature[i]! += weight * there.curvature[i]!;
      value[i]! += weight * there.value[i]!;
    }
  }
  // Averages along the guide: half the integral of psi, and of psi'' the slope at its ends (plate.ts).
  for (let i = 0; i < across.count; i++) {
    for (let j = 0; j < along.count; j++) {
      c[i * along.count + j]! += toXx * curvature[i]! * along.integrals[j]! + toYy * value[i]! * along.endSlopes[j]!;
    }
  }
}

/** Integral over x of (sum weight k_xx I)^2 [rad^2 m]. */
function sumOfSquares(microphone: Microphone, widths: readonly number[]): number {
  const { diaphragm, guides } = microphone;
  const half = diaphragm.across / 2;
  const lights = guides.map((guide, i) => {
    const radius = widths[i]! / 2;
    const bell = (x: number) => Math.exp(-2 * ((x - guide.at) / radius) ** 2);
    const whole = overPieces(piecesOf([{ at: guide.at, radius }], half), bell);
    const size = (guide.weight * phaseOf(guide, microphone).xx) / whole;
    return { at: guide.at, radius, value: (x: number) => size * bell(x) };
  });
  return overPieces(piecesOf(lights, half), (x) => lights.reduce((sum, { value }) => sum + value(x), 0) ** 2);
}

/** Ends of pieces between which every light is smooth. */
function piecesOf(
  lights: readonly { readonly at: number; readonly radius: number }[],
  half: number,
): readonly number[] {
  const ends = lights.flatMap(({ at, radius }) => [-3, -1, 0, 1, 3].map((step) => at + step * radius));
  return [...new Set(ends.map((x) => Math.min(half, Math.max(-half, x))))].sort((a, b) => a - b);
}

function overPieces(ends: readonly number[], value: (x: number) => number): number {
  let sum = 0;
  for (let piece = 0; piece + 1 < ends.length; piece++) {
    const [from, to] = [ends[piece]!, ends[piece + 1]!];
    for (let i = 0; i < nodes.length; i++) {
      sum += ((weights[i]! * (to - from)) / 2) * value(from + ((to - from) * (1 + nodes[i]!)) / 2);
    }
  }
  return sum;
}
