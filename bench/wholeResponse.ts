/** The whole response of a shape that is known, read at 400 frequencies: what every step of a dragged value costs. */

import { engineAnswer } from "../src/core/microphone/engine.ts";
import { readCurve } from "../src/core/microphone/response/curve.ts";
import { gridTo, knownShape } from "./knownShape.ts";
import type { Repeated } from "./task.ts";
import { withAnotherGap } from "./workedDevice.ts";

const response = (gap: number, asked: string): Repeated => ({
  kind: "repeated",
  name: `whole response of a known shape at 400 frequencies, gap ${Math.round(1e6 * gap)} um`,
  asked,
  make: () => {
    const { engine, microphone, question } = knownShape(gap);
    const frequencies = gridTo(question.to, 400);
    return (i) => {
      const { curve, route } = engineAnswer(engine, withAnotherGap(microphone, i), question);
      if (route !== "reduced" || !curve.converged)
        throw new Error(`Answered by the ${route} basis, ${curve.samples} samples.`);
      readCurve(curve, frequencies);
    };
  },
});

export const wholeResponses: readonly Repeated[] = [
  response(5e-6, "2.5 ms"),
  response(30e-6, "1.5 ms"),
  response(300e-6, "1.5 ms"),
];
