/**
 * The whole state of the device at one frequency: what plate, film and volumes do under a drive. Losses by part (losses.ts),
 * noise by part and vibration are read from it.
 *
 * A drive is sound, a load on the plate's functions (that of the light, for noise), an acceleration of the frame, or all of
 * them together. Axes and signs as in network.ts; amplitudes of e^{i omega t}. Derivation: docs/theory/losses.md.
 */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { wallAdmittance } from "../../parts/acoustics/perforation.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import type { Microphone } from "../microphone.ts";
import {
  type BackLoad,
  backLoad,
  type CoupledSystem,
  filmNumbers,
  filmPressure,
  portsOf,
  pressed,
  readPhase,
  solveComplexLoad,
  storing,
} from "./coupled.ts";
import { flowPerAnswer } from "./coupledState.ts";
import { fromFilm } from "./filmProjection.ts";
import type { Line } from "./line.ts";
import { hasNetwork, inner, lumpedParts, portMatrix, solvePorts } from "./network.ts";

export interface Drive {
  /** Sound at the holes, at an exposed vent, or at the bare diaphragm [Pa]. */
  readonly sound?: Complex;
  /** Load on the plate's functions toward +z: `plate.load` times a pressure [Pa], or forces [N] over a quarter of the area [m2]. */
  readonly load?: ComplexVector;
  /** Acceleration of the frame toward +z [m/s2]. */
  readonly acceleration?: Complex;
}

export interface DeviceState {
  readonly omega: Complex;
  readonly drive: Drive;
  /** Deflection on the plate's functions over `scales.deflection` [Pa]. */
  readonly q: ComplexVector;
  /** Pressures before and behind the diaphragm [Pa]. */
  readonly front: Complex;
  readonly back: Complex;
  /** Pressure in the film above that behind, on the film's functions, row-major across x along [Pa]; null without film. */
  readonly film: ComplexVector | null;
  /** What the acceleration does. */
  readonly pushes: Pushes;
}

/** The acceleration of the frame as pressures, toward +z in the frame's own axes [Pa]. */
export interface Pushes {
  /** On the plate: minus its mass and half that of the film, per area. */
  readonly plate: Complex;
  /** On the air in each front hole. */
  readonly holes: readonly Complex[];
  /** On the air in holes of the wall behind the film. */
  readonly wall: Complex;
}

/**
 * Solves the state at the frequency that was set with `setFrequency`; it may be complex [rad/s].
 * A class odd across has no net flow, so that its load sees no pressures from holes or volumes.
 */
export function stateAt(system: CoupledSystem, omega: Complex, drive: Drive): DeviceState {
  const { microphone, prepared } = system;
  const uniform = real(prepared.plate.load);
  const sound = drive.sound ?? complex(0);
  const pushes = pushesOf(microphone, drive.acceleration ?? complex(0));
  const behind = backLoad(system, omega);
  const wall = wallPush(system, omega, behind, pushes.wall);
  const load = copy(drive.load ?? { re: uniform.re.map(() => 0), im: uniform.im });
  addTimes(load, uniform, pushes.plate);
  if (wall) addTimes(load, onPlate(system, wall.drop), complex(-1));
  const alone = solveComplexLoad(system, load);
  const onFront = solveComplexLoad(system, uniform);
  const onBack = solveComplexLoad(system, behind.load);
  let [front, back] = [sound, complex(0)];
  if (hasNetwork(microphone)) {
    const lumped = lumpedParts(microphone, omega, prepared.nearField);
    const flow = flowPerAnswer(system, omega);
    const entering = {
      front: subtract(
        subtract(multiply(lumped.front?.source ?? complex(0), sound), pushedFlow(microphone, pushes, omega)),
        multiply(flow, inner(uniform, alone)),
      ),
      back: subtract(
        add(multiply(lumped.back?.source ?? complex(0), sound), multiply(flow, inner(behind.load, alone))),
        wall?.flow ?? complex(0),
      ),
    };
    const matrix = portMatrix(lumped, portsOf(system, { onFront, onBack, behind, omega }));
    ({ front, back } = solvePorts(matrix, entering, sound));
  }
  addTimes(alone, onFront, front);
  addTimes(alone, onBack, scale(back, -1));
  const film = filmOf(system, alone, behind, scale(back, -1));
  if (film && wall) addTimes(film, wall.drop, complex(1));
  return { omega, drive, q: alone, front, back, film, pushes };
}

/** Phase of the light in a state driven by sound and acceleration [rad], by the influence function of line.ts. */
export function readState(system: CoupledSystem, line: Line, state: DeviceState): Complex {
  const { q, front, back, film, pushes, omega } = state;
  let loaded = scale(add(subtract(front, back), pushes.plate), line.force);
  // readPhase takes the film's answer to q itself; what volumes and pushes add to its pressure comes here.
  if (film && line.film && system.prepared.film) {
    const own = filmPressure(system, system.prepared.film, q);
    for (let m = 0; m < line.film.length; m++) {
      loaded = subtract(loaded, {
        re: line.film[m]! * (film.re[m]! - own.re[m]!),
        im: line.film[m]! * (film.im[m]! - own.im[m]!),
      });
    }
  }
  return readPhase(system, line, q, omega, loaded);
}

