/** Which part a level depends on: each part a per cent larger, everything else as it was. */
import { complex } from "../../numerics/complex.ts";
import type { Hole } from "../../parts/acoustics/acoustics.ts";
import type { Microphone } from "../microphone.ts";
import { coupledSystem, plateAnswers, responseIn, setFrequency, stateAround } from "../system/coupled.ts";
import type { Line } from "../system/line.ts";
import type { Prepared } from "../system/prepare.ts";

/** "plate": its mass; "film": gap; holes, vent, leak, wall: their openings; cavities: volume and wall. */
export type Part = "plate" | "film" | "wall" | "frontHoles" | "frontCavity" | "backCavity" | "vent" | "leak";

export interface Influence {
  readonly part: Part;
  /** Change of the level at the frequency re the level at the reference, for a part 10 % larger [dB], to first order. */
  readonly decibels: number;
}

/** For each frequency the level re that at `reference` [Hz], the strongest part first; parts that are not there are left out. */
export function influences(
  prepared: Prepared,
  microphone: Microphone,
  line: Line,
  { frequencies, reference }: { readonly frequencies: readonly number[]; readonly reference: number },
): readonly (readonly Influence[])[] {
  const larger = enlarged(microphone);
  const parts = Object.keys(larger) as Part[];
  const sizes = [reference, ...frequencies].map(
    sizesAt(prepared, line, [microphone, ...parts.map((part) => larger[part]!)]),
  );
  const levels = (which: number): readonly number[] =>
    frequencies.map((_, i) => 20 * Math.log10(sizes[i + 1]![which]! / sizes[0]![which]!));
  const now = levels(0);
  const then = parts.map((part, i) => ({ part, levels: levels(i + 1) }));
  return now.map((level, i) =>
    then
      .map(({ part, levels: other }) => ({ part, decibels: ((other[i]! - level) / (step - 1)) * 0.1 }))
      .sort((a, b) => Math.abs(b.decibels) - Math.abs(a.decibels)),
  );
}

/** |S| of each device at a frequency; those with the plate and film of an earlier one are solved with them. */
function sizesAt(prepared: Prepared, line: Line, devices: readonly Microphone[]) {
  const kinds = devices.map((one) =>
    devices.findIndex(({ diaphragm, film }) => diaphragm === one.diaphragm && film === one.film),
  );
  const systems = devices.map((one, i) => (kinds[i] === i ? coupledSystem(prepared, one) : null));
  return (frequency: number): readonly number[] => {
    const omega = complex(2 * Math.PI * frequency);
    const answers = systems.map((system) => {
      if (system === null) return null;
      setFrequency(system, omega);
      return plateAnswers(system, omega);
    });
    return devices.map((one, i) => {
      const system = systems[kinds[i]!]!;
      const { re, im } = responseIn(system, line, stateAround(system, answers[kinds[i]!]!, omega, one), omega);
      return Math.hypot(re, im);
    });
  };
}

const step = 1.01;

function enlarged(microphone: Microphone): Partial<Record<Part, Microphone>> {
  const { diaphragm, film, front, back } = microphone;
  const wider = (hole: Hole): Hole => ({ ...hole, diameter: hole.diameter * step });
  const cavity = front?.cavity;
  const behind = back?.cavity;
  const plate = film?.backPlate;
  return {
    plate: { ...microphone, diaphragm: { ...diaphragm, density: diaphragm.density * step } },
    ...(film && { film: { ...microphone, film: { ...film, gap: film.gap * step } } }),
    ...(film &&
      plate && {
        wall: {
          ...microphone,
          film: {
            ...film,
            backPlate:
              plate.kind === "admittance"
                ? { ...plate, admittance: plate.admittance * step }
                : plate.kind === "holes"
                  ? { ...plate, holes: { ...plate.holes, diameter: plate.holes.diameter * step } }
                  : { ...plate, hole: wider(plate.hole) },
          },
        },
      }),
    ...(front &&
      front.holes.length > 0 && { frontHoles: { ...microphone, front: { ...front, holes: front.holes.map(wider) } } }),
    ...(front && cavity && { frontCavity: { ...microphone, front: { ...front, cavity: swollen(cavity) } } }),
    ...(back && behind && { backCavity: { ...microphone, back: { ...back, cavity: swollen(behind) } } }),
    ...(back?.vent && {
      vent: {
        ...microphone,
        back: {
          ...back,
          vent:
            back.vent.shape === "round"
              ? { ...back.vent, diameter: back.vent.diameter * step }
              : { ...back.vent, height: back.vent.height * step },
        },
      },
    }),
    ...(back?.leak && {
      leak: { ...microphone, back: { ...back, leak: { ...back.leak, height: back.leak.height * step } } },
    }),
  };
}

const swollen = (cavity: { readonly volume: number; readonly surface: number }) => ({
  volume: cavity.volume * step,
  surface: cavity.surface * step,
});
