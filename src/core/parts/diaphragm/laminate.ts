/**
 * A thin plate of layers, by classical lamination theory.
 *
 * z runs from the sound side into the device, 0 in the middle of the stack; layer k lies between z_k-1 and z_k:
 *
 *     A = sum Q_k (z_k - z_k-1),   B = sum Q_k (z_k^2 - z_k-1^2) / 2,   D = sum Q_k (z_k^3 - z_k-1^3) / 3
 *     N = A eps0 + B kappa,  M = B eps0 + D kappa,  kappa = -(w_xx, w_yy, 2 w_xy)
 *
 * With no force in the plane eps0 = -A^-1 B kappa: the plate bends about its neutral plane with
 *
 *     D* = D - B A^-1 B,   neutral plane at z = (A^-1 B)_11 for bending across, (A^-1 B)_22 along
 *
 * Source: [jones-1999]; D*: [ashton-1969]. Derivation, and why clamped edges don't change it: docs/theory/laminate.md.
 * Holds: thin layers perfectly bonded, their axes along the plate's edges. Exact for clamped edges where all layers have one
 * Poisson's ratio (A^-1 B is then a number); otherwise D* is the soft side of the truth, off by the part of B that stays coupled.
 */
import { cube, pow } from "../../numerics/power.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import type { Diaphragm, PlacedLayer, PlaneStiffness } from "./diaphragm.ts";

export interface Layer {
  /** [m] */
  readonly thickness: number;
  readonly stiffness: PlaneStiffness;
  /** [kg/m3] */
  readonly density: number;
  /** Built-in stress while the plate is held flat, tension positive [Pa]. */
  readonly stress: { readonly across: number; readonly along: number };
}

/** Entries of a stiffness matrix of an orthotropic plate: of A [N/m], B [N], D [N m]. */
export interface PlateMatrix {
  readonly s11: number;
  readonly s12: number;
  readonly s22: number;
  readonly s66: number;
}

export interface Laminate {
  /** Of the whole stack [m]. */
  readonly thickness: number;
  /** [kg/m2] */
  readonly massPerArea: number;
  /** About the middle of the stack. */
  readonly a: PlateMatrix;
  readonly b: PlateMatrix;
  readonly d: PlateMatrix;
  /** D*, bending about the neutral plane [N m]. */
  readonly bending: PlateMatrix;
  /** Height of the neutral plane over the middle of the stack, z inward, for bending across and along [m]. */
  readonly neutral: { readonly across: number; readonly along: number };
  /** In-plane force of the built-in stresses, tension positive [N/m]. */
  readonly force: { readonly across: number; readonly along: number };
  /** Their moment about the neutral plane, sum of stress times z dz [N]: it bends a plate that is free or softly held. */
  readonly moment: { readonly across: number; readonly along: number };
}

/**
 * Layers in order from the front (sound) side.
 *
 * Problems: `no-layers`; `layer-thickness`, `layer-density` where not positive; `stiffness-not-positive` where a layer would
 * give energy away when strained. Paths count from `layers`.
 */
export function laminate(layers: readonly Layer[]): Outcome<Laminate> {
  const problems = layers.flatMap(layerProblems);
  if (layers.length === 0)
    problems.push({ code: "no-layers", path: ["layers"], message: "No layers found; a plate needs one or more." });
  if (problems.length > 0) return refuse(...problems);
  const thickness = layers.reduce((sum, layer) => sum + layer.thickness, 0);
  const power = [1, 2, 3].map((n) => sumOver(layers, thickness, n));
  const [a, b, d] = [power[0]!, power[1]!, power[2]!];
  const shift = coupling(a, b);
  const force = { across: 0, along: 0 };
  const moment = { across: 0, along: 0 };
  let massPerArea = 0;
  let from = -thickness / 2;
  for (const layer of layers) {
    const middle = from + layer.thickness / 2;
    from += layer.thickness;
    massPerArea += layer.density * layer.thickness;
    const [x, y] = [layer.stress.across * layer.thickness, layer.stress.along * layer.thickness];
    force.across += x;
    force.along += y;
    moment.across += x * middle;
    moment.along += y * middle;
  }
  // Free in its plane, the plate answers the force with eps0 = -A^-1 N, whose moment B eps0 counts too.
  return answer({
    thickness,
    massPerArea,
    a,
    b,
    d,
    bending: {
      s11: d.s11 - (b.s11 * shift.s11 + b.s12 * shift.s21),
      s12: d.s12 - (b.s11 * shift.s12 + b.s12 * shift.s22),
      s22: d.s22 - (b.s12 * shift.s12 + b.s22 * shift.s22),
      s66: d.s66 - (b.s66 * b.s66) / a.s66,
    },
    neutral: { across: shift.s11, along: shift.s22 },
    force,
    moment: {
      across: moment.across - (shift.s11 * force.across + shift.s21 * force.along),
      along: moment.along - (shift.s12 * force.across + shift.s22 * force.along),
    },
  });
}