export function pushesOf({ diaphragm, film, front, air }: Microphone, acceleration: Complex): Pushes {
  const half = (film ? film.gap * air.density : 0) / 2;
  // The air of one hole is too little to count.
  const depth = film?.backPlate?.kind === "holes" ? film.backPlate.holes.length : null;
  return {
    plate: scale(acceleration, -(diaphragm.density * diaphragm.thickness + half)),
    holes: (front?.holes ?? []).map(({ length }) => scale(acceleration, air.density * length)),
    wall: depth === null ? complex(0) : scale(acceleration, air.density * depth + half),
  };
}

/** Flow that the pushes on the front holes keep out [m3/s]. */
export function pushedFlow({ front, air }: Microphone, { holes }: Pushes, omega: Complex): Complex {
  return (front?.holes ?? []).reduce(
    (sum, hole, i) => add(sum, divide(holes[i]!, holeImpedance({ ...hole, air, omega }))),
    complex(0),
  );
}

/** y / chi of a perforated wall; 0 of a solid one. */
export function wallOverFilm(
  { microphone, scales }: Pick<CoupledSystem, "microphone" | "scales">,
  omega: Complex,
): Complex {
  const { film, air } = microphone;
  if (!film?.backPlate || film.backPlate.kind === "hole") return complex(0);
  const { psi, chi } = filmNumbers(microphone, scales, omega);
  return divide(wallAdmittance(film.backPlate, { air, omega, psi }), chi);
}

/** chi A, the flow that an even pressure stores in the film [m3/(Pa s)]. */
export function stored({ microphone, scales }: Pick<CoupledSystem, "microphone" | "scales">, omega: Complex): Complex {
  const { across, along } = microphone.diaphragm;
  return microphone.film ? scale(filmNumbers(microphone, scales, omega).chi, across * along) : complex(0);
}

/**
 * The film's pressure that a push on the air in the wall makes [Pa], and the flow that it drives into the film [m3/s]. Over an
 * even film it acts as the pressure behind does, by y / chi of it; null: no push.
 */
function wallPush(
  system: CoupledSystem,
  omega: Complex,
  behind: BackLoad,
  push: Complex,
): { readonly drop: ComplexVector; readonly flow: Complex } | null {
  const { microphone, scales, ones, relief } = system;
  if (!ones || (push.re === 0 && push.im === 0)) return null;
  if (!relief) {
    const by = multiply(push, wallOverFilm(system, omega));
    const drop = { re: behind.drop.re.map(() => 0), im: behind.drop.im.map(() => 0) };
    addTimes(drop, behind.drop, by);
    return { drop, flow: multiply(by, subtract(stored(system, omega), behind.admittance)) };
  }
  const numbers = filmNumbers(microphone, scales, omega);
  const stores = storing(system, ones, numbers, "compression");
  const passes = pressed(system, storing(system, ones, numbers, "through"));
  const drop = { re: passes.re.map(() => 0), im: passes.im.map(() => 0) };
  // chi / compression is i omega s.
  const flow = divide(numbers.chi, numbers.compression);
  addTimes(drop, passes, divide(push, flow));
  const { across, along } = microphone.diaphragm;
  return { drop, flow: multiply(scale(flow, (across * along) / 4), inner(stores, drop)) };
}

/** F - B: the load of the film's pressure below that behind, per unit of it. */
function onPlate({ prepared }: CoupledSystem, drop: ComplexVector): ComplexVector {
  const { plate, film } = prepared;
  if (!film) return { re: new Float64Array(plate.size), im: new Float64Array(plate.size) };
  return fromFilm(plate, film, drop);
}

function filmOf(system: CoupledSystem, q: ComplexVector, { drop }: BackLoad, even: Complex): ComplexVector | null {
  const { film } = system.prepared;
  if (!film) return null;
  const pressure = filmPressure(system, film, q);
  addTimes(pressure, drop, even);
  return pressure;
}

const real = (values: Float64Array): ComplexVector => ({ re: values, im: new Float64Array(values.length) });

const copy = ({ re, im }: ComplexVector): ComplexVector => ({ re: Float64Array.from(re), im: Float64Array.from(im) });

/** target += vector times factor. */
function addTimes(target: ComplexVector, vector: ComplexVector, factor: Complex): void {
  for (let i = 0; i < target.re.length; i++) {
    target.re[i]! += vector.re[i]! * factor.re - vector.im[i]! * factor.im;
    target.im[i]! += vector.re[i]! * factor.im + vector.im[i]! * factor.re;
  }
}
