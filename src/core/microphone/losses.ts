/**
 * Where the power goes: what each part turns into heat or sends away in a state of the device, integrated over the part's own
 * fields. Film, holes, slits and cavity walls by their profiles of velocity and temperature; nothing is taken from the solved
 * system's matrix, so that the sum against `suppliedPower` checks the whole system. Derivation: docs/theory/losses.md.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../numerics/complex.ts";
import { cavityLoss, holeLoss, slitLoss, ventLoss } from "../parts/acoustics/lumpedLoss.ts";
import { porosity, skvorB, wallAdmittance } from "../parts/acoustics/perforation.ts";
import { radiationResistance } from "../parts/acoustics/radiation.ts";
import { holeImpedance, slitImpedance, ventImpedance } from "../parts/acoustics/tube.ts";
import { filmLoss } from "../parts/film/filmLoss.ts";
import { type CoupledSystem, filmNumbers } from "./coupled.ts";
import { inner } from "./network.ts";
import { squaredWavenumbers } from "./reducedBasis.ts";
import { type DeviceState, flowPerAnswer } from "./state.ts";
import { restImpedance, restIntegrals } from "./wallHole.ts";

/** Mean power by part, of amplitudes [W]. */
export interface Losses {
  /** The diaphragm's own loss factor. */
  readonly structure: number;
  /** Friction in the film, the flow to the holes of its wall included. */
  readonly filmFriction: number;
  /** Heat between the film's air and its walls. */
  readonly filmHeat: number;
  /** Holes of the wall behind the film. */
  readonly wall: number;
  readonly frontHoles: number;
  readonly frontCavity: number;
  readonly backCavity: number;
  readonly vent: number;
  readonly leak: number;
  /** Sound sent out by a bare diaphragm in a body. */
  readonly radiation: number;
}

export const lossParts = [
  "structure",
  "filmFriction",
  "filmHeat",
  "wall",
  "frontHoles",
  "frontCavity",
  "backCavity",
  "vent",
  "leak",
  "radiation",
] as const satisfies readonly (keyof Losses)[];

export const totalLoss = (losses: Losses): number => lossParts.reduce((sum, part) => sum + losses[part], 0);

/** Losses in a state at a real frequency. */
export function lossesOf(system: CoupledSystem, state: DeviceState): Losses {
  const { microphone } = system;
  const { front, back, air } = microphone;
  const tone = { air, omega: state.omega.re };
  const flows = flowsOf(system, state);
  return {
    structure: structureLoss(system, state),
    ...filmLosses(system, state),
    frontHoles: (front?.holes ?? []).reduce(
      (sum, hole, i) => sum + holeLoss({ ...hole, ...tone }) * squared(flows.holes[i]!),
      0,
    ),
    frontCavity: front?.cavity ? cavityLoss({ ...front.cavity, ...tone }) * squared(state.front) : 0,
    backCavity: back?.cavity ? cavityLoss({ ...back.cavity, ...tone }) * squared(state.back) : 0,
    vent: back?.vent ? ventLoss({ vent: back.vent, ...tone }) * squared(flows.vent) : 0,
    leak: back?.leak ? slitLoss({ ...back.leak, ...tone }) * squared(flows.leak) : 0,
    radiation: radiated(system, state),
  };
}

/** What crosses the resistance beside the mass of the air in front: |p_s - p_f|^2 / (2 R). */
function radiated({ prepared, microphone }: CoupledSystem, { drive, front }: DeviceState): number {
  if (prepared.nearField === null) return 0;
  const { air, diaphragm } = microphone;
  const inertance = (air.density * prepared.nearField) / diaphragm.across;
  return squared(subtract(drive.sound ?? complex(0), front)) / (2 * radiationResistance({ inertance, air }));
}

const squared = ({ re, im }: Complex): number => re * re + im * im;

/** eta times the bending energy: (omega eta / 2) w^H K_b w. */
function structureLoss({ prepared, microphone, scales }: CoupledSystem, { q, omega }: DeviceState): number {
  const { bending, plate } = prepared;
  const { across, along, lossFactor } = microphone.diaphragm;
  if (lossFactor === 0) return 0;
  let energy = 0;
  for (let i = 0; i < plate.size; i++) {
    let [re, im] = [0, 0];
    for (let k = 0; k < plate.size; k++) {
      re += bending[i * plate.size + k]! * q.re[k]!;
      im += bending[i * plate.size + k]! * q.im[k]!;
    }
    energy += q.re[i]! * re + q.im[i]! * im;
  }
  return 0.5 * omega.re * lossFactor * energy * ((scales.deflection * across * along) / 4);
}

