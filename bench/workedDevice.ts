/** The device of the one-frequency rows: 5 mm square, 30 um of glass, guide at 0.45 of the side, open film of 50 um. */

import type { Microphone } from "../src/core/microphone/microphone.ts";
import { prepareLine } from "../src/core/microphone/system/line.ts";
import { prepare, resolution } from "../src/core/microphone/system/prepare.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { workedMicrophone } from "../truth/devices.ts";

export const workedDevice = (): Microphone =>
  workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 50e-6, at: 2.25e-3, lossFactor: 1e-3 });

/** 8 x 8 plate functions, 28 x 28 film terms. */
export const workedResolution = { ...resolution({ across: 8, along: 8 }), filmTerms: 28 };

export function preparedDevice() {
  const microphone = workedDevice();
  const prepared = prepare(microphone, workedResolution);
  return { microphone, prepared, line: prepareLine(prepared, microphone) };
}

/** The same microphone with its gap changed by i times 1e-6 of itself: another device each time. */
export function withAnotherGap(microphone: Microphone, i: number): Microphone {
  const { film } = microphone;
  return film === null ? microphone : { ...microphone, film: { ...film, gap: film.gap * (1 + 1e-6 * i) } };
}

/** 5 kHz, half the first resonance in vacuum [rad/s]. */
export const workedOmega = complex(2 * Math.PI * 5000);
