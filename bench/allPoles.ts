/** All poles up to four first resonances of a device whose shape is known. */
import { shapeEntry } from "../src/core/microphone/engine.ts";
import { enginePoles } from "../src/core/microphone/poles/shapePoles.ts";
import { knownShape } from "./knownShape.ts";
import type { Repeated } from "./task.ts";
import { withAnotherGap } from "./workedDevice.ts";

const poles = (gap: number): Repeated => ({
  kind: "repeated",
  name: `all poles of a known shape, gap ${Math.round(1e6 * gap)} um`,
  asked: "2 ms",
  make: () => {
    const { engine, microphone, first } = knownShape(gap);
    const entry = shapeEntry(engine, microphone);
    const search = { upTo: 4 * first };
    enginePoles(entry, microphone, search);
    return (i) => {
      enginePoles(entry, withAnotherGap(microphone, i), search);
    };
  },
});

export const allPoles: readonly Repeated[] = [poles(5e-6), poles(30e-6), poles(300e-6)];
