/**
 * What a motion is made of: energy by part, to say whether plate, film, hole or cavity makes a pole.
 *
 *     plate: w^H (K + |omega|^2 M) w / 4;   film: (-Im Psi |grad p|^2 + Im chi |p|^2) / (4 |omega|), over the area
 *     hole: Im Z |U|^2 / (4 |omega|);   cavity: Im Y |p|^2 / (4 |omega|)
 *
 * with Psi, chi, Z, Y at the real frequency |omega|: masses and springs as an oscillation of that speed would see them. Exact for
 * an undamped motion; where a part mostly loses, its stored energy is a convention. Derivation: docs/theory/losses.md.
 */
import { absolute, type Complex, complex, divide } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { cavityAdmittance } from "../../parts/acoustics/cavity.ts";
import { wallAdmittance } from "../../parts/acoustics/perforation.ts";
import { radiationImpedance } from "../../parts/acoustics/radiation.ts";
import { holeImpedance, slitImpedance, ventImpedance } from "../../parts/acoustics/tube.ts";
import { filmCoefficients } from "../../parts/film/coefficients.ts";
import { type CoupledSystem, setFrequency } from "../system/coupled.ts";
import { wholeStiffness } from "../system/prepare.ts";
import { type DeviceState, stateAt } from "../system/state.ts";
import { filmIntegrals, flowsOf, wallFlow } from "./losses.ts";

/** Energy by part [J], or its shares [-]. */
export interface Energies {
  readonly plate: number;
  readonly film: number;
  readonly wall: number;
  readonly frontHoles: number;
  readonly frontCavity: number;
  readonly backCavity: number;
  /** Vent and leak. */
  readonly vents: number;
  /** Air before a bare diaphragm. */
  readonly outside: number;
}

export const energyParts = [
  "plate",
  "film",
  "wall",
  "frontHoles",
  "frontCavity",
  "backCavity",
  "vents",
  "outside",
] as const satisfies readonly (keyof Energies)[];

/** Shares of the energy in the motion at a pole [rad/s]: the answer to sound next to it, which nothing else outgrows there. */
export function poleEnergies(system: CoupledSystem, pole: Complex): Energies {
  const beside = complex(pole.re * (1 + 1e-6), pole.im * (1 + 1e-6));
  setFrequency(system, beside);
  const energies = energiesOf(system, stateAt(system, beside, { sound: complex(1) }));
  const total = energyParts.reduce((sum, part) => sum + energies[part], 0);
  return Object.fromEntries(energyParts.map((part) => [part, energies[part] / total])) as unknown as Energies;
}

export function energiesOf(system: CoupledSystem, state: DeviceState): Energies {
  const { microphone, prepared } = system;
  const { front, back, film, air, diaphragm } = microphone;
  const speed = absolute(state.omega);
  const tone = { air, omega: complex(speed) };
  const stored = (reactance: number, amplitude: number) => (Math.max(0, reactance) * amplitude) / (4 * speed);
  const flows = flowsOf(system, state);
  const integrals = filmIntegrals(system, state);
  const pieces = integrals.map((one) => {
    const { psi, chi } = filmCoefficients({ gap: one.gap, ...tone });
    const wall = film?.backPlate;
    const through = wall && wall.kind !== "hole" ? wallAdmittance(wall, { ...tone, psi }) : null;
    return {
      film: { mass: -psi.im * one.gradient, spring: chi.im * one.pressure },
      // Z = 1 / y: Im Z |y p|^2 = -Im y |p|^2.
      wall: through ? -through.im * one.through : 0,
    };
  });
  const total = (of: (piece: (typeof pieces)[number]) => number) => pieces.reduce((sum, piece) => sum + of(piece), 0);
  const radiation =
    prepared.nearField === null
      ? null
      : radiationImpedance({ inertance: (air.density * prepared.nearField) / diaphragm.across, ...tone });
  const sound = state.drive.sound ?? complex(0);
  return {
    plate: plateEnergy(system, state, speed),
    film:
      stored(
        total((piece) => piece.film.mass),
        1,
      ) +
      stored(
        total((piece) => piece.film.spring),
        1,
      ),
    wall: system.hole
      ? stored(holeImpedance({ ...system.hole.hole, ...tone }).im, squared(wallFlow(system, state)))
      : stored(
          total((piece) => piece.wall),
          1,
        ),
    frontHoles: (front?.holes ?? []).reduce(
      (sum, hole, i) => sum + stored(holeImpedance({ ...hole, ...tone }).im, squared(flows.holes[i]!)),
      0,
    ),
    frontCavity: front?.cavity ? stored(cavityAdmittance({ ...front.cavity, ...tone }).im, squared(state.front)) : 0,
    backCavity: back?.cavity ? stored(cavityAdmittance({ ...back.cavity, ...tone }).im, squared(state.back)) : 0,
    vents:
      (back?.vent ? stored(ventImpedance({ vent: back.vent, ...tone }).im, squared(flows.vent)) : 0) +
      (back?.leak ? stored(slitImpedance({ ...back.leak, ...tone }).im, squared(flows.leak)) : 0),
    outside:
      radiation === null
        ? 0
        : stored(radiation.im, squared(divide({ re: sound.re - state.front.re, im: -state.front.im }, radiation))),
  };
}

const squared = ({ re, im }: Complex): number => re * re + im * im;

function plateEnergy({ prepared, microphone, scales }: CoupledSystem, { q }: DeviceState, speed: number): number {
  const { mass, plate } = prepared;
  const stiff = wholeStiffness(prepared);
  const lambda = speed * speed * scales.lambda;
  let energy = 0;
  for (let i = 0; i < plate.size; i++) {
    for (let k = 0; k < plate.size; k++) {
      const at = i * plate.size + k;
      const stiffness = stiff[at]! + lambda * mass[at]!;
      energy += stiffness * realProduct(q, i, k);
    }
  }
  const { across, along } = microphone.diaphragm;
  return (energy * scales.deflection * across * along) / 16;
}

const realProduct = ({ re, im }: ComplexVector, i: number, k: number): number => re[i]! * re[k]! + im[i]! * im[k]!;
