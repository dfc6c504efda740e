/** The same frequency with every film term summed for every pair of functions: the second judge, and what two passes save. */
import { readPhase, solveLoad } from "../src/core/microphone/system/coupled.ts";
import { directSystem, setFrequencyDirectly } from "./directFilm.ts";
import type { Repeated } from "./task.ts";
import { preparedDevice, withAnotherGap, workedOmega } from "./workedDevice.ts";

export const oneFrequencyDirect: Repeated = {
  kind: "repeated",
  name: "one frequency, 8 x 8 functions, 28 x 28 film terms, direct sum",
  make: () => {
    const { microphone, prepared, line } = preparedDevice();
    const direct = directSystem(prepared, microphone);
    return (i) => {
      const system = { ...direct.system, microphone: withAnotherGap(microphone, i) };
      setFrequencyDirectly({ ...direct, system }, workedOmega);
      readPhase(system, line, solveLoad(system, prepared.plate.load), workedOmega);
    };
  },
};
