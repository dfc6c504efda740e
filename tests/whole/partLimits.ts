/** Every part at its limit beside the device without it. */

import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { coupledSystem, responseAt } from "../../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../../src/core/microphone/system/line.ts";
import { prepare, resolution } from "../../src/core/microphone/system/prepare.ts";
import { complex } from "../../src/core/numerics/complex.ts";
import type { Hole } from "../../src/core/parts/acoustics/acoustics.ts";

export interface PartLimit {
  readonly says: string;
  readonly near: Microphone;
  readonly without: Microphone;
}

export function limitsOf(microphone: Microphone): readonly PartLimit[] {
  const { film, front, back } = microphone;
  const limits: PartLimit[] = [];
  const say = (says: string, near: Microphone, without: Microphone) => limits.push({ says, near, without });
  const shutHole = (hole: Hole): Hole => ({ ...hole, diameter: 1e-8 });
  if (back) {
    const withBack = (change: Partial<typeof back>): Microphone => ({ ...microphone, back: { ...back, ...change } });
    // Something must be left that takes the air behind.
    if (back.vent && back.cavity) {
      const { vent } = back;
      const shut = vent.shape === "round" ? { ...vent, diameter: 1e-8 } : { ...vent, height: 1e-9 };
      say("vent shut", withBack({ vent: shut }), withBack({ vent: null }));
    }
    if (back.leak && back.cavity)
      say("leak shut", withBack({ leak: { ...back.leak, height: 1e-9 } }), withBack({ leak: null }));
    if (back.cavity && !back.vent && !back.leak)
      say("volume without end behind", withBack({ cavity: { volume: 1e6, surface: 1 } }), {
        ...microphone,
        back: null,
      });
    if (back.cavity && back.vent && !back.vent.exposed)
      say(
        "hardly any volume behind",
        withBack({ cavity: { volume: 1e-20, surface: 1e-8 } }),
        withBack({ cavity: null }),
      );
  }
  if (front) {
    const withFront = (change: Partial<typeof front>): Microphone => ({
      ...microphone,
      front: { ...front, ...change },
    });
    if (front.cavity && front.holes.length > 0) {
      say(
        "hardly any volume in front",
        withFront({ cavity: { volume: 1e-20, surface: 1e-8 } }),
        withFront({ cavity: null }),
      );
      say("front holes shut", withFront({ holes: front.holes.map(shutHole) }), withFront({ holes: [] }));
    }
    if (front.holes.length > 0) {
      const wide: Hole = { diameter: 10, length: 1e-9, at: [0, 0], ends: "none" };
      say("front hole without end", withFront({ holes: [wide] }), { ...microphone, front: null, body: null });
    }
  }
  if (film?.backPlate) {
    const { backPlate } = film;
    const without: Microphone = { ...microphone, film: { ...film, backPlate: null } };
    const near =
      backPlate.kind === "admittance"
        ? { ...backPlate, admittance: 1e-15 }
        : backPlate.kind === "hole"
          ? { ...backPlate, hole: { ...backPlate.hole, diameter: 1e-7 } }
          : { ...backPlate, holes: { ...backPlate.holes, diameter: 1e-7 } };
    say("holes of the wall shut", { ...microphone, film: { ...film, backPlate: near } }, without);
  }
  if (film && !back) {
    const open = { sides: "open", ends: "open" } as const;
    const wide = { gap: 1e3, edges: open, backPlate: null };
    say("film without end", { ...microphone, film: wide }, { ...microphone, film: null });
  }
  return limits;
}

const few = resolution({ across: 5, along: 5 });

/** Largest difference of the response, re the static one or the response, at three frequencies. */
export function offAtLimit({ near, without }: PartLimit): number {
  const answers = [near, without].map((microphone) => {
    const prepared = prepare(microphone, few);
    const system = coupledSystem(prepared, microphone);
    const line = prepareLine(prepared, microphone);
    const response = [700, 4000, 17000].map((frequency) => responseAt(system, line, complex(2 * Math.PI * frequency)));
    return { response, floor: 1e-3 * Math.abs(line.static) };
  });
  const [one, other] = answers as [(typeof answers)[number], (typeof answers)[number]];
  return Math.max(
    ...one.response.map((value, i) => {
      const against = other.response[i]!;
      const size = Math.max(Math.hypot(against.re, against.im), other.floor, Number.MIN_VALUE);
      return Math.hypot(value.re - against.re, value.im - against.im) / size;
    }),
  );
}
