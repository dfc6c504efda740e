/** Heat in the phase of the light, of the whole device; and of a resonator, a tube and a cavity by themselves. */

import { lineAnswer, lineSystem } from "../src/core/microphone/noise/lineAnswer.ts";
import { lossesUnderLight } from "../src/core/microphone/noise/thermalParts.ts";
import { type Losses, totalLoss } from "../src/core/microphone/response/losses.ts";
import { deviceAt } from "../src/core/microphone/system/coupled.ts";
import { type Complex, complex, divide } from "../src/core/numerics/complex.ts";
import { cavityAdmittance } from "../src/core/parts/acoustics/cavity.ts";
import { holeImpedance } from "../src/core/parts/acoustics/tube.ts";
import { frequencyRule } from "../src/core/quantity/frequencyRule.ts";
import { fluctuation, nyquist } from "../src/core/quantity/nyquist.ts";
import { wholeDevice, workedAir } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const source =
  "two methods of other hands; whole worked case without loss factor at 296.15 K; mu 1.83e-5, rho 1.186, gamma 1.4, Pr 0.71, no slip";
const temperature = 296.15;
const kT = 1.380649e-23 * temperature;

let kept: ReturnType<typeof lineSystem> | null = null;
function heat(frequency: number, which: "total" | "odd"): number {
  kept ??= lineSystem(wholeDevice(0));
  const omega = 2 * Math.PI * frequency;
  return 1e9 * Math.sqrt(fluctuation(lineAnswer(kept, complex(omega))[which], omega, temperature));
}

/** The same by the power that a unit of the light's own load loses, part by part: 8 k T / omega^2 times it. */
function heatOfParts(frequency: number, part?: keyof Losses): number {
  const omega = 2 * Math.PI * frequency;
  // Twelve functions: read without the influence function, the line converges slower.
  const functions = { across: 12, along: 12 };
  keptParts ??= lineSystem(wholeDevice(0), { functions, fine: { across: 36, along: 36 }, filmTerms: 36 });
  const losses = [keptParts.even.system, keptParts.odd.system].map((system) => lossesUnderLight(system, omega));
  if (part) {
    const [even] = losses;
    return even ? even[part] / totalLoss(even) : Number.NaN;
  }
  const power = losses.reduce((sum, one) => sum + totalLoss(one), 0);
  return 1e9 * Math.sqrt((8 * kT * power) / omega ** 2);
}
let keptParts: ReturnType<typeof lineSystem> | null = null;

/** |S| [rad/Pa]. */
function responseSize(frequency: number): number {
  kept ??= lineSystem(wholeDevice(0));
  const { response } = deviceAt(kept.even.system, kept.even.line, complex(2 * Math.PI * frequency));
  return Math.hypot(response.re, response.im);
}

/** f [Hz], phase noise, its odd part [nrad/sqrt(Hz)], and the first over |S| [uPa/sqrt(Hz)]. */
const spectrum: readonly (readonly [number, number, number, number])[] = [
  [100, 0.87313, 0.193, 1.8487],
  [1000, 0.79849, 0.193, 1.621],
  [10000, 1.4278, 0.233, 2.8526],
];

/** Integral of a density over all frequencies, in equal ratios. */
function integral(density: (omega: number) => number, from: number, to: number): number {
  const { f, df } = frequencyRule(from, to, { points: 20 });
  let sum = 0;
  for (let i = 0; i < f.length; i++) sum += density(2 * Math.PI * f[i]!) * df[i]!;
  return sum;
}

/** A mass on a spring with friction: 1 / (K - omega^2 M + i omega R). */
const spring = { stiffness: 20, mass: 1e-9, resistance: 2e-5 };
const oneMode = (omega: number): Complex =>
  divide(complex(1), complex(spring.stiffness - omega ** 2 * spring.mass, omega * spring.resistance));

const tube = { diameter: 50e-6, length: 2e-3, ends: "none" as const };
const cavity = { volume: 1e-9, surface: 6e-6 };

