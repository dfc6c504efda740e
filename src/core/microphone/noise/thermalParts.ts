/**
 * Whose heat it is: the power that each part loses under the load that is conjugate to the phase.
 *
 *     S_phi = (8 k T / omega^2) sum of the powers lost, for a load c of amplitude 1
 *
 * The second route to thermalNoise.ts, through the fields in the parts and not through the matrix. Derivation: docs/theory/noise.md.
 */
import { complex } from "../../numerics/complex.ts";
import { boltzmann } from "../../quantity/constants.ts";
import { type Losses, lossesOf, lossParts } from "../response/losses.ts";
import { type CoupledSystem, setFrequency } from "../system/coupled.ts";
import { guideVector } from "../system/line.ts";
import { stateAt } from "../system/state.ts";
import type { LineSystem } from "./lineAnswer.ts";

/** Mean power by part under the light's own load of amplitude 1, in one class at an angular frequency [W]. */
export function lossesUnderLight(system: CoupledSystem, omega: number): Losses {
  const { microphone, prepared } = system;
  const { across, along } = microphone.diaphragm;
  const c = guideVector(prepared.plate, microphone);
  const load = { re: c.map((value) => value / ((across * along) / 4)), im: new Float64Array(c.length) };
  setFrequency(system, complex(omega));
  return lossesOf(system, stateAt(system, complex(omega), { load }));
}

/** Thermal noise by part at a frequency [rad^2/Hz], even and odd shapes together. */
export function thermalParts({ even, odd }: LineSystem, frequency: number, temperature: number): Losses {
  const omega = 2 * Math.PI * frequency;
  const [one, other] = [lossesUnderLight(even.system, omega), lossesUnderLight(odd.system, omega)];
  const factor = (8 * boltzmann * temperature) / omega ** 2;
  const parts = lossParts.map((part) => [part, factor * (one[part] + other[part])] as const);
  return Object.fromEntries(parts) as Record<keyof Losses, number>;
}
