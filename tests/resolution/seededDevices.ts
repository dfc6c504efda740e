/** Devices drawn at random from a seed, over the range that a laboratory makes: the same ones every time. */

import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { bendingStiffness } from "../../src/core/parts/diaphragm/shape.ts";
import { idealLight, idealReadout } from "../../src/core/parts/readout/ideal.ts";
import { workedAir, workedDiaphragm, workedGuide } from "../../truth/devices.ts";

export interface SeededDevice {
  readonly microphone: Microphone;
  /** What was drawn, for people. */
  readonly says: string;
}

/**
 * Side 2 to 12 mm, along over across 0.5 to 3, thickness 10 to 300 um and under a tenth of the shorter side, gap 10 to 300 um,
 * both kinds of edges of plate and film by pairs, tension up to N a^2 / D = 200, guide at 0, 0.31, 0.45 or 0.5 of the side.
 * A guide on a supported side has no output at all (no moment there), so the fourth place is drawn for clamped sides only.
 */
export function seededDevices(count: number, seed: number): readonly SeededDevice[] {
  const random = xoroshiro128plus(seed);
  const uniform = (from: number, to: number) => from + (to - from) * uniformFloat64(random);
  const logarithmic = (from: number, to: number) => from * (to / from) ** uniformFloat64(random);
  const one = <T>(choices: readonly T[]): T => choices[uniformInt(random, 0, choices.length - 1)] as T;
  return Array.from({ length: count }, (_, i) => {
    const across = logarithmic(2e-3, 12e-3);
    const aspect = logarithmic(0.5, 3);
    const thickness = logarithmic(10e-6, Math.min(300e-6, 0.0999 * across * Math.min(1, aspect)));
    const sheet = workedDiaphragm(across, across * aspect, thickness, 1e-3);
    const { d11 } = bendingStiffness(sheet);
    const pull = () => one([0, uniform(0, 200)]);
    const [pullAcross, pullAlong] = [pull(), pull()];
    const edges = { sides: one(["clamped", "supported"] as const), ends: one(["clamped", "supported"] as const) };
    const film = {
      gap: logarithmic(10e-6, 300e-6),
      edges: { sides: one(["open", "closed"] as const), ends: one(["open", "closed"] as const) },
      backPlate: null,
    };
    const places = edges.sides === "clamped" ? [0, 0.31, 0.45, 0.5] : [0, 0.31, 0.45];
    const place = one(places);
    const tension = { across: (pullAcross * d11) / across ** 2, along: (pullAlong * d11) / across ** 2 };
    return {
      microphone: {
        diaphragm: { ...sheet, edges, tension },
        guides: [{ ...workedGuide(place * across), depth: 0.1 * thickness }],
        light: idealLight(633e-9),
        readout: idealReadout,
        air: { ...workedAir, meanFreePath: 67e-9 },
        film,
        front: null,
        back: null,
        body: null,
      },
      says:
        `${String(i + 1).padStart(2)}  ${(1e3 * across).toFixed(2)} x ${(1e3 * across * aspect).toFixed(2)} mm, ` +
        `${(1e6 * thickness).toFixed(1)} um, plate ${edges.sides}/${edges.ends}, tension ${pullAcross.toFixed(0)}/${pullAlong.toFixed(0)}, ` +
        `film ${(1e6 * film.gap).toFixed(1)} um ${film.edges.sides}/${film.edges.ends}, guide ${place} a`,
    };
  });
}