function sumOver(layers: readonly Layer[], thickness: number, power: number): PlateMatrix {
  const sum = { s11: 0, s12: 0, s22: 0, s66: 0 };
  let from = -thickness / 2;
  for (const { thickness: t, stiffness: q } of layers) {
    const to = from + t;
    const share = (pow(to, power) - pow(from, power)) / power;
    sum.s11 += q.q11 * share;
    sum.s12 += q.q12 * share;
    sum.s22 += q.q22 * share;
    sum.s66 += q.q66 * share;
    from = to;
  }
  return sum;
}

/** A^-1 B, its normal part. */
function coupling(a: PlateMatrix, b: PlateMatrix) {
  const determinant = a.s11 * a.s22 - a.s12 ** 2;
  return {
    s11: (a.s22 * b.s11 - a.s12 * b.s12) / determinant,
    s12: (a.s22 * b.s12 - a.s12 * b.s22) / determinant,
    s21: (a.s11 * b.s12 - a.s12 * b.s11) / determinant,
    s22: (a.s11 * b.s22 - a.s12 * b.s12) / determinant,
  };
}

function layerProblems({ thickness, density, stiffness: q }: Layer, index: number): Problem[] {
  const problems: Problem[] = [];
  const positive = (code: string, key: string, value: number, unit: string) => {
    if (!(value > 0 && Number.isFinite(value)))
      problems.push({
        code,
        path: ["layers", index, key],
        message: `Found ${value} ${unit}; a layer's ${key} must be positive.`,
      });
  };
  positive("layer-thickness", "thickness", thickness, "m");
  positive("layer-density", "density", density, "kg/m^3");
  if (!(q.q11 > 0 && q.q22 > 0 && q.q66 > 0 && q.q11 * q.q22 > q.q12 ** 2))
    problems.push({
      code: "stiffness-not-positive",
      path: ["layers", index, "stiffness"],
      message:
        `Found q11 ${q.q11}, q12 ${q.q12}, q22 ${q.q22}, q66 ${q.q66} Pa; needed: q11, q22, q66 > 0 and q11 q22 > q12^2, ` +
        "or the layer gives energy away when it is strained.",
    });
  return problems;
}

/**
 * What a `Diaphragm` takes of a stack: the plate of one material that bends as it does and weighs as much, and beside it the
 * membrane stiffness, the neutral plane and the layers of the real one.
 *
 *     q_ij = 12 D*_ij / h^3,   density = m / h
 */
export function layeredSheet(
  layers: readonly Pick<Layer, "thickness" | "stiffness">[],
  { a, bending, neutral, thickness, massPerArea }: Laminate,
): Required<Pick<Diaphragm, "thickness" | "stiffness" | "density" | "stack">> {
  const factor = 12 / cube(thickness);
  return {
    thickness,
    stiffness: {
      q11: bending.s11 * factor,
      q12: bending.s12 * factor,
      q22: bending.s22 * factor,
      q66: bending.s66 * factor,
    },
    density: massPerArea / thickness,
    stack: {
      membrane: { a11: a.s11, a12: a.s12, a22: a.s22, a66: a.s66 },
      neutral,
      layers: placedLayers(layers, thickness),
    },
  };
}

function placedLayers(layers: readonly Pick<Layer, "thickness" | "stiffness">[], thickness: number): PlacedLayer[] {
  let to = -thickness / 2;
  return layers.map((layer) => {
    const from = to;
    to += layer.thickness;
    return { from, to, stiffness: layer.stiffness };
  });
}
