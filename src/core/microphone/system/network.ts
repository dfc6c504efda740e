/**
 * The air in front and behind as a network of lumped parts, coupled to plate and film through two pressures.
 *
 *     i omega F^T q + (Y_f + 1/Z_h) p_f + (p_f - p_b) / Z_l = p_s / Z_h                  front: what enters by the hole fills it
 *     -i omega B^T q + (Y + Y_b + 1/Z_v) p_b - (p_f - p_b) / Z_l = theta p_s / Z_v       back: what leaves the film fills it
 *
 * p_s = 1 Pa is the sound at the hole, theta = 1 where it reaches the vent; Z_l a leak through the bond from front to back. With
 * q = p_f A^-1 F - p_b A^-1 B these are two equations in p_f and p_b. No front: p_f = p_s, or with a body p_s less what radiating
 * costs, 1 / Z_r in place of 1 / Z_h. No back: p_b = 0.
 * Derivation: docs/theory/coupled.md.
 */
import { add, type Complex, complex, divide, multiply, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import type { Cavity, Tone } from "../../parts/acoustics/acoustics.ts";
import { cavityAdmittance } from "../../parts/acoustics/cavity.ts";
import { radiationImpedance } from "../../parts/acoustics/radiation.ts";
import { holesAdmittance, slitImpedance, ventImpedance } from "../../parts/acoustics/tube.ts";
import type { Microphone } from "../microphone.ts";

const zero = complex(0);
const one = complex(1);

/** Admittances of the lumped parts at one frequency [m3/(Pa s)]; null: that pressure is prescribed. */
export interface Lumped {
  readonly front: { readonly own: Complex; readonly source: Complex } | null;
  readonly back: { readonly own: Complex; readonly source: Complex } | null;
  /** Between front and back. */
  readonly between: Complex;
}

/** `nearField`: that of `Prepared`, the air that a bare diaphragm moves. */
export function lumpedParts(
  { front, back, air, diaphragm }: Microphone,
  omega: Complex,
  nearField: number | null,
): Lumped {
  const tone = { air, omega };
  const slit = back?.leak;
  const leak = slit
    ? divide(one, slitImpedance({ height: slit.height, width: slit.width, length: slit.length, air, omega }))
    : zero;
  // A leak from outside ends where no sound is; one from the front in the front's pressure.
  const between = slit?.from === "front" ? leak : zero;
  const outside = slit?.from === "outside" ? leak : zero;
  const holes = front ? holesAdmittance({ holes: front.holes, air, omega }) : zero;
  const vent = back?.vent ? divide(one, ventImpedance({ vent: back.vent, air, omega })) : zero;
  const frontCavity = front?.cavity ? filled(front.cavity, tone) : zero;
  const backCavity = back?.cavity ? filled(back.cavity, tone) : zero;
  return {
    front: front ? { own: add(frontCavity, holes), source: holes } : bareFront(nearField, diaphragm.across, tone),
    back: back && { own: add(add(backCavity, vent), outside), source: back.vent?.exposed ? vent : zero },
    between,
  };
}

// Written out, here and above: a spread costs more than what it is asked for.
const filled = ({ volume, surface }: Cavity, { air, omega }: Tone): Complex =>
  cavityAdmittance({ volume, surface, air, omega });

/** A bare diaphragm in a body: the sound before it, less what its own motion costs. */
function bareFront(nearField: number | null, side: number, tone: Tone): Lumped["front"] {
  if (nearField === null) return null;
  const radiating = divide(one, radiationImpedance({ inertance: (tone.air.density * nearField) / side, ...tone }));
  return { own: radiating, source: radiating };
}

/** Whether the diaphragm itself meets the open air around a body: only then it radiates. */
export const isBare = ({ body, front }: Microphone): boolean => body !== null && front === null;

/** Volume flows of plate and film per pressure at one frequency [m3/(Pa s)]: i omega F^T A^-1 F and so on, and the film's Y. */
export interface Ports {
  readonly frontFront: Complex;
  readonly frontBack: Complex;
  readonly backBack: Complex;
  /** The film's own flow per back pressure, Y. */
  readonly film: Complex;
}

export interface Pressures {
  readonly front: Complex;
  readonly back: Complex;
}

/** The port matrix: [front, mixed; mixed, back], only the rows of pressures that are free. */
export function portMatrix(lumped: Lumped, ports: Ports) {
  const front = lumped.front && add(add(ports.frontFront, lumped.front.own), lumped.between);
  const back = lumped.back && add(add(add(ports.backBack, ports.film), lumped.back.own), lumped.between);
  return { front, mixed: subtract(zero, add(ports.frontBack, lumped.between)), back };
}

/** Pressures before and behind the diaphragm for a sound of 1 Pa at the hole (or at the diaphragm where there is no front). */
export function solveNetwork(lumped: Lumped, ports: Ports): Pressures {
  const entering = { front: lumped.front?.source ?? zero, back: lumped.back?.source ?? zero };
  return solvePorts(portMatrix(lumped, ports), entering, one);
}

/** Pressures that volume flows into the front and into the back make [m3/s]; where the front's is prescribed it is `sound` [Pa]. */
export function solvePorts(
  { front, mixed, back }: ReturnType<typeof portMatrix>,
  entering: Pressures,
  sound: Complex,
): Pressures {
  if (front === null) {
    if (back === null) return { front: sound, back: zero };
    return { front: sound, back: divide(subtract(entering.back, multiply(mixed, sound)), back) };
  }
  if (back === null) return { front: divide(entering.front, front), back: zero };
  const determinant = subtract(multiply(front, back), multiply(mixed, mixed));
  return {
    front: divide(subtract(multiply(entering.front, back), multiply(mixed, entering.back)), determinant),
    back: divide(subtract(multiply(front, entering.back), multiply(mixed, entering.front)), determinant),
  };
}

/** The port matrix with the loads that its pressures make on the plate, at one frequency. */
export interface PortState {
  readonly front: Complex | null;
  readonly mixed: Complex;
  readonly back: Complex | null;
  /** F and B on the functions of the model. */
  readonly onFront: ComplexVector;
  readonly onBack: ComplexVector;
  /** Volume flow per dimensionless answer: i omega s a b / 4 [m3/(Pa s)]. */
  readonly flow: Complex;
}

/** Pivots of the port matrix, for determinants: one or two numbers. */
export function portPivots({ front, mixed, back }: PortState): readonly Complex[] {
  if (front === null) return back === null ? [] : [back];
  if (back === null) return [front];
  return [front, subtract(back, divide(multiply(mixed, mixed), front))];
}

/**
 * What the network adds to a compliance v^T A^-1 v, with x = A^-1 v: the pressures that x drives push back on the plate.
 *
 *     x_F p_f - x_B p_b,   port matrix (p_f, p_b) = flow (-x_F, x_B),   x_F = F^T x, x_B = B^T x
 */
export function networkCompliance(state: PortState, x: ComplexVector): Complex {
  const [xFront, xBack] = [inner(state.onFront, x), inner(state.onBack, x)];
  const { front, back } = drivenPressures(state, xFront, xBack);
  return subtract(multiply(xFront, front), multiply(xBack, back));
}

/** The pressures that the plate's motion drives, of x_F = F^T x and x_B = B^T x; zero where a pressure is prescribed. */
export function drivenPressures(
  { front, mixed, back, flow }: Pick<PortState, "front" | "mixed" | "back" | "flow">,
  xFront: Complex,
  xBack: Complex,
): Pressures {
  const into = { front: subtract(zero, multiply(flow, xFront)), back: multiply(flow, xBack) };
  if (front === null) return { front: zero, back: back === null ? zero : divide(into.back, back) };
  if (back === null) return { front: divide(into.front, front), back: zero };
  const determinant = subtract(multiply(front, back), multiply(mixed, mixed));
  return {
    front: divide(subtract(multiply(into.front, back), multiply(mixed, into.back)), determinant),
    back: divide(subtract(multiply(front, into.back), multiply(mixed, into.front)), determinant),
  };
}

/** What the pressures before and behind move together. */
export function moved(onFront: ComplexVector, onBack: ComplexVector, { front, back }: Pressures): ComplexVector {
  const count = onFront.re.length;
  const plate = { re: new Float64Array(count), im: new Float64Array(count) };
  for (let i = 0; i < count; i++) {
    plate.re[i] =
      front.re * onFront.re[i]! - front.im * onFront.im[i]! - back.re * onBack.re[i]! + back.im * onBack.im[i]!;
    plate.im[i] =
      front.re * onFront.im[i]! + front.im * onFront.re[i]! - back.re * onBack.im[i]! - back.im * onBack.re[i]!;
  }
  return plate;
}

/** Sum of products, without conjugation. */
export function inner(row: ComplexVector, q: ComplexVector): Complex {
  let [re, im] = [0, 0];
  for (let i = 0; i < row.re.length; i++) {
    re += row.re[i]! * q.re[i]! - row.im[i]! * q.im[i]!;
    im += row.re[i]! * q.im[i]! + row.im[i]! * q.re[i]!;
  }
  return { re, im };
}

/**
 * Rate below which no hole, slit or cavity has a singularity of its own on the imaginary axis [1/s]: J0 of a round hole is
 * first zero at 2.405, cos of a slit's or a cavity's argument at pi / 2.
 */
export function firstSingularity({ front, back, film, air }: Microphone): number {
  const viscous = air.viscosity / air.density;
  const thermal = viscous / air.prandtl;
  const round = (diameter: number) => (viscous * 2.404826 ** 2) / (diameter / 2) ** 2;
  const slit = (height: number) => (viscous * (Math.PI / 2) ** 2) / (height / 2) ** 2;
  const cavity = (part: Cavity | null | undefined) =>
    part ? (thermal * (Math.PI / 2) ** 2) / (part.volume / part.surface) ** 2 : Number.POSITIVE_INFINITY;
  const vent = back?.vent;
  const plate = film?.backPlate;
  const wall = plate?.kind === "hole" ? plate.hole : plate?.kind === "holes" ? plate.holes : null;
  return Math.min(
    wall ? round(wall.diameter) : Number.POSITIVE_INFINITY,
    ...(front?.holes ?? []).map(({ diameter }) => round(diameter)),
    vent ? (vent.shape === "round" ? round(vent.diameter) : slit(vent.height)) : Number.POSITIVE_INFINITY,
    back?.leak ? slit(back.leak.height) : Number.POSITIVE_INFINITY,
    cavity(front?.cavity),
    cavity(back?.cavity),
  );
}

/** Whether there is anything to couple to. */
export const hasNetwork = (microphone: Microphone): boolean =>
  microphone.front !== null || microphone.back !== null || isBare(microphone);