export const rows: readonly TruthRow[] = [
  ...spectrum.flatMap(([frequency, total, odd, pressure]): TruthRow[] => [
    {
      what: `whole device, thermal noise of the phase at ${frequency} Hz [nrad/sqrt(Hz)]`,
      got: () => heat(frequency, "total"),
      expected: total,
      within: (frequency === 10000 ? 0.6e-4 : 0.6e-5) / total,
      why: "half the last digit given",
      origin: "independent method",
      source,
    },
    {
      what: `whole device, thermal noise of the phase by the power lost in its parts at ${frequency} Hz [nrad/sqrt(Hz)]`,
      got: () => heatOfParts(frequency),
      expected: total,
      within: (frequency === 10000 ? 0.6e-4 : 0.6e-5) / total,
      why: "half the last digit given",
      origin: "independent method",
      source,
    },
    {
      what: `whole device, its part from shapes odd across the guide at ${frequency} Hz [nrad/sqrt(Hz)]`,
      got: () => heat(frequency, "odd"),
      expected: odd,
      within: 0.6e-3 / odd,
      why: "half the last digit given",
      origin: "independent method",
      source,
    },
    {
      what: `whole device, thermal noise over the response at ${frequency} Hz [uPa/sqrt(Hz)]`,
      got: () => heat(frequency, "total") / 1e3 / responseSize(frequency),
      expected: pressure,
      within: 0.6e-4 / pressure,
      why: "half the last digit given",
      origin: "independent method",
      source,
    },
  ]),
  {
    what: "whole device, share of the film in the even part at 1 kHz [-]",
    got: () => heatOfParts(1000, "filmFriction") + heatOfParts(1000, "filmHeat"),
    expected: 0.94,
    within: 0.005 / 0.94,
    why: "half the last digit given",
    origin: "independent method",
    source,
  },
  {
    what: "whole device, share of the hole in the even part at 1 kHz [-]",
    got: () => heatOfParts(1000, "frontHoles"),
    expected: 0.05,
    within: 0.005 / 0.05,
    why: "half the last digit given",
    origin: "independent method",
    source,
  },
  {
    what: "mass on a spring, integral of its thermal noise over k T / K [-]",
    got: () =>
      integral((omega) => fluctuation(oneMode(omega), omega, temperature), 1e-3, 1e9) / (kT / spring.stiffness),
    expected: 1,
    within: 1e-6,
    why: "equipartition; ends of the integral leave 1e-8",
    origin: "exact",
    source: "equipartition of energy",
  },
  {
    what: "narrow tube at 10 Hz, thermal noise of the pressure across it [uPa/sqrt(Hz)]",
    got: () =>
      1e6 *
      Math.sqrt(nyquist(holeImpedance({ ...tube, air: workedAir, omega: complex(20 * Math.PI) }).re, temperature)),
    expected: 1e6 * Math.sqrt((4 * kT * 8 * workedAir.viscosity * tube.length) / (Math.PI * (tube.diameter / 2) ** 4)),
    within: 1e-5,
    why: "friction of slow flow; at 10 Hz the rest is 1e-6",
    origin: "exact",
    source: "Poiseuille's law and 4 k T R",
  },
  {
    what: "closed cavity, pressure fluctuation from heat to its walls over k T (gamma - 1) P0 / V [-]",
    got: () =>
      integral(
        (omega) =>
          nyquist(
            divide(complex(1), cavityAdmittance({ ...cavity, air: workedAir, omega: complex(omega) })).re,
            temperature,
          ),
        1e-4,
        1e16,
      ) /
      ((kT * (workedAir.heatRatio - 1) * workedAir.pressure) / cavity.volume),
    expected: 1,
    within: 1e-5,
    why: "ends of the integral, which falls like f^(-1/2)",
    origin: "exact",
    source:
      "k T times the stiffness of air without less with exchange of heat: Landau and Lifshitz, Statistical Physics, section 112 (from memory, to be confirmed)",
  },
];
