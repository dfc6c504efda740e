/** What an accelerated frame does to the light: the phase per acceleration, and the sound level that reads the same. */
import { add, type Complex, complex, multiply, scale, subtract } from "../../numerics/complex.ts";
import { type ReducedLine, type ReducedSystem, reducedSides } from "../basis/reduced.ts";
import { type CoupledSystem, setFrequency } from "../system/coupled.ts";
import type { Line } from "../system/line.ts";
import { lumpedParts, portMatrix, solvePorts } from "../system/network.ts";
import { pushedFlow, pushesOf, readState, stateAt, stored, wallOverFilm } from "../system/state.ts";

/** Phase per acceleration of the frame toward +z [rad/(m/s2)], in the whole basis. */
export function accelerationAt(system: CoupledSystem, line: Line, omega: Complex): Complex {
  setFrequency(system, omega);
  return readState(system, line, stateAt(system, omega, { acceleration: complex(1) }));
}

/**
 * The same in a reduced basis: the push on the air in the wall acts as the pressure behind does (state.ts). Under a bent
 * diaphragm that is so only on average; the push is some per cent of the plate's own.
 */
export function reducedAccelerationAt(system: ReducedSystem, line: ReducedLine, omega: Complex): Complex {
  const { microphone, basis } = system;
  const pushes = pushesOf(microphone, complex(1));
  const wall = multiply(pushes.wall, wallOverFilm(system, omega));
  const { byFront, byBack, ports } = reducedSides(system, line, omega);
  const onPlate = subtract(pushes.plate, wall);
  const entering = {
    front: scale(
      add(
        pushedFlow(microphone, pushes, omega),
        add(multiply(onPlate, ports.frontFront), multiply(wall, ports.frontBack)),
      ),
      -1,
    ),
    back: subtract(
      add(multiply(onPlate, ports.frontBack), multiply(wall, ports.backBack)),
      multiply(wall, subtract(stored(system, omega), ports.film)),
    ),
  };
  const lumped = lumpedParts(microphone, omega, basis.nearField);
  const { front, back } = solvePorts(portMatrix(lumped, ports), entering, complex(0));
  return subtract(multiply(byFront, add(onPlate, front)), multiply(byBack, subtract(back, wall)));
}

/**
 * Sound level that reads as 1 m/s2, dB re 20 uPa: 20 log10(|phase per acceleration| / |S| / 20 uPa). Both root mean square or
 * both peak. Null where the light reads neither.
 */
export function equivalentLevelDb(acceleration: Complex, response: Complex): number | null {
  const [shaken, heard] = [Math.hypot(acceleration.re, acceleration.im), Math.hypot(response.re, response.im)];
  return shaken > 0 && heard > 0 ? 20 * Math.log10(shaken / heard / 20e-6) : null;
}
