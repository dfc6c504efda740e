/** What the engine's whole response is held against: the same number of whole solutions, in two passes and by the direct sum. */

import { engineAnswer } from "../src/core/microphone/engine.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { coupledSystem, readPhase, responseAt, solveLoad } from "../src/core/microphone/system/coupled.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { directSystem, setFrequencyDirectly } from "./directFilm.ts";
import { gridTo, knownShape } from "./knownShape.ts";
import type { Repeated } from "./task.ts";
import { withAnotherGap } from "./workedDevice.ts";

const gap = 30e-6;

/** Frequencies that the engine's curve solves for this device. */
function samples(microphone: Microphone) {
  const { engine, question } = knownShape(microphone);
  const { curve, entry, line } = engineAnswer(engine, microphone, question);
  return { entry, line, frequencies: gridTo(question.to, curve.samples) };
}

export const responseTwoPass: Repeated = {
  kind: "repeated",
  name: "judge: as many whole solutions as the response at 30 um has samples, two passes",
  make: () => {
    const { microphone } = knownShape(gap);
    const { entry, line, frequencies } = samples(microphone);
    return (i) => {
      const system = coupledSystem(entry.prepared, withAnotherGap(microphone, i));
      for (const frequency of frequencies) responseAt(system, line, complex(2 * Math.PI * frequency));
    };
  },
};

export const responseDirect: Repeated = {
  kind: "repeated",
  name: "judge: as many whole solutions as the response at 30 um has samples, direct sum",
  make: () => {
    const { microphone } = knownShape(gap);
    const { entry, line, frequencies } = samples(microphone);
    const direct = directSystem(entry.prepared, microphone);
    return (i) => {
      const system = { ...direct.system, microphone: withAnotherGap(microphone, i) };
      for (const frequency of frequencies) {
        const omega = complex(2 * Math.PI * frequency);
        setFrequencyDirectly({ ...direct, system }, omega);
        readPhase(system, line, solveLoad(system, entry.prepared.plate.load), omega);
      }
    };
  },
};
