/** Where the brief's loudest sound moves the air of a hole farther than its radius: jets, whose loss is not modeled. */

import { filmIntegrals, flowsOf, wallFlow } from "../../microphone/response/losses.ts";
import { type CoupledSystem, setFrequency } from "../../microphone/system/coupled.ts";
import { type DeviceState, stateAt } from "../../microphone/system/state.ts";
import { absolute, complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { wallAdmittance } from "../../parts/acoustics/perforation.ts";
import { filmCoefficients } from "../../parts/film/coefficients.ts";
import type { Problem } from "../../problem.ts";
import type { Brief } from "../../project/brief.ts";
import { formatQuantity } from "../../quantity/format.ts";

/** How far the air of a passage moves to either side [m], and half its width [m]. */
export interface Passage {
  readonly path: readonly (string | number)[];
  readonly moved: number;
  readonly radius: number;
}

/** Every hole, vent and slit in a state of amplitudes [Pa]. */
export function passagesIn(system: CoupledSystem, state: DeviceState): readonly Passage[] {
  const { front, back, film, air, diaphragm } = system.microphone;
  const { omega } = state;
  const flows = flowsOf(system, state);
  const round = (path: Passage["path"], diameter: number, flow: number): Passage => ({
    path,
    moved: flow / (absolute(omega) * (Math.PI / 4) * diameter ** 2),
    radius: diameter / 2,
  });
  const slit = (path: Passage["path"], height: number, width: number, flow: number): Passage => ({
    path,
    moved: flow / (absolute(omega) * height * width),
    radius: height / 2,
  });
  const vent = back?.vent;
  const ventPath = ["microphone", "back", "vent"];
  const plate = film?.backPlate;
  const wallPath = ["microphone", "film", "backPlate"];
  const through = filmIntegrals(system, state).reduce((sum, piece) => sum + piece.through, 0);
  return [
    ...(front?.holes ?? []).map(({ diameter }, i) =>
      round(["microphone", "front", "holes", i], diameter, absolute(flows.holes[i]!)),
    ),
    ...(vent
      ? [
          vent.shape === "round"
            ? round(ventPath, vent.diameter, absolute(flows.vent))
            : slit(ventPath, vent.height, vent.width, absolute(flows.vent)),
        ]
      : []),
    ...(back?.leak
      ? [slit(["microphone", "back", "leak"], back.leak.height, back.leak.width, absolute(flows.leak))]
      : []),
    ...(plate?.kind === "hole"
      ? [round([...wallPath, "hole"], plate.hole.diameter, absolute(wallFlow(system, state)))]
      : []),
    ...(film && plate?.kind === "holes"
      ? [
          round(
            [...wallPath, "holes"],
            plate.holes.diameter,
            plate.holes.pitch ** 2 *
              absolute(
                wallAdmittance(plate, { air, omega, psi: filmCoefficients({ gap: film.gap, air, omega }).psi }),
              ) *
              Math.sqrt(through / (diaphragm.across * diaphragm.along)),
          ),
        ]
      : []),
  ];
}

/** Remarks: `jet-loss`. The system's frequency is changed. */
export function jetRemarks(system: CoupledSystem, { loudest }: Brief): readonly Problem[] {
  if (loudest?.atLeastDb === null || loudest?.atLeastDb === undefined) return [];
  const omega = complex(2 * Math.PI * loudest.at);
  const amplitude = Math.SQRT2 * 20e-6 * pow(10, loudest.atLeastDb / 20);
  setFrequency(system, omega);
  const state = stateAt(system, omega, { sound: complex(amplitude) });
  const length = (value: number) => formatQuantity(value, "length", { digits: 2 });
  return passagesIn(system, state)
    .filter(({ moved, radius }) => moved > radius)
    .map(({ path, moved, radius }) => ({
      code: "jet-loss",
      path,
      message: `At ${formatQuantity(loudest.atLeastDb!, "decibel")} and ${formatQuantity(loudest.at, "frequency")} the air in it moves ${length(moved)} to either side, farther than half its width, ${length(radius)}: it leaves as a jet, whose loss and distortion are not modeled (docs/notModeled.md). Make it wider, or read the answer for quieter sound.`,
    }));
}
