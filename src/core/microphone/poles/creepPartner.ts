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
import { type Complex, complex } from "../../numerics/complex.ts";
import {
  alikeSystem,
  filmUnder,
  type ReducedSystem,
  reducedLoads,
  reducedState,
  setReducedFilm,
} from "../basis/reduced.ts";
import { dot } from "../basis/reducedBasis.ts";
import type { Microphone } from "../microphone.ts";
import { flowPerAnswer } from "../system/coupledState.ts";
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
  const motion = motionOf(
    system,
    Float64Array.from(plate.re, (value) => value / size),
  );
  const mass = system.scales.lambda * motion.mass;
  const still = alikeSystem(system, withoutInertia(system.microphone));
  const air = (quadratic(system, motion, rate) - quadratic(still, motion, rate)) / rate ** 2;
  const moved = mass + Math.max(0, air);
  const resistances = looked.map((share) => {
    const at = share * rate;
    return (quadratic(system, motion, at) + moved * (rate ** 2 - at ** 2)) / (rate - at);
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

/** What no frequency changes of a motion x of length 1: x^T M x, F^T x and C^T x. */
interface Motion {
  readonly plate: Float64Array;
  readonly mass: number;
  readonly swept: number;
  readonly film: Float64Array;
}

function motionOf({ basis }: ReducedSystem, plate: Float64Array): Motion {
  const { count, filmCount, coupling, load } = basis;
  const film = new Float64Array(filmCount);
  let [mass, swept] = [0, 0];
  for (let i = 0; i < count; i++) {
    const x = plate[i]!;
    mass += basis.mass[i]! * x * x;
    swept += load[i]! * x;
    for (let j = 0; j < filmCount; j++) film[j]! += coupling[i * filmCount + j]! * x;
  }
  return { plate, mass, swept, film };
}

/** x^T A x at omega = i rate, the pressures in front and behind eliminated. */
function quadratic(system: ReducedSystem, motion: Motion, rate: number): number {
  const omega = complex(0, rate);
  const { basis, microphone, scales } = system;
  setReducedFilm(system, omega);
  const { pressed, onBack, admittance } = filmOf(system, motion, omega);
  const sum = 1 + scales.lambda * rate ** 2 * motion.mass + pressed;
  if (!hasNetwork(microphone)) return sum;
  const lumped = lumpedParts(microphone, omega, basis.nearField);
  const air = portMatrix(lumped, { frontFront: zero, frontBack: zero, backBack: zero, film: complex(admittance) });
  const flow = flowPerAnswer(system, omega).re;
  const { front, back } = solvePorts(air, { front: complex(-flow * motion.swept), back: complex(flow * onBack) }, zero);
  return sum - motion.swept * front.re + onBack * back.re;
}

/** x^T C D C^T x, B^T x and Y at the frequency that was set (reduced.ts). */
function filmOf(system: ReducedSystem, { plate, swept, film }: Motion, omega: Complex) {
  const { basis, microphone, numbers, even, filmRe } = system;
  if (even === null || basis.hole) {
    const motion = { re: plate, im: new Float64Array(plate.length) };
    const { behind } = reducedLoads(system, omega);
    const pressed = dot(film, filmUnder(system, motion).re);
    return { pressed, onBack: inner(behind.load, motion).re, admittance: behind.admittance.re };
  }
  let [pressed, mixed, ones] = [0, 0, 0];
  for (let j = 0; j < film.length; j++) {
    const answer = filmRe[j]!;
    pressed += film[j]! * answer * film[j]!;
    mixed += basis.ones[j]! * answer * film[j]!;
    ones += basis.ones[j]! * answer * basis.ones[j]!;
  }
  if (numbers === null) return { pressed, onBack: swept, admittance: 0 };
  const quarter = (microphone.diaphragm.across * microphone.diaphragm.along) / 4;
  const { chi, compression } = numbers;
  return {
    pressed,
    onBack: swept - compression.re * mixed,
    admittance: quarter * chi.re * (4 - compression.re * ones),
  };
}

const zero = complex(0);