/** Integrals over the film's area of |grad p|^2 [Pa2], |p|^2 and |p - p_b - push|^2 [Pa2 m2]; null without film. */
export function filmIntegrals(system: CoupledSystem, state: DeviceState) {
  const { microphone, prepared, scales, ones, hole } = system;
  const { film, back, pushes, omega } = state;
  if (!film || !ones) return null;
  const { across, along } = microphone.diaphragm;
  // The functions are orthonormal over -1 .. 1 squared, four quarters of the area.
  const quarter = (across * along) / 4;
  const k = squaredWavenumbers(prepared);
  let [gradient, over, through] = [0, 0, 0];
  let [sumRe, sumIm] = [0, 0];
  for (let m = 0; m < k.length; m++) {
    const [re, im] = [film.re[m]!, film.im[m]!];
    gradient += k[m]! * (re * re + im * im);
    over += re * re + im * im;
    sumRe += ones[m]! * re;
    sumIm += ones[m]! * im;
    through += (re - ones[m]! * pushes.wall.re) ** 2 + (im - ones[m]! * pushes.wall.im) ** 2;
  }
  const beyond = hole ? restIntegrals(hole, microphone.diaphragm, filmNumbers(microphone, scales, omega)) : null;
  const sunk = beyond ? squared(wallFlow(system, state)) : 0;
  return {
    gradient: quarter * (2 / across) ** 2 * gradient + sunk * (beyond?.gradient ?? 0),
    // Where an even pressure is all there is, it and the film's own are equal and opposite: no less than nothing is left.
    pressure:
      quarter * Math.max(0, over + 4 * squared(back) + 2 * (back.re * sumRe + back.im * sumIm)) +
      sunk * (beyond?.pressure ?? 0),
    through: quarter * through,
  };
}

/** Flow out through the one hole in the wall: U = sum g_m P_m / (Z_hole + Z of the functions beyond) [m3/s]. */
export function wallFlow({ microphone, scales, hole }: CoupledSystem, { film, omega }: DeviceState): Complex {
  if (!hole || !film) return complex(0);
  const { air, diaphragm } = microphone;
  const over = inner({ re: hole.means, im: new Float64Array(hole.means.length) }, film);
  const through = holeImpedance({ ...hole.hole, air, omega });
  return divide(over, add(through, restImpedance(hole, diaphragm, filmNumbers(microphone, scales, omega))));
}

function filmLosses(system: CoupledSystem, state: DeviceState) {
  const { microphone, scales } = system;
  const { film, air } = microphone;
  const integrals = filmIntegrals(system, state);
  if (!film || !integrals) return { filmFriction: 0, filmHeat: 0, wall: 0 };
  const { omega } = state;
  const { gradient } = integrals;
  const tone = { air, omega: omega.re };
  const { viscous, thermal } = filmLoss({ gap: film.gap, ...tone });
  const filmHeat = thermal * integrals.pressure;
  if (film.backPlate === null) return { filmFriction: viscous * gradient, filmHeat, wall: 0 };
  if (film.backPlate.kind === "hole") {
    const wall = holeLoss({ ...film.backPlate.hole, ...tone }) * squared(wallFlow(system, state));
    return { filmFriction: viscous * gradient, filmHeat, wall };
  }
  const { psi } = filmNumbers(microphone, scales, omega);
  const velocity = squared(wallAdmittance(film.backPlate, { air, omega, psi })) * integrals.through;
  if (film.backPlate.kind === "admittance")
    return {
      filmFriction: viscous * gradient,
      filmHeat,
      wall: film.backPlate.admittance === 0 ? 0 : velocity / (2 * film.backPlate.admittance),
    };
  const { pitch, ...hole } = film.backPlate.holes;
  // In each round cell the flow u (R^2 - r^2) / (2 r) runs to its hole: integral of |grad p|^2 over its area is R^2 B |u / Psi|^2.
  const radial = (pitch * pitch * skvorB(porosity(film.backPlate.holes))) / Math.PI / squared(psi);
  return {
    filmFriction: viscous * (gradient + radial * velocity),
    filmHeat,
    wall: holeLoss({ ...hole, ...tone }) * pitch * pitch * velocity,
  };
}

