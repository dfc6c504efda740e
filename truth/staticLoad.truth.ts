/** Sound about a static pressure difference, in the one system of the whole device; the small-level terms of the phase. */

import { phaseCurve } from "../src/core/microphone/loudest/phaseCurve.ts";
import { straightnessOf } from "../src/core/microphone/loudest/straightness.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { coupledSystem, responseAt } from "../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../src/core/microphone/system/line.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
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

/** q over W = w0 / h of the flat plate, k1 E h^4 / a^4 with k1 = 68.898 for nu 0.21 [Pa]. */
const perThickness = (68.898 * modulus * thickness ** 4) / side ** 4;
const evenTerm = (x: number, expected: number): TruthRow => ({
  what: `phase ~ W (1 + r W) of the whole microphone, r at x/a = ${x}, front face [-]`,
  got: () => {
    const { linear, quadratic } = phaseCurve(loaded(0, x)).series;
    return (quadratic / linear) * perThickness;
  },
  expected,
  within: 0.0006 / Math.abs(expected),
  why: "three digits printed",
  origin: "independent method",
  source,
});

const straight: readonly TruthRow[] = [
  evenTerm(0, -0.365),
  evenTerm(0.45, 0.164),
  evenTerm(0.5, 0.1),
  {
    what: "W at which slow sound is distorted by 3 %, center, front face [-]",
    got: () => (straightnessOf(phaseCurve(loaded(0, 0))).distorted[1]?.pressure ?? Number.NaN) / perThickness,
    expected: 0.16,
    within: 0.005 / 0.16,
    why: "two digits printed; harmonics of the full curve, not of its second term alone",
    origin: "independent method",
    source: `${source}: second harmonic |r| W / 2`,
  },
  {
    what: "harmonics at W = 0.02, center: second over first / (|r| W / 2) [-]",
    got: () => {
      const [, first = 0, second = 0] = phaseCurve(loaded(0, 0)).harmonics(0.02 * perThickness);
      return Math.abs(second / first) / ((0.365 * 0.02) / 2);
    },
    expected: 1,
    within: 0.003,
    why: "r has three digits; next term of relative size W^2",
    origin: "independent method",
    source,
  },
];

export const rows: readonly TruthRow[] = [...atRest, ...straight];
