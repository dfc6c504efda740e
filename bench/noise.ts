/** What noise adds to a response: the whole device on a shape that is known, response read at 400 frequencies, with noise and without. */

import { engineAnswer } from "../src/core/microphone/engine.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { noiseOf } from "../src/core/microphone/noise/noise.ts";
import { readCurve } from "../src/core/microphone/response/curve.ts";
import { wholeDevice } from "../truth/devices.ts";
import { gridTo, knownShape } from "./knownShape.ts";
import type { Repeated } from "./task.ts";
import { withAnotherGap } from "./workedDevice.ts";

/** The whole device with light: 1 mW launched, read at its steepest. */
const device = (): Microphone => {
  const base = wholeDevice(0.001);
  return { ...base, light: { ...base.light, launched: 1e-3 } };
};

function answering(withNoise: boolean) {
  const { engine, microphone, question } = knownShape(device());
  const frequencies = gridTo(question.to, 400);
  const reference = 1000;
  return (i: number): void => {
    const one = withAnotherGap(microphone, i);
    const { entry, curve, respond } = engineAnswer(engine, one, { ...question, tolerance: 3e-7 });
    const { re, im } = readCurve(curve, frequencies);
    if (!withNoise) return;
    const atReference = respond({ re: 2 * Math.PI * reference, im: 0 });
    const noise = noiseOf({
      microphone: one,
      entry,
      curve,
      response: { frequency: [...frequencies], re: [...re], im: [...im] },
      reference,
      magnitude: Math.hypot(atReference.re, atReference.im),
      peaks: [],
      bias: [Math.PI / 2],
    });
    if (noise.levelA === null) throw new Error("The light's noise is not known.");
  };
}

const task = (name: string, withNoise: boolean, asked?: string): Repeated => ({
  kind: "repeated",
  name,
  ...(asked !== undefined && { asked }),
  make: () => answering(withNoise),
});

export const noise: readonly Repeated[] = [
  task("whole device: response of a known shape at 400 frequencies, without noise", false),
  task("whole device: the same with all of its noise", true, "5 ms more"),
];
