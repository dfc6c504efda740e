import { absolute, type Complex, complex, divide, multiply, subtract } from "../../numerics/complex.ts";
import { type ReducedSystem, reducedPortState, setReducedFrequency } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { type CoupledSystem, portState, setFrequency } from "../system/coupled.ts";
import type { PortState } from "../system/network.ts";

/**
 * Frequency below which vent and leak let the pressure behind follow [Hz]; null without either, or where nothing stores air.
 *
 *     f_c = G / (2 pi C),   Y = G + i omega C: what the volume behind takes per pressure, front, film and diaphragm included
 *
 * at f_c itself, found by repetition from the slow limit: there as much leaves as is stored.
 */
export const ventCorner = (system: CoupledSystem): number | null =>
  cornerOf(system.microphone, (omega) => {
    setFrequency(system, omega);
    return portState(system, omega);
  });

/** The same in a reduced basis. */
export const reducedCorner = (system: ReducedSystem): number | null =>
  cornerOf(system.microphone, (omega) => {
    setReducedFrequency(system, omega);
    return reducedPortState(system, omega);
  });

function cornerOf({ back }: Microphone, stateAt: (omega: Complex) => PortState | null): number | null {
  if (!back || !(back.vent || back.leak)) return null;
  let frequency = 1e-4;
  for (let step = 0; step < 8; step++) {
    const omega = complex(2 * Math.PI * frequency);
    const state = stateAt(omega);
    if (state === null || state.back === null) return null;
    const taken =
      state.front === null || absolute(state.front) === 0
        ? state.back
        : subtract(state.back, divide(multiply(state.mixed, state.mixed), state.front));
    // A volume behind that nothing fills follows at once.
    if (!(taken.re > 0 && taken.im > 0)) return null;
    const next = (taken.re * frequency) / taken.im;
    if (!Number.isFinite(next) || next > 1e5) return null;
    if (Math.abs(next - frequency) < 1e-3 * next) return next;
    frequency = next;
  }
  return frequency;
}
