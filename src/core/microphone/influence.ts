/** Which part a level depends on: each part a per cent larger, everything else as it was. */
import { complex } from "../numerics/complex.ts";
import type { Hole } from "../parts/acoustics/acoustics.ts";
import { coupledSystem, deviceAt } from "./coupled.ts";
import type { Line } from "./line.ts";
import type { Microphone } from "./microphone.ts";
import type { Prepared } from "./prepare.ts";

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
  const levels = (one: Microphone): readonly number[] => {
    const system = coupledSystem(prepared, one);
    const size = (at: number) => {
      const { re, im } = deviceAt(system, line, complex(2 * Math.PI * at)).response;
      return Math.hypot(re, im);
    };
    const against = size(reference);
    return frequencies.map((frequency) => 20 * Math.log10(size(frequency) / against));
  };
  const now = levels(microphone);
  const larger = enlarged(microphone);
  const then = (Object.keys(larger) as Part[]).map((part) => ({ part, levels: levels(larger[part]!) }));
  return now.map((level, i) =>
    then
      .map(({ part, levels: other }) => ({ part, decibels: ((other[i]! - level) / (step - 1)) * 0.1 }))
      .sort((a, b) => Math.abs(b.decibels) - Math.abs(a.decibels)),
  );
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
