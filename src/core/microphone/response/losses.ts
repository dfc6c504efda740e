/**
 * Where the power goes: what each part turns into heat or sends away in a state of the device, integrated over the part's own
 * fields. Film, holes, slits and cavity walls by their profiles of velocity and temperature; nothing is taken from the solved
 * system's matrix, so that the sum against `suppliedPower` checks the whole system. Derivation: docs/theory/losses.md.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { cavityLoss, holeLoss, slitLoss, ventLoss } from "../../parts/acoustics/lumpedLoss.ts";
import { porosity, skvorB, wallAdmittance } from "../../parts/acoustics/perforation.ts";
import { radiationResistance } from "../../parts/acoustics/radiation.ts";
import { holeImpedance, slitImpedance, ventImpedance } from "../../parts/acoustics/tube.ts";
import { filmCoefficients } from "../../parts/film/coefficients.ts";
import { filmLoss } from "../../parts/film/filmLoss.ts";
import { squaredWavenumbers } from "../basis/reducedBasis.ts";
import { type CoupledSystem, filmNumbers, storing } from "../system/coupled.ts";
import { flowPerAnswer } from "../system/coupledState.ts";
import { inner } from "../system/network.ts";
import type { DeviceState } from "../system/state.ts";
import { restImpedance, restIntegrals } from "../system/wallHole.ts";

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

/** Integrals over a film's area, of what has one gap. */
export interface FilmIntegrals {
  /** [m] */
  readonly gap: number;
  /** Of |grad p|^2 [Pa2], |p|^2 and |p - p_b - push|^2 [Pa2 m2]. */
  readonly gradient: number;
  readonly pressure: number;
  readonly through: number;
}

/**
 * Of the whole area where the film has one gap; of an uneven one what belongs to each of the gaps that it is computed at, by the
 * polynomials of parts/film/relief.ts, so that the sum over them is that over the area. Empty without film.
 */
export function filmIntegrals(system: CoupledSystem, state: DeviceState): readonly FilmIntegrals[] {
  const { film } = system.microphone;
  const whole = evenIntegrals(system, state);
  if (!film || !whole) return [];
  if (!film.relief || !system.relief) return [{ gap: film.gap, ...whole }];
  const { heights, shares } = film.relief;
  const coupled = system.relief.system.matrices;
  const { across, along } = system.microphone.diaphragm;
  const quarter = (across * along) / 4;
  const p = state.film!;
  const pushed = {
    re: p.re.map((value, m) => value - system.ones![m]! * state.pushes.wall.re),
    im: p.im.map((value, m) => value - system.ones![m]! * state.pushes.wall.im),
  };
  const overHole =
    film.relief.atHole === undefined
      ? []
      : [{ gap: film.gap + film.relief.atHole, ...sunkIntegrals(system, state).atHole, through: 0 }];
  const pieces = heights.map((height, j) => {
    const ones = coupled.ones[j]!;
    const even = 2 * (state.back.re * sumOf(ones, p.re) + state.back.im * sumOf(ones, p.im));
    return {
      gap: film.gap + height,
      gradient:
        shares[j]! * whole.gradient + quarter * (2 / across) ** 2 * between(coupled.index, coupled.kappa[j]!, p),
      pressure: shares[j]! * whole.pressure + quarter * (between(coupled.index, coupled.mass[j]!, p) + even),
      through: shares[j]! * whole.through + quarter * between(coupled.index, coupled.mass[j]!, pushed),
    };
  });
  return [...pieces, ...overHole];
}

/** What the hole's flow spends in functions beyond the film's own. */
function sunkIntegrals(system: CoupledSystem, state: DeviceState): ReturnType<typeof restIntegrals> {
  const { microphone, scales, hole } = system;
  const none = { gradient: 0, pressure: 0 };
  if (!hole) return { film: none, atHole: none };
  const per = restIntegrals(hole, microphone.diaphragm, filmNumbers(microphone, scales, state.omega));
  const sunk = squared(wallFlow(system, state));
  const of = ({ gradient, pressure }: typeof none) => ({ gradient: sunk * gradient, pressure: sunk * pressure });
  return { film: of(per.film), atHole: of(per.atHole) };
}

