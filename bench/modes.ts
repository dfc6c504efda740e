/** Both fundamental modes of a diffused guide, to 1e-6 in effective index; and one point of the window chart. */
import { exchangedProfile, salts } from "../src/core/parts/guide/exchange.ts";
import { solveModes } from "../src/core/parts/guide/modes/solveModes.ts";
import { sectionOf } from "../src/core/parts/guide/profile.ts";
import { heldBy } from "../src/core/tasks/light/modeWindow.ts";
import type { Repeated } from "./task.ts";

const wavelength = 633e-9;
const base = 1.515;

/** A guide of its own each time: nothing is remembered. */
const profile = (i: number) =>
  exchangedProfile({
    temperature: 658.15,
    time: 3 * 3600 * (1 + 1e-6 * i),
    window: 4e-6,
    indexChange: 0.009,
    birefringence: 0.001,
    diffusion: salts.potassium.diffusion,
  });

export const modes: readonly Repeated[] = [
  {
    kind: "repeated",
    name: "guide, TE and TM mode",
    asked: "150 ms",
    make: () => (i) => {
      const section = sectionOf(profile(i), base, wavelength);
      for (const polarization of ["TE", "TM"] as const) {
        const question = { wavelength, polarization, field: "semivectorial", odd: false, count: 1, degree: 4 } as const;
        if (solveModes(section, question).length !== 1) throw new Error("No mode.");
      }
    },
  },
  {
    kind: "repeated",
    name: "guide, a point of the window",
    asked: "50 ms",
    make: () => (i) => {
      heldBy(profile(i), base, wavelength);
    },
  },
];
