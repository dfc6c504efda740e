/**
 * The air in front and behind as a network of lumped parts, coupled to plate and film through two pressures.
 *
 *     i omega F^T q + (Y_f + 1/Z_h) p_f + (p_f - p_b) / Z_l = p_s / Z_h                  front: what enters by the hole fills it
 *     -i omega B^T q + (Y + Y_b + 1/Z_v) p_b - (p_f - p_b) / Z_l = theta p_s / Z_v       back: what leaves the film fills it
 *
 * p_s = 1 Pa is the sound at the hole, theta = 1 where it reaches the vent; Z_l a leak through the bond from front to back. With
 * q = p_f A^-1 F - p_b A^-1 B these are two equations in p_f and p_b. No front: p_f = p_s. No back: p_b = 0.
 * Derivation: docs/theory/coupled.md.
 */
import { add, type Complex, complex, divide, multiply, subtract } from "../numerics/complex.ts";
import { cavityAdmittance } from "../parts/acoustics/cavity.ts";
import { holesAdmittance, slitImpedance, ventImpedance } from "../parts/acoustics/tube.ts";
import type { Microphone } from "./microphone.ts";

const zero = complex(0);
const one = complex(1);

/** Admittances of the lumped parts at one frequency [m3/(Pa s)]; null: that pressure is prescribed. */
export interface Lumped {
  readonly front: { readonly own: Complex; readonly source: Complex } | null;
  readonly back: { readonly own: Complex; readonly source: Complex } | null;
  /** Between front and back. */
  readonly between: Complex;
}

export function lumpedParts({ front, back, air }: Microphone, omega: Complex): Lumped {
  const tone = { air, omega };
  const leak = back?.leak ? divide(one, slitImpedance({ ...back.leak, ...tone })) : zero;
  // A leak from outside ends where no sound is; one from the front in the front's pressure.
  const between = back?.leak?.from === "front" ? leak : zero;
  const outside = back?.leak?.from === "outside" ? leak : zero;
  const holes = front ? holesAdmittance({ holes: front.holes, ...tone }) : zero;
  const vent = back?.vent ? divide(one, ventImpedance({ vent: back.vent, ...tone })) : zero;
  const frontCavity = front?.cavity ? cavityAdmittance({ ...front.cavity, ...tone }) : zero;
  const backCavity = back?.cavity ? cavityAdmittance({ ...back.cavity, ...tone }) : zero;
  return {
    front: front && { own: add(frontCavity, holes), source: holes },
    back: back && { own: add(add(backCavity, vent), outside), source: back.vent?.exposed ? vent : zero },
    between,
  };
}

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
  const { front, mixed, back } = portMatrix(lumped, ports);
  if (front === null) {
    if (back === null) return { front: one, back: zero };
    return { front: one, back: divide(subtract(lumped.back!.source, mixed), back) };
  }
  const entering = lumped.front!.source;
  if (back === null) return { front: divide(entering, front), back: zero };
  const behind = lumped.back!.source;
  const determinant = subtract(multiply(front, back), multiply(mixed, mixed));
  return {
    front: divide(subtract(multiply(entering, back), multiply(mixed, behind)), determinant),
    back: divide(subtract(multiply(front, behind), multiply(mixed, entering)), determinant),
  };
}

/** Pivots of the port matrix, for determinants: one or two numbers, none without front and back. */
export function portPivots(lumped: Lumped, ports: Ports): readonly Complex[] {
  const { front, mixed, back } = portMatrix(lumped, ports);
  if (front === null) return back === null ? [] : [back];
  if (back === null) return [front];
  return [front, subtract(back, divide(multiply(mixed, mixed), front))];
}

/** Whether there is anything to couple to. */
export const hasNetwork = ({ front, back }: Microphone): boolean => front !== null || back !== null;