/** p^H matrix p on the coupled functions. */
function between(index: Int32Array, matrix: Float64Array, { re, im }: ComplexVector): number {
  const size = index.length;
  let sum = 0;
  for (let a = 0; a < size; a++) {
    for (let b = 0; b < size; b++) {
      const [i, k] = [index[a]!, index[b]!];
      sum += matrix[a * size + b]! * (re[i]! * re[k]! + im[i]! * im[k]!);
    }
  }
  return sum;
}

function sumOf(row: Float64Array, values: Float64Array): number {
  let sum = 0;
  for (let m = 0; m < row.length; m++) sum += row[m]! * values[m]!;
  return sum;
}

/** As if the gap were the same everywhere; null without film. */
function evenIntegrals(system: CoupledSystem, state: DeviceState): Omit<FilmIntegrals, "gap"> | null {
  const { microphone, prepared, ones } = system;
  const { film, back, pushes } = state;
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
  const sunk = sunkIntegrals(system, state).film;
  return {
    gradient: quarter * (2 / across) ** 2 * gradient + sunk.gradient,
    // Where an even pressure is all there is, it and the film's own are equal and opposite: no less than nothing is left.
    pressure: quarter * Math.max(0, over + 4 * squared(back) + 2 * (back.re * sumRe + back.im * sumIm)) + sunk.pressure,
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
  const { film, air } = system.microphone;
  const tone = { air, omega: state.omega.re };
  const all = filmIntegrals(system, state).map((integrals) => lossesAt(system, state, integrals));
  const sum = (part: "filmFriction" | "filmHeat" | "wall") => all.reduce((total, one) => total + one[part], 0);
  // One hole is no property of the area.
  const bored =
    film?.backPlate?.kind === "hole"
      ? holeLoss({ ...film.backPlate.hole, ...tone }) * squared(wallFlow(system, state))
      : 0;
  return { filmFriction: sum("filmFriction"), filmHeat: sum("filmHeat"), wall: sum("wall") + bored };
}

/** What has one gap. */
function lossesAt(
  { microphone: { film, air } }: CoupledSystem,
  { omega }: DeviceState,
  { gap, gradient, pressure, through }: FilmIntegrals,
) {
  const tone = { air, omega: omega.re };
  const { viscous, thermal } = filmLoss({ gap, ...tone });
  const filmHeat = thermal * pressure;
  const wall = film?.backPlate;
  if (!wall || wall.kind === "hole") return { filmFriction: viscous * gradient, filmHeat, wall: 0 };
  const { psi } = filmCoefficients({ gap, air, omega });
  const velocity = squared(wallAdmittance(wall, { air, omega, psi })) * through;
  if (wall.kind === "admittance")
    return {
      filmFriction: viscous * gradient,
      filmHeat,
      wall: wall.admittance === 0 ? 0 : velocity / (2 * wall.admittance),
    };
  const { pitch, ...hole } = wall.holes;
  // In each round cell the flow u (R^2 - r^2) / (2 r) runs to its hole: integral of |grad p|^2 over its area is R^2 B |u / Psi|^2.
  const radial = (pitch * pitch * skvorB(porosity(wall.holes))) / Math.PI / squared(psi);
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
  const { front, back, film, diaphragm } = microphone;
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
    const numbers = filmNumbers(microphone, scales, omega);
    const passes = storing(system, system.ones, numbers, "through");
    let through = complex(0);
    for (let m = 0; m < system.ones.length; m++) {
      const over = {
        re: state.film.re[m]! - system.ones[m]! * pushes.wall.re,
        im: state.film.im[m]! - system.ones[m]! * pushes.wall.im,
      };
      through = add(through, multiply({ re: passes.re[m]!, im: passes.im[m]! }, over));
    }
    power -= mean(pushes.wall, scale(through, (diaphragm.across * diaphragm.along) / 4));
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
