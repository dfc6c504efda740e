/** One frequency of plate and film in the whole basis, film terms summed in two one-dimensional passes. */
import { coupledSystem, responseAt } from "../src/core/microphone/system/coupled.ts";
import type { Repeated } from "./task.ts";
import { preparedDevice, withAnotherGap, workedOmega } from "./workedDevice.ts";

export const oneFrequency: Repeated = {
  kind: "repeated",
  name: "one frequency, 8 x 8 functions, 28 x 28 film terms, two passes",
  asked: "0.5 ms",
  make: () => {
    const { microphone, prepared, line } = preparedDevice();
    const system = coupledSystem(prepared, microphone);
    return (i) => {
      responseAt({ ...system, microphone: withAnotherGap(microphone, i) }, line, workedOmega);
    };
  },
};
