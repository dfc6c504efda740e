/** What an accelerated frame reads as. */

import { accelerationAt, equivalentLevelDb } from "../src/core/microphone/response/vibration.ts";
import { coupledSystem, responseAt } from "../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../src/core/microphone/system/line.ts";
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

export const rows: readonly TruthRow[] = [
  {
    what: "bare plate of 30 um glass: sound level that reads as 1 m/s2, at 1 kHz [dB re 20 uPa]",
    got: () => {
      const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
      const prepared = prepare(microphone);
      const system = coupledSystem(prepared, microphone);
      const line = prepareLine(prepared, microphone);
      const omega = complex(2000 * Math.PI);
      const level = equivalentLevelDb(accelerationAt(system, line, omega), responseAt(system, line, omega));
      return level ?? Number.NaN;
    },
    expected: 71.5,
    within: 0.05 / 71.5,
    why: "half the last digit given",
    origin: "exact",
    source: "a mass per area under an acceleration is a pressure: 20 log10(rho h / 20 uPa)",
  },
];