interface Flows {
  readonly holes: readonly Complex[];
  readonly vent: Complex;
  readonly leak: Complex;
}

/** Volume flows inward: through the front holes, through the vent, through the leak [m3/s]. */
export function flowsOf({ microphone }: CoupledSystem, state: DeviceState): Flows {
  const { front, back, air } = microphone;
  const tone = { air, omega: state.omega };
  const sound = state.drive.sound ?? complex(0);
  const zero = complex(0);
  const holes = (front?.holes ?? []).map((hole, i) =>
    divide(subtract(subtract(sound, state.front), state.pushes.holes[i]!), holeImpedance({ ...hole, ...tone })),
  );
  const vent = back?.vent
    ? divide(subtract(back.vent.exposed ? sound : zero, state.back), ventImpedance({ vent: back.vent, ...tone }))
    : zero;
  const leak = back?.leak
    ? divide(
        subtract(back.leak.from === "front" ? state.front : zero, state.back),
        slitImpedance({ ...back.leak, ...tone }),
      )
    : zero;
  return { holes, vent, leak };
}

/** Mean power that a drive puts into the device [W]: by sound, by a load on the plate, by the frame's acceleration. */
export function suppliedPower(system: CoupledSystem, state: DeviceState): number {
  const { microphone, prepared, scales } = system;
  const { front, back, film, air, diaphragm } = microphone;
  const { drive, omega, q, pushes } = state;
  const sound = drive.sound ?? complex(0);
  const flows = flowsOf(system, state);
  const uniform = { re: prepared.plate.load, im: new Float64Array(prepared.plate.size) };
  const swept = multiply(flowPerAnswer(system, omega), inner(uniform, q));
  let power = mean(pushes.plate, swept);
  // Without a front the sound itself moves the plate, and enters a leak that begins there.
  if (!front) power += mean(sound, back?.leak?.from === "front" ? add(swept, flows.leak) : swept);
  flows.holes.forEach((flow, i) => {
    power += mean(subtract(sound, pushes.holes[i]!), flow);
  });
  if (back?.vent?.exposed) power += mean(sound, flows.vent);
  if (drive.load) {
    const conjugate = { re: drive.load.re, im: drive.load.im.map((value) => -value) };
    const velocity = multiply(flowPerAnswer(system, omega), inner(conjugate, q));
    power += velocity.re / 2;
  }
  if (absolute(pushes.wall) > 0 && film?.backPlate && film.backPlate.kind !== "hole" && state.film && system.ones) {
    let through = complex(0);
    for (let m = 0; m < system.ones.length; m++) {
      const term = {
        re: system.ones[m]! * (state.film.re[m]! - system.ones[m]! * pushes.wall.re),
        im: system.ones[m]! * (state.film.im[m]! - system.ones[m]! * pushes.wall.im),
      };
      through = add(through, term);
    }
    const { psi } = filmNumbers(microphone, scales, omega);
    const quarter = (diaphragm.across * diaphragm.along) / 4;
    const flow = scale(multiply(wallAdmittance(film.backPlate, { air, omega, psi }), through), quarter);
    power -= mean(pushes.wall, flow);
  }
  return power;
}

/** Re(p* U) / 2. */
const mean = (pressure: Complex, flow: Complex): number => (pressure.re * flow.re + pressure.im * flow.im) / 2;

/** Losses as shares of their sum; null where nothing is lost. */
export function lossShares(losses: Losses): Losses | null {
  const total = totalLoss(losses);
  if (!(total > 0)) return null;
  const share = (part: keyof Losses) => losses[part] / total;
  return {
    structure: share("structure"),
    filmFriction: share("filmFriction"),
    filmHeat: share("filmHeat"),
    wall: share("wall"),
    frontHoles: share("frontHoles"),
    frontCavity: share("frontCavity"),
    backCavity: share("backCavity"),
    vent: share("vent"),
    leak: share("leak"),
    radiation: share("radiation"),
  };
}
