/** Sound about a static pressure difference, in the one system of the whole device; the small-level terms of the phase. */
import { coupledSystem, responseAt } from "../src/core/microphone/coupled.ts";
import { prepareLine } from "../src/core/microphone/line.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { prepare } from "../src/core/microphone/prepare.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { workedGuide, workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const [side, thickness, modulus] = [5e-3, 30e-6, 72.9e9];
/** q = Q E h^4 / a^4 [Pa]. */
const pressure = (load: number) => (load * modulus * thickness ** 4) / side ** 4;

/** Clamped square of glass, nu 0.21; a guide in the front face itself. */
function loaded(load: number, x: number): Microphone {
  const bare = workedMicrophone({ across: side, thickness, gap: null });
  const guide = { ...workedGuide(x * side), depth: 0 };
  return { ...bare, guides: [guide], load: { difference: pressure(load) } };
}

/** |S| far below the resonance, from the coupled system, signed. */
function slow(microphone: Microphone): number {
  const prepared = prepare(microphone);
  const line = prepareLine(prepared, microphone);
  return responseAt(coupledSystem(prepared, microphone), line, complex(2 * Math.PI * 1)).re;
}

const source = "full von Karman solution by another program, immovable edges, nu 0.21, front face";
const shares = [
  [7, 0, 0.9076],
  [7, 0.45, 1.0214],
  [7, 0.5, 1.0124],
  [-3.5, 0, 1.0319],
  [-3.5, 0.45, 0.9806],
  [-3.5, 0.5, 0.988],
] as const;

const atRest = shares.flatMap(([load, x, expected]): TruthRow[] => [
  {
    what: `whole system at 1 Hz, S / S0 at Q = ${load}, x/a = ${x} [-]`,
    got: () => slow(loaded(load, x)) / slow(loaded(0, x)),
    expected,
    within: 0.00006,
    why: "four digits printed",
    origin: "independent method",
    source,
  },
  {
    what: `static sensitivity about the load, S / S0 at Q = ${load}, x/a = ${x} [-]`,
    got: () => {
      const [at, none] = [loaded(load, x), loaded(0, x)];
      return prepareLine(prepare(at), at).static / prepareLine(prepare(none), none).static;
    },
    expected,
    within: 0.00006,
    why: "four digits printed",
    origin: "independent method",
    source,
  },
]);

export const rows: readonly TruthRow[] = atRest;
