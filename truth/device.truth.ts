/** The whole device: diaphragm, open film, front hole and cavity, back cavity and vent, in one system. */

import { findPoles } from "../src/core/microphone/poles/poles.ts";
import { coupledSystem, deviceAt } from "../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../src/core/microphone/system/line.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { holeImpedance } from "../src/core/parts/acoustics/tube.ts";
import { plateModes } from "../src/core/parts/diaphragm/modes.ts";
import { wholeDevice as device } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const source =
  "spectral and finite-element solutions agree to 1e-5; air: mu 1.83e-5, rho 1.186, gamma 1.4, Pr 0.71, no slip";

let kept: ReturnType<typeof solve> | null = null;
function solve() {
  const microphone = device(0.001);
  const prepared = prepare(microphone);
  const line = prepareLine(prepared, microphone);
  const system = coupledSystem(prepared, microphone);
  return { at: (frequency: number) => deviceAt(system, line, complex(2 * Math.PI * frequency)), line, microphone };
}
const solved = () => {
  kept ??= solve();
  return kept;
};

const magnitude = (frequency: number) => {
  const { response } = solved().at(frequency);
  return 1e3 * Math.hypot(response.re, response.im);
};
const angle = (frequency: number) => {
  const { response } = solved().at(frequency);
  return (Math.atan2(response.im, response.re) * 180) / Math.PI;
};

const responses: readonly (readonly [number, number, number])[] = [
  [20, 0.47251, 179.8],
  [100, 0.47229, 179.73],
  [1000, 0.49256, 177.98],
  [5000, 2.72542, 137.57],
  [10000, 0.50004, -26.32],
  [20000, 0.01303, -147.78],
];

const poles: readonly (readonly [number, number, number])[] = [
  [0, 5470.9, 0.06886],
  [1, 11938, 0.13809],
];

export const rows: readonly TruthRow[] = [
  ...responses.flatMap(([frequency, size, degrees]): TruthRow[] => [
    {
      what: `whole device, |S| at ${frequency} Hz [mrad/Pa]`,
      got: () => magnitude(frequency),
      expected: size,
      within: 0.6e-5 / size,
      why: "half the last digit given",
      origin: "independent method",
      source,
    },
    {
      what: `whole device, arg S at ${frequency} Hz [deg]`,
      got: () => angle(frequency),
      expected: degrees,
      within: Math.abs(0.006 / degrees),
      why: "half the last digit given",
      origin: "independent method",
      source,
    },
  ]),
  {
    what: "whole device, diaphragm in vacuum, first frequency [kHz]",
    got: () => (plateModes(device(0).diaphragm, { functions: 10, upTo: 1 })[0]?.omega ?? Number.NaN) / (2000 * Math.PI),
    expected: 12.461,
    within: 5e-5,
    why: "last digit given",
    origin: "independent method",
    source,
  },
  {
    what: "whole device, bare plate, static [mrad/Pa]",
    got: () => 1e3 * solved().line.static,
    expected: -0.47598,
    within: 1.1e-5,
    why: "half the last digit given",
    origin: "independent method",
    source,
  },
  ...(
    [
      ["p_f, real", () => solved().at(1000).front.re, 1.03559],
      ["p_f, imaginary", () => solved().at(1000).front.im, -0.01022],
      ["p_b, real", () => solved().at(1000).back.re, 0.00888],
      ["p_b, imaginary", () => solved().at(1000).back.im, -0.00024],
    ] as const
  ).map(
    ([what, got, expected]): TruthRow => ({
      what: `whole device at 1 kHz, ${what} [Pa/Pa]`,
      got,
      expected,
      within: 0.6e-5 / Math.abs(expected),
      why: "half the last digit given",
      origin: "independent method",
      source,
    }),
  ),
  {
    what: "whole device, Z_h at 1 kHz, real [Pa s/m3]",
    got: () =>
      holeImpedance({
        diameter: 0.5e-3,
        length: 0.5e-3,
        ends: "piston",
        air: device(0).air,
        omega: complex(2000 * Math.PI),
      }).re,
    expected: 7.931e6,
    within: 7e-5,
    why: "half the last digit given",
    origin: "independent method",
    source,
  },
  ...poles.flatMap(([i, frequency, damping]): TruthRow[] => {
    const pole = () => {
      const microphone = device(0);
      return findPoles(prepare(microphone), microphone).oscillating[i];
    };
    return [
      {
        what: `whole device, loss factor 0, pole ${i + 1} [Hz]`,
        got: () => pole()?.frequency ?? Number.NaN,
        expected: frequency,
        within: 5e-5,
        why: "half the last digit given",
        origin: "independent method",
        source,
      },
      {
        what: `whole device, loss factor 0, pole ${i + 1}, damping ratio [-]`,
        got: () => pole()?.dampingRatio ?? Number.NaN,
        expected: damping,
        within: 1e-4,
        why: "half the last digit given",
        origin: "independent method",
        source,
      },
    ];
  }),
];
