/** Where the power goes: shares that another solution gave, and the power that tubes and gaps take by closed forms. */

import { type Losses, lossesOf, lossShares, totalLoss } from "../src/core/microphone/response/losses.ts";
import { coupledSystem, setFrequency } from "../src/core/microphone/system/coupled.ts";
import { guideVector } from "../src/core/microphone/system/line.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { stateAt } from "../src/core/microphone/system/state.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { holeLoss, slitLoss } from "../src/core/parts/acoustics/lumpedLoss.ts";
import { filmLoss } from "../src/core/parts/film/filmLoss.ts";
import { workedAir as air, wholeDevice } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Even shapes under the load of the light, at 1 kHz, loss factor 0. */
function underTheLight(): Losses {
  const microphone = wholeDevice(0);
  const system = coupledSystem(prepare(microphone), microphone);
  const omega = complex(2000 * Math.PI);
  setFrequency(system, omega);
  const c = guideVector(system.prepared.plate, microphone);
  return lossesOf(system, stateAt(system, omega, { load: { re: c, im: new Float64Array(c.length) } }));
}

const shares = () => lossShares(underTheLight())!;

const worked = "whole device by spectral and finite-element solutions, with its thermal noise";
const slow = 1e-3;

export const rows: readonly TruthRow[] = [
  {
    what: "whole device at 1 kHz under the light's own load, even shapes: the film's share of the losses [-]",
    got: () => shares().filmFriction + shares().filmHeat,
    expected: 0.94,
    within: 0.005 / 0.94,
    why: "half the last digit given",
    origin: "independent method",
    source: worked,
  },
  {
    what: "the same, the front hole's share [-]",
    got: () => shares().frontHoles,
    expected: 0.05,
    within: 0.1,
    why: "half the last digit given",
    origin: "independent method",
    source: worked,
  },
  {
    // S_phi = (8 k T / omega^2) P for a unit load c; here the load is c [rad/m] over a quarter of the area.
    what: "the same as noise of the even shapes: (8 k T / omega^2) times all losses, square root [nrad/sqrt(Hz)]",
    got: () => {
      const { across, along } = wholeDevice(0).diaphragm;
      const perUnit = totalLoss(underTheLight()) / ((across * along) / 4) ** 2;
      return 1e9 * Math.sqrt((8 * 1.380649e-23 * 296.15 * perUnit) / (2000 * Math.PI) ** 2);
    },
    expected: Math.sqrt(0.79849 ** 2 - 0.193 ** 2),
    within: 2e-4,
    why: "three digits given of the odd part, a sixteenth of the power",
    origin: "independent method",
    source: worked,
  },
  {
    what: "narrow hole, slow: power over 4 mu l / (pi r^4) |U|^2 [-]",
    got: () =>
      holeLoss({ diameter: 1e-4, length: 1e-3, air, omega: slow }) /
      ((4 * air.viscosity * 1e-3) / (Math.PI * 5e-5 ** 4)),
    expected: 1,
    within: 1e-9,
    why: "next order in (radius over layer)^4",
    origin: "exact",
    source: "Poiseuille's law, half of 8 mu l / (pi r^4) for an amplitude",
  },
  {
    what: "slit, slow: power over 6 mu l / (b g^3) |U|^2 [-]",
    got: () =>
      slitLoss({ height: 1e-5, width: 1e-3, length: 1e-3, air, omega: slow }) /
      ((6 * air.viscosity * 1e-3) / (1e-3 * 1e-5 ** 3)),
    expected: 1,
    within: 1e-9,
    why: "next order in (height over layer)^4",
    origin: "exact",
    source: "flow between parallel walls, half of 12 mu l / (b g^3) for an amplitude",
  },
  {
    what: "film, slow: power over g^3 / (24 mu) |grad p|^2 [-]",
    got: () => filmLoss({ gap: 2e-5, air, omega: slow }).viscous / (2e-5 ** 3 / (24 * air.viscosity)),
    expected: 1,
    within: 1e-9,
    why: "next order in (gap over layer)^4",
    origin: "exact",
    source: "flow between parallel walls",
  },
  {
    what: "wide gap, 20 kHz: heat lost over the two walls' share, (omega / 2) layer (gamma - 1) / (2 gamma P0) |p|^2 [-]",
    got: () => {
      const omega = 40e3 * Math.PI;
      const layer = Math.sqrt((2 * air.viscosity) / (air.density * air.prandtl * omega));
      const walls = (2 * omega * layer * (air.heatRatio - 1)) / (4 * air.heatRatio * air.pressure);
      return filmLoss({ gap: 3e-3, air, omega }).thermal / walls;
    },
    expected: 1,
    within: 1e-12,
    why: "the layers are a hundredth of the gap",
    origin: "exact",
    source: "thermal boundary layer on a wall, absorbed power per area (Kirchhoff; from memory, to be confirmed)",
  },
];
