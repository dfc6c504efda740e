/**
 * The other real pole of an overdamped resonance, from the slow one alone.
 *
 *     f(s) = x^T A(s) x of the motion x at s = -r1, all pressures eliminated;   f(-r1) = 0
 *     one resonance: f = K + R s + M s^2,   R = (f(-r) + M (r1^2 - r^2)) / (r1 - r) at any r < r1,   r2 = R / M - r1
 *
 * M is the plate's mass in that motion and that of the air it moves: what f loses when the air's inertia is taken away, over r1^2.
 * Where a pair of poles has just met on the axis both rates are one; farther on the true fast pole meets the singularities of the
 * film itself and no longer says anything of the plate. Derivation: docs/theory/poles.md.
 */
import { complex, multiply, subtract } from "../../numerics/complex.ts";
import {
  type ReducedSystem,
  reducedLoads,
  reducedState,
  reducedSystem,
  setReducedFrequency,
} from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { hasNetwork, inner, lumpedParts, portMatrix, solvePorts } from "../system/network.ts";
import { isVentPole } from "./ventPole.ts";

/** Shares of the rate at which R is read; the middle one of three counts, because holes and cavities have singularities between. */
const looked = [0.4, 0.55, 0.7] as const;

/**
 * r2 [1/s] of a slow real pole with rate r1 of a device without loss factor; null where no mass moves with it, and for a volume
 * that empties through its vent (ventPole.ts).
 */
export function creepPartner(system: ReducedSystem, rate: number): number | null {
  if (isVentPole(system.microphone, rate)) return null;
  // Beside the pole the answer to sound is its motion.
  const { plate } = reducedState(system, complex(0, rate * (1 + 1e-6)));
  const size = Math.sqrt(plate.re.reduce((sum, value, i) => sum + value ** 2 + plate.im[i]! ** 2, 0));
  if (!(size > 0) || !Number.isFinite(size)) return null;
  // On the axis of decay everything is real.
  const x = Float64Array.from(plate.re, (value) => value / size);
  let mass = 0;
  for (let i = 0; i < x.length; i++) mass += system.scales.lambda * system.basis.mass[i]! * x[i]! ** 2;
  const still = reducedSystem(system.basis, withoutInertia(system.microphone));
  const air = (quadratic(system, x, rate) - quadratic(still, x, rate)) / rate ** 2;
  const moved = mass + Math.max(0, air);
  const resistances = looked.map((share) => {
    const at = share * rate;
    return (quadratic(system, x, at) + moved * (rate ** 2 - at ** 2)) / (rate - at);
  });
  const [, middle] = resistances.sort((a, b) => a - b) as [number, number, number];
  const partner = middle / moved - rate;
  return Number.isFinite(partner) ? Math.max(partner, rate) : null;
}

/** Air that has no mass to speak of, with the same friction and the same diffusion of heat. */
function withoutInertia(microphone: Microphone): Microphone {
  const { air } = microphone;
  return { ...microphone, air: { ...air, density: 1e-9 * air.density, prandtl: 1e9 * air.prandtl } };
}

/** x^T A x at omega = i rate, the pressures in front and behind eliminated. */
function quadratic(system: ReducedSystem, x: Float64Array, rate: number): number {
  const omega = complex(0, rate);
  const { basis, microphone } = system;
  setReducedFrequency(system, omega);
  let sum = 0;
  for (let i = 0; i < basis.count; i++) {
    for (let k = 0; k <= i; k++) sum += (i === k ? 1 : 2) * system.re[i * basis.count + k]! * x[i]! * x[k]!;
  }
  if (!hasNetwork(microphone)) return sum;
  const motion = { re: x, im: new Float64Array(x.length) };
  const { front, behind, flow } = reducedLoads(system, omega);
  const [onFront, onBack] = [inner(front, motion), inner(behind.load, motion)];
  const zero = complex(0);
  const lumped = lumpedParts(microphone, omega, basis.nearField);
  const air = portMatrix(lumped, { frontFront: zero, frontBack: zero, backBack: zero, film: behind.admittance });
  const entering = { front: subtract(zero, multiply(flow, onFront)), back: multiply(flow, onBack) };
  const pressures = solvePorts(air, entering, zero);
  return sum - multiply(onFront, pressures.front).re + multiply(onBack, pressures.back).re;
}
