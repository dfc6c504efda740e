/** Devices drawn at random from a seed, over what the engine has to answer for: the same ones every time. */
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { bendingStiffness } from "../../src/core/parts/diaphragm/shape.ts";
import { workedAir, workedDiaphragm, workedGuide, workedMicrophone } from "../../truth/devices.ts";

export interface EngineDevice {
  readonly microphone: Microphone;
  /** What was drawn, for people. */
  readonly says: string;
}

/** Kinds of film edges, (sides, ends). */
const films = [
  ["open", "open"],
  ["closed", "closed"],
  ["open", "closed"],
  ["closed", "open"],
] as const;

/** Places of the guide over the side. */
const places = [0, 0.31, 0.45, 0.5];

/**
 * Clamped glass, across 2 to 12 mm, along over across 0.5 to 3, thickness 0.002 to 0.025 of across, loss factor 1e-3 (or
 * `lossFactor`), gap 5 um to 0.5 mm in equal ratios with slip; every kind of film edge with every place of the guide by turns.
 * `perShape` devices in a row share plate and kind of film edges and differ in gap and guide. With `tension` every fourth
 * shape is stretched, up to N a^2 / D = 200 in both directions.
 */
export function engineDevices(
  count: number,
  seed: number,
  options: { readonly perShape?: number; readonly tension?: boolean; readonly lossFactor?: number } = {},
): readonly EngineDevice[] {
  const uniform = seededUniform(seed);
  const logarithmic = (from: number, to: number) => from * (to / from) ** uniform();
  const { perShape = 1 } = options;
  return Array.from({ length: Math.ceil(count / perShape) }, (_, shape) => {
    const across = logarithmic(2e-3, 12e-3);
    const along = across * logarithmic(0.5, 3);
    const thickness = across * logarithmic(0.002, 0.025);
    const pull = 200 * uniform();
    const [sides, ends] = films[shape % 4]!;
    const sheet = workedDiaphragm(across, along, thickness, options.lossFactor ?? 1e-3);
    // Not always the same kind of film.
    const stretched = options.tension === true && shape % 4 === Math.floor(shape / 4) % 4;
    const tension = stretched ? (pull * bendingStiffness(sheet).d11) / across ** 2 : 0;
    return Array.from({ length: perShape }, (_, k): EngineDevice => {
      const gap = logarithmic(5e-6, 0.5e-3);
      const place = places[(Math.floor(shape / 4) + k) % 4]!;
      const base = workedMicrophone({ across, along, thickness, gap });
      return {
        microphone: {
          ...base,
          diaphragm: { ...sheet, tension: { across: tension, along: tension } },
          guides: [{ ...workedGuide(place * across), depth: 0.1 * thickness }],
          air: { ...workedAir, meanFreePath: 67e-9 },
          film: base.film && { ...base.film, edges: { sides, ends } },
        },
        says:
          `${String(shape * perShape + k + 1).padStart(2)}  ${(1e3 * across).toFixed(2)} x ${(1e3 * along).toFixed(2)} mm, ` +
          `${(1e6 * thickness).toFixed(1)} um, ${stretched ? `tension ${pull.toFixed(0)}, ` : ""}` +
          `film ${(1e6 * gap).toFixed(1)} um ${sides}/${ends}, guide ${place} a`,
      };
    });
  })
    .flat()
    .slice(0, count);
}

/** The same microphone with another gap. */
export function withGap(microphone: Microphone, gap: number): Microphone {
  const { film } = microphone;
  return film === null ? microphone : { ...microphone, film: { ...film, gap } };
}
